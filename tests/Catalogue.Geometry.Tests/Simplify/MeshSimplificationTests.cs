using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Simplify;
using Xunit;

namespace Catalogue.Geometry.Tests.Simplify;

public sealed class MeshSimplificationTests
{
    // Sides of 24 mm cut into squares of 1 mm: flat faces need no vertex but the cube's eight corners.
    [Fact]
    public void A_finely_cut_cube_becomes_twelve_triangles_and_stays_the_same_cube()
    {
        var simpler = MeshSimplification.Of(CutCube(24), [12])[0];
        Assert.Equal(12, simpler.Mesh.TriangleCount);
        Assert.Equal(24.0 * 24 * 24, MeshMeasures.Of(simpler.Mesh).VolumeMm3, 0.01);
        Assert.True(simpler.DeviationMm < 1e-3, $"{simpler.DeviationMm} mm");
    }

    // A ball in N equal triangles stands off its sphere by about the sagitta r · 4π / (3 √3 N) · … : for r = 20 and 1 000 triangles 0.1 mm. Twice that is allowed.
    [Fact]
    public void A_ball_stays_round_and_its_deviation_is_told()
    {
        var ball = Solids.Icosphere(20, 5);
        var simpler = MeshSimplification.Of(ball, [1000])[0];
        Assert.InRange(simpler.Mesh.TriangleCount, 900, 1000);
        Assert.InRange(simpler.DeviationMm, 0.01, 0.3);
        var between = RevisionComparison.Between(ComparedRevision.Of(ball), ComparedRevision.Of(simpler.Mesh));
        Assert.InRange(between.LargestDeviation, simpler.DeviationMm - 0.011, (1.25 * simpler.DeviationMm) + 0.011);
        Assert.InRange(MeshMeasures.Of(simpler.Mesh).VolumeMm3 / MeshMeasures.Of(ball).VolumeMm3, 0.98, 1.01);
    }

    [Fact]
    public void A_ring_stays_a_ring_and_a_void_a_void_however_few_triangles_are_asked_for()
    {
        var mesh = Solids.Together(
            Solids.Torus(20, 5, 96, 48),
            Solids.Icosphere(10, 4).Transformed(Rotation.Identity, new(60, 0, 0)),
            Solids.Inverted(Solids.Icosphere(6, 3)).Transformed(Rotation.Identity, new(60, 0, 0)));
        foreach (var simpler in MeshSimplification.Of(mesh, [4000, 600, 1]))
        {
            var (before, after) = (MeshHealth.Of(mesh), MeshHealth.Of(simpler.Mesh));
            var (was, now) = (Topology.Of(before), Topology.Of(after));
            Assert.Equal((was.Shells, was.Handles, was.Closed), (now.Shells, now.Handles, now.Closed));
            if (simpler.DeviationMm < 2) Assert.Equal(was, now); // Coarser than the wall is thick, nothing lies inside anything any more.
            Assert.True(after is { Closed: true, Manifold: true, Oriented: true });
        }
    }

    [Fact]
    public void A_mesh_that_is_small_enough_is_the_very_same()
    {
        var box = Solids.Box(1, 2, 3);
        var simpler = MeshSimplification.Of(box, [100, 12]);
        Assert.All(simpler, s => Assert.Same(box, s.Mesh));
        Assert.All(simpler, s => Assert.Equal(0, s.DeviationMm));
    }

    [Fact]
    public void An_open_sheet_keeps_its_outline()
    {
        var sheet = Sheet(40, 30);
        var simpler = MeshSimplification.Of(sheet, [2])[0].Mesh;
        Assert.Equal(1200, MeshMeasures.Of(simpler).AreaMm2, 1.0);
        Assert.Equal(sheet.Bounds.Size.X, simpler.Bounds.Size.X, 1e-4);
        Assert.True(simpler.TriangleCount <= 12, $"{simpler.TriangleCount} triangles");
    }

    [Fact]
    public void Each_step_is_coarser_and_farther_off_and_the_same_every_time()
    {
        var mesh = Solids.Tube(120, 60, (u, w) =>
        {
            var r = 20 + ((5 + Math.Sin(5 * u)) * Math.Cos(w));
            return new(r * Math.Cos(u), r * Math.Sin(u), (5 + Math.Sin(5 * u)) * Math.Sin(w));
        });
        var (first, second) = (MeshSimplification.Of(mesh, [5000, 1000, 200]), MeshSimplification.Of(mesh, [5000, 1000, 200]));
        Assert.Equal(first.Select(s => s.Mesh.Indices.ToArray()), second.Select(s => s.Mesh.Indices.ToArray()));
        Assert.Equal(first.Select(s => s.DeviationMm).Order(), first.Select(s => s.DeviationMm));
        Assert.True(first[0].DeviationMm < 0.1 && first[2].DeviationMm < 2.5, string.Join(", ", first.Select(s => s.DeviationMm)));
    }

    [Fact]
    public void Where_three_sheets_meet_nothing_moves()
    {
        // Two boxes that share an edge: four triangles meet at it.
        var mesh = ExactWeld.Of(Solids.Together(Solids.Box(10, 10, 10), Solids.Box(10, 10, 10).Transformed(Rotation.Identity, new(10, 10, 0))));
        var simpler = MeshSimplification.Of(mesh, [4])[0].Mesh;
        Assert.Equal(MeshHealth.Of(mesh).NonManifoldEdges, MeshHealth.Of(simpler).NonManifoldEdges);
    }

    [Fact]
    public void It_can_be_stopped()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => MeshSimplification.Of(Solids.Icosphere(10, 5), [100], stop.Token));
    }

    private static TriangleMesh CutCube(int n)
    {
        var faces = new List<TriangleMesh>();
        var sheet = Sheet(n, n);
        foreach (var (rotation, shift) in new (Rotation, Vec3)[]
        {
            (Rotation.Identity, new(0, 0, n)), (new(Vec3.UnitY, Vec3.UnitX, -Vec3.UnitZ), Vec3.Zero),
            (new(Vec3.UnitX, -Vec3.UnitZ, Vec3.UnitY), Vec3.Zero), (new(Vec3.UnitX, Vec3.UnitZ, -Vec3.UnitY), new(0, n, n)),
            (new(Vec3.UnitZ, Vec3.UnitX, Vec3.UnitY), new(n, 0, 0)), (new(-Vec3.UnitZ, Vec3.UnitY, Vec3.UnitX), Vec3.Zero),
        })
        {
            faces.Add(sheet.Transformed(rotation, shift));
        }

        return ExactWeld.Of(Solids.Together([.. faces]));
    }

    /// <summary>A flat sheet of unit squares, seen from +z.</summary>
    private static TriangleMesh Sheet(int across, int along)
    {
        var positions = new List<float>();
        var indices = new List<int>();
        for (var j = 0; j <= along; j++)
            for (var i = 0; i <= across; i++) positions.AddRange([i, j, 0]);
        for (var j = 0; j < along; j++)
        {
            for (var i = 0; i < across; i++)
            {
                var a = (j * (across + 1)) + i;
                indices.AddRange([a, a + 1, a + across + 2, a, a + across + 2, a + across + 1]);
            }
        }

        return new([.. positions], [.. indices]);
    }
}
