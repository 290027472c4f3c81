using Catalogue.Geometry.Details;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Details;

public sealed class DetailMeasuresTests
{
    private static readonly Rotation Askew = Rotation.About(new(1, 2, 3), 0.7);

    // Pads of 8 × 8 mm, 32 mm of edge each.
    private static readonly double[] Rises = [0.22, 0.4, 0.55, 0.7, 0.9, 1.1, 1.4, 1.8];
    private static readonly TriangleMesh Steps = Relief.Plate(100, 20, 4, [.. Rises.Select((r, k) => (2 + (12.0 * k), 10 + (12.0 * k), 6.0, 14.0, r))]);

    private static readonly Lazy<DetailMeasures> OfSteps = new(() => Of(Steps));

    private static DetailMeasures Of(TriangleMesh mesh) => DetailMeasures.Of(TriangleTree.Build(mesh));

    private static DetailStep Below(IReadOnlyList<DetailStep> table, double limit) => DetailMeasures.At(table, limit)!;

    [Fact]
    public void The_plate_of_the_tests_is_closed_and_has_its_volume() =>
        Assert.Equal((100 * 20 * 4) + (64 * Rises.Sum()), MeshMeasures.Of(Steps).VolumeMm3, 0.01);

    // Stepped relief of 0.2–2 mm (issue 4, closed forms).
    [Theory, InlineData(0.25, 1), InlineData(0.5, 2), InlineData(0.6, 3), InlineData(1, 5), InlineData(1.5, 7), InlineData(2, 8)]
    public void Stepped_relief_is_counted_and_measured_by_its_height(double limit, int lower)
    {
        var step = Below(OfSteps.Value.Low, limit);
        Assert.Equal(lower, step.Count);
        Assert.Equal(32 * lower, step.LengthMm, 0.08 * 32 * lower);
        Assert.All(step.Largest, f => Assert.Contains(Rises.Take(lower), r => Math.Abs(r - f.HeightMm) < 0.02));
        Assert.All(step.Largest, f => Assert.InRange(f.At.Z, 4.1, 6));
    }

    [Fact]
    public void Each_step_of_the_relief_has_its_own_place()
    {
        var largest = Below(OfSteps.Value.Low, 0.6).Largest;
        Assert.Equal([0.22, 0.4, 0.55], largest.OrderBy(f => f.At.X).Select(f => Math.Round(f.HeightMm, 2)));
    }

    [Fact]
    public void Ridges_are_measured_by_their_width()
    {
        double[] widths = [0.18, 0.35, 0.55, 0.9];
        var mesh = Relief.Plate(50, 30, 4, [.. widths.Select((w, k) => (5 + (10.0 * k), 5 + (10.0 * k) + w, 5.0, 25.0, 0.8))]);
        var found = Of(mesh);
        Assert.Empty(Below(found.Ridges, 0.1).Largest);
        foreach (var (limit, count) in new[] { (0.2, 1), (0.4, 2), (0.6, 3), (1.0, 4) })
        {
            var step = Below(found.Ridges, limit);
            Assert.Equal(count, step.Count);
            Assert.Equal(20 * count, step.LengthMm, 0.1 * 20 * count);
            Assert.Equal(20 * widths.Take(count).Sum(), step.AreaMm2, 2 + (0.1 * step.AreaMm2));
            Assert.All(step.Largest, f => Assert.Equal(0.8, f.HeightMm, 0.02));
            Assert.All(step.Largest, f => Assert.Contains(widths, w => Math.Abs(w - f.WidthMm!.Value) < 0.02));
        }

        Assert.Empty(Below(found.Grooves, 1.2).Largest);
    }

    [Fact]
    public void Grooves_are_measured_by_their_width_and_depth()
    {
        double[] widths = [0.18, 0.35, 0.55, 0.9];
        var mesh = Relief.Plate(50, 30, 4, [.. widths.Select((w, k) => (5 + (10.0 * k), 5 + (10.0 * k) + w, 5.0, 25.0, -0.7))]);
        var found = Of(mesh);
        foreach (var (limit, count) in new[] { (0.2, 1), (0.4, 2), (0.6, 3), (1.0, 4) })
        {
            var step = Below(found.Grooves, limit);
            Assert.Equal(count, step.Count);
            Assert.Equal(20 * count, step.LengthMm, 0.1 * 20 * count);
            Assert.All(step.Largest, f => Assert.Equal(0.7, f.HeightMm, 0.02));
            Assert.All(step.Largest, f => Assert.Contains(widths, w => Math.Abs(w - f.WidthMm!.Value) < 0.02));
        }

        Assert.Empty(Below(found.Ridges, 1.2).Largest);
    }

    public static TheoryData<string> Plain => ["box", "thin box", "slip", "ball", "small ball", "ring", "prism", "rod", "hollow ball"];

    [Theory, MemberData(nameof(Plain))]
    public void What_has_no_relief_has_no_detail(string name)
    {
        var mesh = name switch
        {
            "box" => Solids.Box(30, 20, 10),
            "thin box" => Solids.Box(30, 20, 1.5),
            "slip" => Solids.Box(30, 20, 0.3),
            "ball" => Solids.Icosphere(10, 5),
            "small ball" => Solids.Icosphere(1.5, 4),
            "ring" => Solids.Torus(20, 3, 160, 40),
            "prism" => Solids.Cylinder(8, 12, 7),
            "rod" => Solids.Cylinder(0.75, 30, 24),
            _ => Solids.Together(Solids.Icosphere(10, 4), Solids.Inverted(Solids.Icosphere(9, 4))),
        };
        var found = Of(mesh.Transformed(Askew));
        Assert.InRange(found.Low[^1].LengthMm, 0, 0.5);
        Assert.Equal(0, found.Ridges[^1].Count);
        Assert.Equal(0, found.Grooves[^1].Count);
    }

    [Fact]
    public void Relief_on_a_curved_wall_is_felt_too()
    {
        // A turned bead 0.5 mm high and 3 mm long on a rod of 20 mm: two edges of 2 π · 10.5.
        var bead = Liquids.Vessels.Revolved(128, (0, 0), (10, 0), (10, 12), (10.5, 12), (10.5, 15), (10, 15), (10, 30), (0, 30));
        var step = Below(Of(bead).Low, 0.6);
        Assert.Equal(2 * 2 * Math.PI * 10.5, step.LengthMm, 0.12 * step.LengthMm);
        Assert.Equal(0.5, step.Largest[0].HeightMm, 0.03);
    }

    // Walls leaning 45°, as moulds and contoured surfaces have them: a rim of 0.4 mm on a disc, its edge 2 π · 10.
    [Fact]
    public void A_leaning_wall_is_a_wall()
    {
        var disc = Liquids.Vessels.Revolved(128, (0, 0), (20, 0), (20, 3), (10.4, 3), (10, 3.4), (0, 3.4));
        var step = Below(Of(disc).Low, 0.5);
        Assert.Equal(2 * Math.PI * 10, step.LengthMm, 0.12 * step.LengthMm);
        Assert.Equal(0.4, step.Largest[0].HeightMm, 0.02);
    }

    [Fact]
    public void Turning_and_cutting_finer_change_no_more_than_the_tolerance()
    {
        var once = OfSteps.Value;
        foreach (var other in new[] { Of(Steps.Transformed(Askew, new(50, -20, 7))), Of(Shapes.Subdivided(Shapes.Subdivided(Steps))) })
        {
            foreach (var (a, b) in once.Low.Zip(other.Low))
            {
                Assert.Equal(a.Count, b.Count);
                Assert.Equal(a.LengthMm, b.LengthMm, 0.1 * a.LengthMm);
            }
        }
    }

    // 0.4000001 and 0.3999999 are both 0.4, and not below it.
    [Fact]
    public void What_is_drawn_as_a_size_is_not_below_it() => Assert.Equal(1, Below(OfSteps.Value.Low, 0.4).Count);

    [Fact]
    public void Below_the_smallest_size_there_is_no_answer() => Assert.Null(DetailMeasures.At(Of(Solids.Box(5, 5, 5)).Low, 0.05));
}
