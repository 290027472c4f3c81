using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Repair;
using Xunit;

namespace Catalogue.Geometry.Tests.Repair;

public sealed class MeshRepairTests
{
    [Fact]
    public void A_sound_mesh_is_left_alone()
    {
        var ball = Solids.Icosphere(10, 3);
        var repair = MeshRepair.Propose(ball);
        Assert.Empty(repair.Changes);
        Assert.Equal(ball.Positions, repair.Mesh.Positions);
        Assert.Equal(ball.Indices, repair.Mesh.Indices);
    }

    [Fact]
    public void The_mesh_given_is_not_changed()
    {
        var mesh = Without(Solids.Inverted(Solids.Icosphere(10, 2)), 5);
        var (positions, indices) = (mesh.Positions.ToArray(), mesh.Indices.ToArray());
        Assert.NotEmpty(MeshRepair.Propose(mesh).Changes);
        Assert.Equal(positions, mesh.Positions.ToArray());
        Assert.Equal(indices, mesh.Indices.ToArray());
    }

    [Fact]
    public void A_shell_inside_out_is_turned_with_the_void_in_it()
    {
        var hollow = Solids.Together(Solids.Icosphere(10, 2), Solids.Inverted(Solids.Icosphere(8, 2)));
        var repair = MeshRepair.Propose(Solids.Inverted(hollow));
        Assert.Equal(2, Only(repair, RepairKind.TurnedShells).Count);
        Assert.Equal([ShellKind.Solid, ShellKind.Void], repair.After.Shells.Select(s => s.Kind));
        Assert.Equal(MeshMeasures.Of(hollow).VolumeMm3, MeshMeasures.Of(repair.Mesh).VolumeMm3, 1e-9);
    }

    [Theory, InlineData(1), InlineData(200), InlineData(300)]
    public void Triangles_that_disagree_with_their_neighbours_are_turned(int wrong)
    {
        var ball = Solids.Icosphere(10, 2);
        var f = ball.Indices.ToArray();
        for (var t = 0; t < wrong; t++) (f[3 * t], f[(3 * t) + 1]) = (f[(3 * t) + 1], f[3 * t]);
        var repair = MeshRepair.Propose(new TriangleMesh(ball.Positions.ToArray(), f));
        Assert.Equal(Math.Min(wrong, 320 - wrong), repair.Changes[0].Count);
        Assert.Equal(RepairKind.TurnedTriangles, repair.Changes[0].Kind);
        Assert.Equal(ShellKind.Solid, Assert.Single(repair.After.Shells).Kind);
        Assert.Equal(MeshMeasures.Of(ball).VolumeMm3, MeshMeasures.Of(repair.Mesh).VolumeMm3, 1e-9);
    }

    // A Möbius strip has one side: there is no way to turn its triangles (any textbook of topology).
    [Fact]
    public void A_strip_with_one_side_is_left_as_it_is()
    {
        const int N = 12;
        var p = new List<float>();
        var f = new List<int>();
        for (var i = 0; i < N; i++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * i / N);
            var (hs, hc) = Math.SinCos(Math.PI * i / N);
            foreach (var w in (ReadOnlySpan<double>)[-4, 4]) p.AddRange([(float)((30 + (w * hc)) * c), (float)((30 + (w * hc)) * s), (float)(w * hs)]);
            var (a, b) = (2 * i, (2 * i) + 1);
            var (d, e) = i + 1 < N ? (a + 2, b + 2) : (1, 0);
            f.AddRange([a, b, d, b, e, d]);
        }

        var repair = MeshRepair.Propose(new TriangleMesh([.. p], [.. f]));
        Assert.False(repair.Before.Oriented);
        Assert.Empty(repair.Changes);
    }

    [Fact]
    public void A_missing_triangle_is_filled()
    {
        var ball = Solids.Icosphere(10, 3);
        var repair = MeshRepair.Propose(Without(ball, 17, 900));
        Assert.Equal(2, Only(repair, RepairKind.FilledHoles).Count);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(MeshMeasures.Of(ball).VolumeMm3, MeshMeasures.Of(repair.Mesh).VolumeMm3, 1e-9);
        var (a, b, c) = ball.Triangle(17);
        Assert.Equal(0, Vec3.Distance((a + b + c) / 3, repair.Changes[0].Places[0]), 1e-6);
    }

    [Fact]
    public void Holes_that_touch_at_a_corner_are_filled_each_by_itself()
    {
        // The first two triangles of the same larger one share the middle of an edge.
        var ball = Solids.Icosphere(10, 3);
        var repair = MeshRepair.Propose(Without(ball, 0, 1));
        Assert.Equal(1, repair.Before.NonManifoldVertices);
        Assert.Equal(2, Only(repair, RepairKind.FilledHoles).Count);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
    }

    [Fact]
    public void A_small_flat_hole_with_a_notched_rim_is_filled()
    {
        // The end of a star-shaped prism: ten corners, five of them notches.
        var repair = MeshRepair.Propose(OpenStar(1.8, 0.9, 10));
        Assert.Equal(1, Only(repair, RepairKind.FilledHoles).Count);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(10 * (1.8 * 0.9 * Math.Sin(Math.PI / 5) / 2) * 10, MeshMeasures.Of(repair.Mesh).VolumeMm3, 1e-4);
    }

    [Fact]
    public void A_hole_that_is_too_large_or_too_bent_stays()
    {
        Assert.Empty(MeshRepair.Propose(OpenStar(20, 10, 10)).Changes);
        var ball = Solids.Icosphere(1.5, 1);
        var top = Enumerable.Range(0, ball.TriangleCount).Where(t => Bend(ball, t)).ToArray();
        var repair = MeshRepair.Propose(Without(ball, top));
        Assert.False(repair.Before.Closed);
        Assert.Empty(repair.Changes);

        // All triangles around two vertices of different height.
        static bool Bend(TriangleMesh m, int t) => m.Indices.Slice(3 * t, 3).ContainsAny(0, m.Indices[0] == 0 ? m.Indices[1] : m.Indices[0]);
    }

    [Fact]
    public void The_border_of_a_flat_sheet_is_no_hole() => Assert.Empty(MeshRepair.Propose(Without(Solids.Box(1, 1, 1), 2, 3, 4, 5, 6, 7, 8, 9, 10, 11)).Changes);

    [Fact]
    public void A_crack_is_stitched_and_no_vertex_moves_farther_than_its_width()
    {
        var (mesh, edges) = Cracked(0.01f);
        var repair = MeshRepair.Propose(mesh);
        Assert.Equal(edges, Only(repair, RepairKind.StitchedCracks).Count);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(2, repair.After.EulerCharacteristic);
        Assert.Equal(MeshMeasures.Of(Solids.Icosphere(10, 3)).VolumeMm3, MeshMeasures.Of(repair.Mesh).VolumeMm3, 0.01 * 320);
    }

    [Fact]
    public void A_crack_wider_than_the_tolerance_stays() => Assert.Empty(MeshRepair.Propose(Cracked(0.03f).Mesh).Changes);

    [Fact]
    public void Limits_of_nought_ask_for_nothing()
    {
        var none = new RepairOptions { CrackMm = 0, HoleMm = 0 };
        Assert.Empty(MeshRepair.Propose(Cracked(0.01f).Mesh, none).Changes);
        Assert.Throws<ArgumentException>(() => MeshRepair.Propose(Solids.Box(1, 1, 1), new RepairOptions { CrackMm = -1 }));
        Assert.Throws<ArgumentException>(() => MeshRepair.Propose(Solids.Box(1, 1, 1), new RepairOptions { HoleMm = double.NaN }));
    }

    [Fact]
    public void Triangles_with_a_repeated_corner_are_dropped()
    {
        var box = Solids.Box(1, 1, 1);
        var repair = MeshRepair.Propose(new TriangleMesh(box.Positions.ToArray(), [0, 0, 1, .. box.Indices, 5, 5, 5]));
        Assert.Equal(2, Only(repair, RepairKind.DroppedDegenerateTriangles).Count);
        Assert.Equal(box.Indices, repair.Mesh.Indices);
    }

    [Fact]
    public void Triangles_without_width_are_drawn_away_without_opening_the_surface()
    {
        var box = NeedleBox();
        var repair = MeshRepair.Propose(box);
        Assert.Equal(2, repair.Before.DegenerateTriangles);
        Assert.Equal(2, Only(repair, RepairKind.DroppedDegenerateTriangles).Count);
        Assert.Equal(0, repair.After.DegenerateTriangles);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal((6.0, 22.0), (MeshMeasures.Of(repair.Mesh).VolumeMm3, MeshMeasures.Of(repair.Mesh).AreaMm2));
    }

    [Fact]
    public void Copies_of_triangles_are_dropped_and_the_first_stays()
    {
        var box = Solids.Box(1, 2, 3);
        var repair = MeshRepair.Propose(new TriangleMesh(box.Positions.ToArray(), [.. box.Indices, .. box.Indices[3..9], .. box.Indices[3..6]]));
        Assert.Equal(3, Only(repair, RepairKind.DroppedDuplicateTriangles).Count);
        Assert.Equal(box.Indices, repair.Mesh.Indices);
    }

    [Fact]
    public void Of_a_triangle_drawn_over_in_reverse_the_right_one_stays()
    {
        var box = Solids.Box(1, 2, 3);
        var repair = MeshRepair.Propose(new TriangleMesh(box.Positions.ToArray(), [box.Indices[2], box.Indices[1], box.Indices[0], .. box.Indices]));
        Assert.Equal(1, Only(repair, RepairKind.DroppedDuplicateTriangles).Count);
        Assert.Equal(box.Indices, repair.Mesh.Indices);
    }

    [Fact]
    public void A_fold_that_sticks_out_is_dropped_whole()
    {
        var box = Solids.Box(1, 2, 3);
        var repair = MeshRepair.Propose(new TriangleMesh([.. box.Positions, 9, 9, 9], [.. box.Indices, 0, 1, 8, 1, 0, 8]));
        Assert.Equal(2, Only(repair, RepairKind.DroppedDuplicateTriangles).Count);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(box.Indices, repair.Mesh.Indices);
    }

    [Fact]
    public void Two_boxes_that_share_a_wall_become_one()
    {
        // The second is the first one's mirror image in the wall, so that the wall is divided the same way.
        var box = Solids.Box(1, 1, 1);
        var p = box.Positions.ToArray();
        for (var i = 0; i < p.Length; i += 3) p[i] = 2 - p[i];
        var repair = MeshRepair.Propose(Solids.Together(box, Solids.Inverted(new TriangleMesh(p, box.Indices.ToArray()))));
        Assert.Equal(4, Only(repair, RepairKind.DroppedDuplicateTriangles).Count);
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(2, MeshMeasures.Of(repair.Mesh).VolumeMm3);
    }

    [Fact]
    public void What_lies_on_itself_everywhere_is_left_alone()
    {
        var box = Solids.Box(1, 1, 1);
        Assert.Empty(MeshRepair.Propose(Solids.Together(box, Solids.Inverted(box))).Changes);
        Assert.Empty(MeshRepair.Propose(new TriangleMesh([], [])).Changes);
    }

    [Fact]
    public void Everything_at_once_is_mended_in_turn()
    {
        var (mesh, _) = Cracked(0.01f);
        var f = Solids.Inverted(mesh).Indices.ToArray();
        int[] all = [.. f[6..], f[30], f[31], f[32], 7, 7, 8];
        (all[90], all[91]) = (all[91], all[90]);
        var repair = MeshRepair.Propose(new TriangleMesh(mesh.Positions.ToArray(), all));
        Assert.Equal(Enum.GetValues<RepairKind>(), repair.Changes.Select(c => c.Kind));
        Assert.True(repair.After.Closed && repair.After.Manifold && repair.After.Oriented);
        Assert.Equal(ShellKind.Solid, Assert.Single(repair.After.Shells).Kind);
        Assert.Equal((0, 0), (repair.After.DegenerateTriangles, repair.After.DuplicateTriangles));
        Assert.Empty(MeshRepair.Propose(repair.Mesh).Changes);
    }

    private static RepairChange Only(MeshRepair repair, RepairKind kind)
    {
        var change = Assert.Single(repair.Changes);
        Assert.Equal(kind, change.Kind);
        Assert.Equal(Math.Min(change.Count, MeshHealth.MostPlaces), change.Places.Count);
        return change;
    }

    private static TriangleMesh Without(TriangleMesh mesh, params int[] triangles) => new(
        mesh.Positions.ToArray(), [.. mesh.Indices.ToArray().Where((_, i) => !triangles.Contains(i / 3))]);

    /// <summary>A ball cut along a line around it, its upper side lifted by a gap; and how many edges the cut has.</summary>
    private static (TriangleMesh Mesh, int Edges) Cracked(float gap)
    {
        var ball = Solids.Icosphere(10, 3);
        float[] p = [.. ball.Positions, .. ball.Positions];
        for (var i = ball.Positions.Length + 2; i < p.Length; i += 3) p[i] += gap;
        var f = ball.Indices.ToArray();
        for (var t = 0; t < ball.TriangleCount; t++)
        {
            var (a, b, c) = ball.Triangle(t);
            if (a.Z + b.Z + c.Z <= 0) continue;
            for (var k = 0; k < 3; k++) f[(3 * t) + k] += ball.VertexCount;
        }

        var mesh = new TriangleMesh(p, f);
        return (mesh, EdgeAdjacency.Of(mesh).BoundaryEdges / 2);
    }

    /// <summary>A 1 × 2 × 3 box whose bottom has two vertices in the middle of an edge's line, with triangles of no width beside them.</summary>
    private static TriangleMesh NeedleBox()
    {
        var box = Solids.Box(1, 2, 3);
        var f = box.Indices.ToArray();

        // The diagonal 0–3 of the bottom gets two points, 8 and 9: the triangle 0 2 3 keeps its long edge, 0 3 1 is divided.
        float[] p = [.. box.Positions, 0.25f, 0.5f, 0, 0.5f, 1, 0];
        int[] rest = f[6..];
        return new(p, [0, 2, 3, 0, 3, 8, 8, 3, 9, 0, 8, 1, 8, 9, 1, 9, 3, 1, .. rest]);
    }

    /// <summary>An upright prism over a five-pointed star, open at the top.</summary>
    private static TriangleMesh OpenStar(double outer, double inner, double height)
    {
        var p = new List<float>();
        for (var i = 0; i < 10; i++)
        {
            var (s, c) = Math.SinCos(Math.PI * i / 5);
            var r = i % 2 == 0 ? outer : inner;
            p.AddRange([(float)(r * c), (float)(r * s), 0, (float)(r * c), (float)(r * s), (float)height]);
        }

        p.AddRange([0, 0, 0]);
        var f = new List<int>();
        for (var i = 0; i < 10; i++)
        {
            var (a, b) = (2 * i, 2 * ((i + 1) % 10));
            f.AddRange([a, b, b + 1, a, b + 1, a + 1, 20, b, a]);
        }

        return new([.. p], [.. f]);
    }
}
