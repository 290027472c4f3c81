using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Health;

public sealed class MeshHealthTests
{
    [Fact]
    public void A_box_is_sound()
    {
        var health = MeshHealth.Of(Solids.Box(1, 2, 3));
        Assert.True(health.Closed && health.Manifold && health.Oriented);
        Assert.Equal((12, 8, 2), (health.Triangles, health.Vertices, health.EulerCharacteristic));
        Assert.Equal((0, 0, 0, 0), (health.BoundaryEdges, health.NonManifoldEdges, health.DegenerateTriangles, health.DuplicateTriangles));
        var shell = Assert.Single(health.Shells);
        Assert.Equal((ShellKind.Solid, 12, 8, 2), (shell.Kind, shell.Triangles, shell.Vertices, shell.EulerCharacteristic));
        Assert.Equal(6, shell.VolumeMm3, 1e-12);
        Assert.Equal(22, shell.AreaMm2, 1e-12);
    }

    // Euler–Poincaré: χ = 2 − 2g; a torus has g = 1.
    [Fact]
    public void A_ring_has_characteristic_zero() => Assert.Equal(0, MeshHealth.Of(Solids.Torus(20, 5, 40, 20)).EulerCharacteristic);

    [Fact]
    public void A_missing_triangle_leaves_three_open_edges_and_says_where()
    {
        var box = Solids.Box(1, 1, 1);
        var health = MeshHealth.Of(new TriangleMesh(box.Positions.ToArray(), box.Indices[3..].ToArray()));
        Assert.False(health.Closed);
        Assert.True(health.Manifold);
        Assert.Equal(3, health.BoundaryEdges);
        Assert.Equal(1, health.EulerCharacteristic);
        Assert.Equal(ShellKind.Open, Assert.Single(health.Shells).Kind);
        Assert.Equal(3, health.BoundaryPlaces.Count);
        Assert.All(health.BoundaryPlaces, p => Assert.Equal(0, p.Z));
    }

    [Fact]
    public void A_turned_triangle_is_not_oriented()
    {
        var f = Solids.Box(1, 1, 1).Indices.ToArray();
        (f[0], f[1]) = (f[1], f[0]);
        var health = MeshHealth.Of(new TriangleMesh(Solids.Box(1, 1, 1).Positions.ToArray(), f));
        Assert.True(health.Closed && health.Manifold);
        Assert.False(health.Oriented);
        Assert.Equal(3, health.DisorientedEdges);
        Assert.Equal(ShellKind.Unclear, Assert.Single(health.Shells).Kind);
    }

    [Fact]
    public void Two_boxes_that_share_an_edge_are_not_edge_manifold()
    {
        var second = Solids.Box(1, 1, 1).Transformed(Rotation.Identity, new Vec3(1, 1, 0));
        var health = MeshHealth.Of(ExactWeld.Of(Solids.Together(Solids.Box(1, 1, 1), second)));
        Assert.True(health.Closed && health.Oriented);
        Assert.False(health.Manifold);
        Assert.Equal(1, health.NonManifoldEdges);
        Assert.Equal(2, health.NonManifoldVertices);
        Assert.Equal(new Vec3(1, 1, 0.5), Assert.Single(health.NonManifoldEdgePlaces));
    }

    [Fact]
    public void Two_boxes_that_share_a_corner_are_two_shells_and_not_vertex_manifold()
    {
        var second = Solids.Box(1, 1, 1).Transformed(Rotation.Identity, new Vec3(1, 1, 1));
        var health = MeshHealth.Of(ExactWeld.Of(Solids.Together(Solids.Box(1, 1, 1), second)));
        Assert.Equal((0, 1), (health.NonManifoldEdges, health.NonManifoldVertices));
        Assert.False(health.Manifold);
        Assert.Equal(2, health.Shells.Count);
        Assert.All(health.Shells, s => Assert.Equal((8, 2), (s.Vertices, s.EulerCharacteristic)));
        Assert.Equal(3, health.EulerCharacteristic);
        Assert.Equal(new Vec3(1, 1, 1), Assert.Single(health.NonManifoldVertexPlaces));
    }

    [Fact]
    public void A_triangle_twice_is_a_duplicate_whichever_way_round()
    {
        var box = Solids.Box(1, 1, 1);
        int[] f = [.. box.Indices, 2, 3, 0, 0, 3, 2];
        var health = MeshHealth.Of(new TriangleMesh(box.Positions.ToArray(), f));
        Assert.Equal(2, health.DuplicateTriangles);
        Assert.Equal(3, health.NonManifoldEdges);
        Assert.Equal(1, MeshHealth.Of(new TriangleMesh([0, 0, 0, 1, 0, 0, 0, 1, 0], [0, 1, 2, 0, 2, 1])).DuplicateTriangles);
    }

    [Fact]
    public void A_triangle_without_area_is_degenerate_and_does_not_open_the_surface()
    {
        var box = Solids.Box(1, 1, 1);
        var health = MeshHealth.Of(new TriangleMesh(box.Positions.ToArray(), [.. box.Indices, 0, 0, 1, 5, 5, 5]));
        Assert.Equal(2, health.DegenerateTriangles);
        Assert.True(health.Closed && health.Manifold && health.Oriented);
        Assert.Equal(2, health.EulerCharacteristic);
        Assert.Equal(-1, health.ShellOfTriangle.Span[12]);
    }

    [Fact]
    public void Three_corners_on_a_line_are_degenerate() =>
        Assert.Equal(1, MeshHealth.Of(new TriangleMesh([0, 0, 0, 1, 2, 3, 2, 4, 6], [0, 1, 2])).DegenerateTriangles);

    [Fact]
    public void A_void_in_a_solid_is_a_void_and_an_island_in_it_is_a_solid()
    {
        var health = MeshHealth.Of(Solids.Together(
            Centred(10), Solids.Inverted(Centred(8)), Centred(6), Solids.Inverted(Centred(4))));
        Assert.Equal([ShellKind.Solid, ShellKind.Void, ShellKind.Solid, ShellKind.Void], health.Shells.Select(s => s.Kind));
        Assert.Equal([-1, 0, 1, 2], health.Shells.Select(s => s.Parent));
        Assert.Equal([0, 1, 2, 3], health.Shells.Select(s => s.Depth));
        Assert.Equal((2, 2), (health.Solids, health.Voids));
    }

    [Fact]
    public void Everything_inside_out_is_told_from_a_void()
    {
        var health = MeshHealth.Of(Solids.Inverted(Solids.Together(Centred(10), Solids.Inverted(Centred(8)))));
        Assert.Equal([ShellKind.InsideOut, ShellKind.InsideOut], health.Shells.Select(s => s.Kind));
    }

    [Fact]
    public void A_solid_inside_a_solid_is_said_to_be_one() =>
        Assert.Equal([ShellKind.Solid, ShellKind.SolidInSolid], MeshHealth.Of(Solids.Together(Centred(10), Centred(4))).Shells.Select(s => s.Kind));

    [Fact]
    public void Shells_side_by_side_are_not_nested()
    {
        // A ball in the hole of a ring is inside the ring's box but not inside the ring.
        var health = MeshHealth.Of(Solids.Together(Solids.Torus(20, 5, 40, 20), Solids.Icosphere(4, 3)));
        Assert.Equal([ShellKind.Solid, ShellKind.Solid], health.Shells.Select(s => s.Kind));
        Assert.Equal([-1, -1], health.Shells.Select(s => s.Parent));
        Assert.Equal([0, 2], health.Shells.Select(s => s.EulerCharacteristic));
    }

    [Fact]
    public void A_shell_below_an_arch_has_the_arch_above_it_and_not_around_it()
    {
        // The ring stands upright: above the ball's top is the ring, entered from outside.
        var upright = Solids.Torus(20, 5, 40, 20).Transformed(Rotation.About(Vec3.UnitX, Math.PI / 2));
        var health = MeshHealth.Of(Solids.Together(upright, Solids.Icosphere(4, 3), Solids.Inverted(Solids.Icosphere(2, 2, new Vec3(0, 0, 20)))));
        Assert.Equal([ShellKind.Solid, ShellKind.Solid, ShellKind.Void], health.Shells.Select(s => s.Kind));
    }

    [Fact]
    public void A_thousand_voids_are_each_found()
    {
        var parts = new List<TriangleMesh> { Solids.Box(100, 100, 100) };
        for (var i = 0; i < 1000; i++)
            parts.Add(Solids.Inverted(Solids.Icosphere(3, 1, new Vec3(5 + (10 * (i % 10)), 5 + (10 * (i / 10 % 10)), 5 + (10 * (i / 100))))));
        var health = MeshHealth.Of(Solids.Together([.. parts]));
        Assert.Equal((1, 1000), (health.Solids, health.Voids));
        Assert.All(health.Shells.Skip(1), s => Assert.Equal((0, 1), (s.Parent, s.Depth)));
    }

    [Fact]
    public void A_folded_sheet_encloses_nothing()
    {
        var health = MeshHealth.Of(new TriangleMesh([0, 0, 0, 5, 0, 0, 0, 5, 0], [0, 1, 2, 0, 2, 1]));
        Assert.True(health.Closed);
        Assert.Equal(ShellKind.Unclear, Assert.Single(health.Shells).Kind);
    }

    [Fact]
    public void Nothing_is_not_closed() => Assert.False(MeshHealth.Of(new TriangleMesh([], [])).Closed);

    [Fact]
    public void A_fan_of_many_triangles_at_one_vertex_is_no_trouble()
    {
        var health = MeshHealth.Of(Solids.Cylinder(10, 20, 100_000));
        Assert.True(health.Closed && health.Manifold && health.Oriented);
        Assert.Equal(2, health.EulerCharacteristic);
    }

    private static TriangleMesh Centred(double edge) =>
        Solids.Box(edge, edge, edge).Transformed(Rotation.Identity, new Vec3(-edge / 2, -edge / 2, -edge / 2));
}
