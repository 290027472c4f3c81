using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Repair;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Repair;

/// <summary>What must hold of a repair, whatever is wrong with the mesh.</summary>
public sealed class MeshRepairProperties
{
    /// <summary>A ball with any number of triangles lost, copied, turned, flattened or cut loose and shaken.</summary>
    private static readonly Gen<TriangleMesh> Damaged =
        from harm in Gen.Select(Gen.Int[0, 4], Gen.Int[0, 319]).List[0, 40]
        from seed in Gen.Int
        select Harmed(harm, seed);

    [Fact]
    public void A_repair_makes_nothing_worse_and_moves_no_vertex_beyond_the_tolerance() => Damaged.Sample(mesh =>
    {
        var repair = MeshRepair.Propose(mesh);
        Assert.True(repair.After.NonManifoldEdges <= repair.Before.NonManifoldEdges);
        Assert.True(repair.After.DegenerateTriangles <= repair.Before.DegenerateTriangles);
        Assert.True(repair.After.Closed || !repair.Before.Closed);
        Assert.All(repair.Changes, c => Assert.InRange(c.Count, 1, int.MaxValue));

        // Vertices stay where vertices were.
        var places = Enumerable.Range(0, mesh.VertexCount).Select(mesh.Vertex).ToHashSet();
        for (var v = 0; v < repair.Mesh.VertexCount; v++) Assert.Contains(repair.Mesh.Vertex(v), places);
    }, iter: 300, threads: 1);

    [Fact]
    public void The_same_mesh_is_repaired_the_same_way() => Damaged.Sample(mesh =>
    {
        var (one, two) = (MeshRepair.Propose(mesh), MeshRepair.Propose(mesh));
        Assert.Equal(one.Mesh.Positions, two.Mesh.Positions);
        Assert.Equal(one.Mesh.Indices, two.Mesh.Indices);
    }, iter: 50, threads: 1);

    /// <summary>Of triangles lost side by side some stay lost: where a filling would need an edge that is there already, the hole is left alone.</summary>
    [Fact]
    public void Triangles_lost_apart_from_each_other_are_all_found_again() => Gen.Int[0, 1279].HashSet[1, 30].Sample(some =>
    {
        var ball = Solids.Icosphere(10, 3);
        var lost = Apart(ball, some);
        var left = new TriangleMesh(ball.Positions.ToArray(), [.. ball.Indices.ToArray().Where((_, i) => !lost.Contains(i / 3))]);
        Assert.NotEmpty(lost);
        var repair = MeshRepair.Propose(left, new RepairOptions { HoleMm = 20, FlatWithinMm = 20 });
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(ball.TriangleCount, repair.After.Triangles);
        Assert.Equal(2, repair.After.EulerCharacteristic);
    }, iter: 300, threads: 1);

    /// <summary>Those of the triangles that share no corner with one before them.</summary>
    private static HashSet<int> Apart(TriangleMesh mesh, IEnumerable<int> triangles)
    {
        var (apart, corners) = (new HashSet<int>(), new HashSet<int>());
        foreach (var triangle in triangles)
        {
            var own = mesh.Indices.Slice(3 * triangle, 3).ToArray();
            if (corners.Overlaps(own)) continue;
            corners.UnionWith(own);
            apart.Add(triangle);
        }

        return apart;
    }

    private static TriangleMesh Harmed(List<(int Kind, int Triangle)> harm, int seed)
    {
        var ball = Solids.Icosphere(10, 2);
        var random = new Random(seed);
        var p = ball.Positions.ToArray().ToList();
        var f = ball.Indices.ToArray().ToList();
        foreach (var (kind, t) in harm)
        {
            var i = 3 * (t % (f.Count / 3));
            switch (kind)
            {
                case 0: f.RemoveRange(i, 3); break;
                case 1: f.AddRange([f[i], f[i + 1], f[i + 2]]); break;
                case 2: (f[i + 1], f[i + 2]) = (f[i + 2], f[i + 1]); break;
                case 3: f[i] = f[i + 1]; break;
                default:
                    for (var k = 0; k < 3; k++)
                    {
                        for (var axis = 0; axis < 3; axis++) p.Add(p[(3 * f[i + k]) + axis] + (0.02f * (random.NextSingle() - 0.5f)));
                        f[i + k] = (p.Count / 3) - 1;
                    }

                    break;
            }
        }

        return new([.. p], [.. f]);
    }
}
