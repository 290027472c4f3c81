using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Spatial;
using Catalogue.Geometry.Thickness;
using Xunit;

namespace Catalogue.Geometry.Tests.Thickness;

// Every expected value is a closed form of the shape; the tolerances are those the class states.
public sealed class LocalThicknessTests
{
    private static readonly Rotation Odd = Rotation.About(new(1, 2, 3), 0.7);

    [Theory, InlineData(false), InlineData(true)]
    public void A_plate_is_as_thick_as_it_is(bool turned)
    {
        foreach (var height in new[] { 0.3, 0.8, 2 })
        {
            var plate = Solids.Box(40, 30, height);
            var found = Matter(turned ? plate.Transformed(Odd, new(5, -7, 9)) : plate).Distribution!.Value;
            Assert.Equal(height, found.MinMm, 0.002 * height);
            Assert.Equal(height, found.P05Mm, 0.002 * height);
            Assert.Equal(height, found.MedianMm, 0.002 * height);
        }
    }

    [Fact]
    public void A_cube_has_no_thin_region_and_is_as_thick_as_it_is_wide_up_to_its_edges()
    {
        var found = Matter(Solids.Box(20, 20, 20).Transformed(Odd));
        Assert.Equal(20, found.Distribution!.Value.MinMm, 0.04);
        Assert.Equal(20, found.Distribution!.Value.MedianMm, 0.04);
        Assert.Equal(2400, found.OpposedAreaMm2, 1.0);
        Assert.Empty(found.Below(19.9));
        Assert.Single(found.Below(20.1));
    }

    [Fact]
    public void A_chamfer_of_45_degrees_is_not_a_thin_wall()
    {
        Assert.Empty(Matter(Slabs.Chamfered(20, 20, 20, 2).Transformed(Odd)).Below(5));
    }

    [Fact]
    public void A_spherical_shell_is_as_thick_as_the_difference_of_its_radii_everywhere()
    {
        var shell = Matter(Solids.Together(Solids.Icosphere(10, 5), Solids.Inverted(Solids.Icosphere(8.8, 5))));

        // Level 5: the facets of both balls lie up to 0.0003 of the radius inside their spheres.
        Assert.Equal(1.2, shell.Distribution!.Value.MinMm, 0.006);
        Assert.Equal(1.2, shell.Distribution!.Value.P01Mm, 0.006);
        Assert.Equal(1.2, shell.Distribution!.Value.MedianMm, 0.006);
        Assert.Empty(shell.Below(1.19));
        var region = Assert.Single(shell.Below(1.21));
        Assert.False(region.FreeStanding);
        Assert.Equal(4 * Math.PI * ((10 * 10) + (8.8 * 8.8)), region.AreaMm2, 10.0);
    }

    [Fact]
    public void A_solid_ball_and_a_rod_are_as_thick_as_their_diameter()
    {
        Assert.Equal(20, Matter(Solids.Icosphere(10, 4)).Distribution!.Value.MedianMm, 0.1);
        var rod = Matter(Solids.Cylinder(2, 60, 96)).Distribution!.Value;
        Assert.Equal(4, rod.MedianMm, 0.02);
        Assert.Equal(4, rod.P01Mm, 0.03);
    }

    // The ball in a wedge of angle a, touching both sides at x from its edge, has the diameter 2 x tan(a / 2).
    [Theory, InlineData(5), InlineData(15), InlineData(30)]
    public void A_tapered_slab_is_thick_in_proportion_to_the_distance_from_its_edge(double degrees)
    {
        var half = Math.Tan(degrees * Math.PI / 360);
        var slab = Slabs.Wedge(degrees, 4, 24, 30).Transformed(Odd);
        var found = Matter(slab);
        var inverse = Odd.Inverse();
        var checkedCells = 0;
        for (var t = 0; t < slab.TriangleCount; t++)
        {
            var (first, end) = found.Cells.CellsOf(t);
            for (var cell = first; cell < end; cell++)
            {
                var (a, b, c) = found.Cells.Corners(t, cell);
                var p = inverse.Apply((a + b + c) / 3);
                var n = inverse.Apply(Vec3.Cross(b - a, c - a).Normalized());
                if (Math.Abs(n.Y) > 0.5 || Math.Abs(n.Z) < 0.5) continue; // the two sloping sides only

                // Beyond the slab's end the ball of the wedge would stick out at the thick end: keep clear of it.
                var x = Math.Sqrt((p.X * p.X) + (p.Z * p.Z));
                if (x > 22) continue;
                Assert.Equal(2 * x * half, found.Values[cell], 0.005 * 2 * x * half);
                checkedCells++;
            }
        }

        Assert.True(checkedCells > 1000);
    }

    [Fact]
    public void The_thin_part_of_a_tapered_slab_ends_where_it_reaches_the_limit()
    {
        // 10 degrees, limit 1.4 mm: the two sides are thin up to x = 1.4 / (2 tan 5°) = 8.001 from the edge, 30 mm wide, less 4 mm cut off at the edge.
        var region = Assert.Single(Matter(Slabs.Wedge(10, 4, 24, 30)).Below(1.4));
        var reach = 0.7 / Math.Tan(5 * Math.PI / 180);
        Assert.Equal(2 * 30 * (reach - 4), region.AreaMm2, 0.04 * 2 * 30 * (reach - 4));
        Assert.Equal(8 * Math.Tan(5 * Math.PI / 180), region.MinMm, 0.03);
        Assert.True(region.FreeStanding);
    }

    [Fact]
    public void A_fin_is_free_standing_and_a_pane_in_a_frame_is_not()
    {
        // A block 30 × 20 × 10 with a fin 30 × 0.6 × 8 on it; and a plate of 4 mm with a pocket from each side that leave 0.6 mm.
        var fin = Assert.Single(Matter(Slabs.Profile([(0, 0), (20, 0), (20, 10), (10.3, 10), (10.3, 18), (9.7, 18), (9.7, 10), (0, 10)], 30)).Below(0.8));
        Assert.True(fin.FreeStanding);
        Assert.Equal(0.6, fin.MinMm, 0.002);
        Assert.Equal(2 * 30 * 8, fin.AreaMm2, 25.0);
        Assert.InRange(fin.At.Y, 10, 18);
        var web = Assert.Single(Matter(Slabs.Profile([(0, 0), (8, 0), (8, 1.7), (24, 1.7), (24, 0), (32, 0), (32, 4), (24, 4), (24, 2.3), (8, 2.3), (8, 4), (0, 4)], 30)).Below(0.8));
        Assert.False(web.FreeStanding);
        Assert.Equal(0.6, web.MinMm, 0.002);
        Assert.Equal(2 * 30 * 16, web.AreaMm2, 50.0);
    }

    [Fact]
    public void Thin_places_apart_from_each_other_are_regions_of_their_own()
    {
        var two = Solids.Together(Solids.Box(10, 10, 0.5), Solids.Box(20, 20, 0.4).Transformed(Rotation.Identity, new(50, 0, 0)), Solids.Box(9, 9, 9).Transformed(Rotation.Identity, new(0, 50, 0)));
        var regions = Matter(two).Below(0.7);
        Assert.Equal([0.4, 0.5], regions.Select(r => Math.Round(r.MinMm, 2)));
        Assert.Equal([800, 200], regions.Select(r => Math.Round(r.AreaMm2)));
        Assert.All(regions, r => Assert.True(r.FreeStanding));
    }

    [Fact]
    public void A_tetrahedron_has_no_walls_that_face_each_other()
    {
        var tetrahedron = new TriangleMesh([1, 1, 1, 1, -1, -1, -1, 1, -1, -1, -1, 1], [0, 1, 2, 0, 3, 1, 0, 2, 3, 1, 3, 2]);
        var found = Matter(tetrahedron);
        Assert.Null(found.Distribution);
        Assert.Equal(0, found.OpposedAreaMm2);
        Assert.Empty(found.Below(100));
        Assert.True(float.IsNaN(found.OnTriangle(0)));
    }

    // Two blocks on a common base with a slot between them: the slot is as wide as it is.
    [Theory, InlineData(0.15), InlineData(0.4), InlineData(1)]
    public void A_slot_is_a_gap_of_its_width(double width)
    {
        var slotted = Slabs.Profile([(0, 0), (20 + width, 0), (20 + width, 12), (10 + width, 12), (10 + width, 3), (10, 3), (10, 12), (0, 12)], 15).Transformed(Odd);
        var gaps = LocalThickness.OfGaps(TriangleTree.Build(slotted), 2);
        Assert.Equal(width, gaps.Distribution!.Value.MinMm, 0.003 * width);
        var region = Assert.Single(gaps.Below(width * 1.1));
        Assert.Equal(2 * 9 * 15, region.AreaMm2, 12.0);
        Assert.Empty(gaps.Below(width * 0.9));
        Assert.Equal(gaps.Distribution!.Value.MinMm, gaps.Distribution!.Value.MedianMm, 0.003 * width);
    }

    [Fact]
    public void A_convex_part_has_no_gaps()
    {
        var gaps = LocalThickness.OfGaps(TriangleTree.Build(Solids.Box(10, 10, 10)), 5);
        Assert.Null(gaps.Distribution);
        Assert.Empty(gaps.Below(5));
    }

    [Fact]
    public void Turning_and_remeshing_change_little()
    {
        var part = Shapes.Knobbly(200, 80);
        var plain = Matter(part).Distribution!.Value;
        var turned = Matter(part.Transformed(Odd, new(30, 20, -10))).Distribution!.Value;
        Assert.Equal(plain.MinMm, turned.MinMm, 0.1 * plain.MinMm);
        Assert.Equal(plain.P01Mm, turned.P01Mm, 0.005 * plain.P01Mm);
        Assert.Equal(plain.P05Mm, turned.P05Mm, 0.005 * plain.P05Mm);
        Assert.Equal(plain.MedianMm, turned.MedianMm, 0.005 * plain.MedianMm);
        foreach (var other in new[] { Matter(Shapes.Subdivided(part)).Distribution!.Value, Matter(Shapes.Knobbly(260, 104)).Distribution!.Value })
        {
            Assert.Equal(plain.P01Mm, other.P01Mm, 0.02 * plain.P01Mm);
            Assert.Equal(plain.P05Mm, other.P05Mm, 0.02 * plain.P05Mm);
            Assert.Equal(plain.MedianMm, other.MedianMm, 0.02 * plain.MedianMm);
        }
    }

    [Fact]
    public void It_says_the_same_again_reports_progress_and_can_be_stopped()
    {
        var tree = TriangleTree.Build(Shapes.Knobbly(150, 60));
        var shares = new List<double>();
        var one = LocalThickness.OfMatter(tree, 0, new Direct(shares));
        Assert.Equal(1, shares.Max(), 1e-12);
        Assert.True(shares.Count > 5);
        var two = LocalThickness.OfMatter(tree);
        Assert.Equal(one.Distribution, two.Distribution);
        Assert.True(one.Values.SequenceEqual(two.Values));
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => LocalThickness.OfMatter(tree, 0, null, stop.Token));
    }

    [Fact]
    public void An_empty_mesh_has_no_thickness()
    {
        var found = Matter(new TriangleMesh([], []));
        Assert.Null(found.Distribution);
        Assert.Empty(found.Below(1));
    }

    [Fact]
    public void Cells_cover_their_triangle_and_are_found_again_by_their_middle()
    {
        var mesh = new TriangleMesh([0, 0, 0, 30, 1, 0, 12, 5, 3, 40, 9, 1], [0, 1, 2, 1, 3, 2]);
        var cells = new SurfaceCells(mesh, 0.7);
        var edges = EdgeAdjacency.Of(mesh);
        for (var t = 0; t < 2; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            var (first, end) = cells.CellsOf(t);
            var area = 0.0;
            for (var cell = first; cell < end; cell++)
            {
                var (p, q, r) = cells.Corners(t, cell);
                area += Vec3.Cross(q - p, r - p).Length / 2;
                Assert.True(Math.Max(Vec3.Distance(p, q), Math.Max(Vec3.Distance(q, r), Vec3.Distance(r, p))) <= 0.7 + 1e-9 || SurfaceCells.Area((p, q, r)) <= 0.05);
                var n = Vec3.Cross(b - a, c - a);
                var middle = (p + q + r) / 3;
                var v = Vec3.Dot(Vec3.Cross(middle - a, c - a), n) / n.LengthSquared;
                var w = Vec3.Dot(Vec3.Cross(b - a, middle - a), n) / n.LengthSquared;
                Assert.Equal(cell, cells.Locate(t, new(1 - v - w, v, w)));
                for (var side = 0; side < 3; side++)
                {
                    var (other, otherTriangle) = cells.Across(edges, t, cell, side);
                    if (other < 0) continue;
                    Assert.NotEqual(cell, other);
                    var (from, to) = side == 0 ? (p, q) : side == 1 ? (q, r) : (r, p);
                    var (x, y, z) = cells.Corners(otherTriangle, other);
                    Assert.Equal(0, Vec3.Distance((from + to) * 0.5, NearestPoint.OnTriangle((from + to) * 0.5, x, y, z).Point), 1e-4);
                }
            }

            Assert.Equal(Vec3.Cross(b - a, c - a).Length / 2, area, 1e-6);
        }
    }

    // A rod of needles: 500 facets of 0.009 × 60 mm.
    [Fact]
    public void Needles_make_no_more_cells_than_other_triangles()
    {
        var rod = Matter(Solids.Cylinder(0.75, 60, 500));
        Assert.InRange(rod.Samples, 60_000, 400_000);
        Assert.Equal(1.5, rod.Distribution!.Value.MinMm, 0.003);
        Assert.Equal(1.5, rod.Distribution.Value.MedianMm, 0.003);
    }

    private sealed class Direct(List<double> shares) : IProgress<double>
    {
        public void Report(double value)
        {
            lock (shares) shares.Add(value);
        }
    }

    private static LocalThickness Matter(TriangleMesh mesh) => LocalThickness.OfMatter(TriangleTree.Build(mesh));
}
