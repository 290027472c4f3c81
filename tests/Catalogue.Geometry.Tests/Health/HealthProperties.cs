using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Health;

public sealed class HealthProperties
{
    [Fact]
    public void Health_does_not_depend_on_the_order_of_anything() =>
        Gen.Select(Gen.OneOf(AnyMesh.Solid, AnyMesh.Heap), Gen.Int).Sample(
            (mesh, seed) => Assert.Equal(Facts(mesh), Facts(AnyMesh.Shuffled(mesh, seed))), iter: 1000);

    [Fact]
    public void Edges_are_counted_as_by_hand() => AnyMesh.Heap.Sample(
        mesh =>
        {
            var edges = new Dictionary<(int, int), int>();
            var triangles = new Dictionary<(int, int, int), int>();
            var whole = 0;
            for (var t = 0; t < mesh.TriangleCount; t++)
            {
                var f = mesh.Indices.Slice(3 * t, 3).ToArray();
                if (f.Distinct().Count() < 3) continue;
                whole++;
                for (var k = 0; k < 3; k++)
                {
                    var (a, b) = (Math.Min(f[k], f[(k + 1) % 3]), Math.Max(f[k], f[(k + 1) % 3]));
                    edges[(a, b)] = edges.GetValueOrDefault((a, b)) + 1;
                }

                Array.Sort(f);
                triangles[(f[0], f[1], f[2])] = triangles.GetValueOrDefault((f[0], f[1], f[2])) + 1;
            }

            var health = MeshHealth.Of(mesh);
            Assert.Equal(edges.Values.Count(n => n == 1), health.BoundaryEdges);
            Assert.Equal(edges.Values.Count(n => n > 2), health.NonManifoldEdges);
            Assert.Equal(triangles.Values.Sum(n => n - 1), health.DuplicateTriangles);
            Assert.Equal(edges.Count > 0 && edges.Values.All(n => n % 2 == 0), health.Closed);
            Assert.Equal(edges.Keys.SelectMany(e => new[] { e.Item1, e.Item2 }).Distinct().Count() - edges.Count + whole, health.EulerCharacteristic);
            Assert.Equal(whole, health.Shells.Sum(s => s.Triangles));
        },
        iter: 2000);

    [Fact]
    public void A_large_mesh_in_random_order_is_judged_like_the_same_in_good_order()
    {
        // Welded as a reader does it: vertices numbered as they first appear.
        var mesh = ExactWeld.Of(Solids.Together(
            Solids.Icosphere(50, 5), Solids.Inverted(Solids.Icosphere(40, 5)), Solids.Torus(100, 10, 60, 40), Solids.Icosphere(30, 5)));
        var shuffled = AnyMesh.Shuffled(mesh, 3);
        Assert.False(CoherentOrder.Pays(mesh));
        Assert.True(CoherentOrder.Pays(shuffled));
        Assert.Equal(Facts(mesh), Facts(shuffled));

        // Shells are numbered by their first triangle in the file's order, whatever order was worked in.
        var health = MeshHealth.Of(shuffled);
        var firsts = health.ShellOfTriangle.ToArray().Distinct().ToList();
        Assert.Equal([0, 1, 2, 3], firsts);
        for (var t = 0; t < shuffled.TriangleCount; t += 97)
        {
            var (a, _, _) = shuffled.Triangle(t);
            var box = health.Shells[health.ShellOfTriangle.Span[t]].Bounds;
            Assert.Equal(box, box.Including(a));
        }
    }

    [Fact]
    public void A_new_order_holds_the_same_triangles() => Gen.Select(AnyMesh.Solid, Gen.Int).Sample(
        (mesh, seed) =>
        {
            var order = CoherentOrder.Of(AnyMesh.Shuffled(mesh, seed));
            var shuffled = AnyMesh.Shuffled(mesh, seed);
            Assert.Equal(Enumerable.Range(0, mesh.TriangleCount), order.Original.ToArray().Order());
            for (var t = 0; t < mesh.TriangleCount; t++) Assert.Equal(shuffled.Triangle(order.Original[t]), order.Mesh.Triangle(t));
        },
        iter: 100);

    private static string Facts(TriangleMesh mesh)
    {
        var h = MeshHealth.Of(mesh);
        var shells = string.Join("; ", h.Shells.Select(s => $"{s.Kind} {s.Triangles} {s.Vertices} {s.EulerCharacteristic} {s.Closed} {s.Oriented} {s.Depth}").Order(StringComparer.Ordinal));
        return $"{h.Triangles} {h.Vertices} {h.Closed} {h.Manifold} {h.Oriented} {h.BoundaryEdges} {h.NonManifoldEdges} {h.NonManifoldVertices} {h.DisorientedEdges} {h.DegenerateTriangles} {h.DuplicateTriangles} {h.EulerCharacteristic} | {shells}";
    }
}
