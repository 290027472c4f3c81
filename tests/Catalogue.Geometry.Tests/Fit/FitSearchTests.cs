using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Fit;

public sealed class FitSearchTests
{
    private static readonly Rotation Askew = Rotation.About(new(1, 2, 3), 0.7);

    // Carver, "On the fitting of one rectangle in another", Amer. Math. Monthly 64 (1957). The plate is as thick as the volume is high, so it cannot tilt.
    [Theory]
    [InlineData(240, 10, 200, 150, true)]
    [InlineData(242, 10, 200, 150, false)]
    [InlineData(100, 5, 95, 50, true)]
    [InlineData(150, 20, 143, 89, true)]
    [InlineData(10.5, 3, 10, 4, false)]
    public void A_long_strip_fits_a_plate_only_when_it_can_be_turned(double p, double q, double a, double b, bool fits)
    {
        var thick = 50;
        var result = Ask(Solids.Box(p, q, thick).Transformed(Askew), $"{a}x{b}x{thick + 0.002}");
        Assert.Equal(fits, result.Fits);
        Assert.NotEqual(FitDecision.Undecided, result.Decision);
        Assert.InRange(Ask(Solids.Box(p, q, thick), $"{a}x{b}x{thick}").SpareMm, fits ? -0.003 : -20, fits ? 0.0001 : -0.05);
    }

    // The least depth that takes the strip, from the same paper: [2pqa + (p² − q²)√(p² + q² − a²)] / (p² + q²).
    [Theory]
    [InlineData(240, 10, 200, 149.2180)]
    [InlineData(242, 10, 200, 152.6513)]
    [InlineData(100, 5, 95, 40.9414)]
    [InlineData(150, 20, 143, 85.2453)]
    public void The_limit_of_a_turned_strip_is_met_within_a_twentieth_of_a_millimetre(double p, double q, double a, double b)
    {
        var strip = Solids.Box(p, q, 300).Transformed(Askew);
        Assert.True(Ask(strip, FormattableString.Invariant($"{a}x{b + 0.06}x300.06")).Fits);
        Assert.Equal(FitDecision.DoesNotFit, Ask(strip, FormattableString.Invariant($"{a}x{b - 0.2}x300.06")).Decision);
    }

    // Pythagoras: the longest thin rod is as long as the space diagonal.
    [Theory]
    [InlineData(143, 89, 175, 242.889)]
    [InlineData(220, 220, 250, 399.124)]
    public void A_thin_rod_fits_up_to_the_space_diagonal(double width, double depth, double height, double diagonal)
    {
        var volume = BuildVolume.Rectangular(width, depth, height);
        Assert.True(Ask(Rod(diagonal - 0.1), volume.ToString()).Fits);
        var longer = Ask(Rod(diagonal + 0.2), volume.ToString());
        Assert.Equal(FitDecision.DoesNotFit, longer.Decision);

        // Best is to be equally too long on the three axes by t: Σ (side + t)² = length².
        var sum = width + depth + height;
        var t = (-sum + Math.Sqrt((sum * sum) + (3 * (Math.Pow(diagonal + 0.2, 2) - Math.Pow(diagonal, 2))))) / 3;
        Assert.Equal(-t, longer.SpareMm, 0.05);
    }

    // Prince Rupert's problem (Nieuwland, 18th century): the largest square in a unit cube has side 3√2/4 = 1.0606602.
    [Theory, InlineData(1.06, true), InlineData(1.0615, false)]
    public void A_square_plate_larger_than_a_face_fits_a_cube_up_to_Rupert_s_limit(double side, bool fits)
    {
        var result = Ask(Solids.Box(100 * side, 100 * side, 0.0005).Transformed(Askew), "100x100x100");
        Assert.Equal(fits ? FitDecision.Fits : FitDecision.DoesNotFit, result.Decision);
    }

    // Pythagoras: leaning by θ a thin rod of length L has a footprint of L sin θ across and a height of L cos θ; √(150² + 200²) = 250.
    [Theory, InlineData(249.8, FitDecision.Fits), InlineData(250.3, FitDecision.DoesNotFit)]
    public void A_thin_rod_leans_across_a_round_plate(double length, FitDecision expected) =>
        Assert.Equal(expected, Ask(Rod(length), "150x200").Decision);

    // A round disc keeps one diameter in every shadow, however it leans; upright its shadow is a strip as long as that.
    [Theory, InlineData(99.9, FitDecision.Fits), InlineData(100.3, FitDecision.DoesNotFit)]
    public void A_disc_needs_a_plate_as_wide_as_itself_however_high_the_room(double diameter, FitDecision expected) =>
        Assert.Equal(expected, Ask(Solids.Cylinder(diameter / 2, 0.01, 256).Transformed(Askew), "100x500").Decision);

    // A brick stands on its smallest face: √(60² + 30²) = 67.082 across. No shadow is smaller: a direction takes at most 100 mm from one of the four
    // space diagonals (signs against it), and √(100² + 60² + 30² − 100²) stay.
    [Theory, InlineData("67.2x100.1", FitDecision.Fits), InlineData("66.9x500", FitDecision.DoesNotFit)]
    public void A_brick_stands_on_its_smallest_face_on_a_round_plate(string volume, FitDecision expected) =>
        Assert.Equal(expected, Ask(Solids.Box(100, 60, 30).Transformed(Askew), volume).Decision);

    [Theory, InlineData(49.9, FitDecision.DoesNotFit), InlineData(50.01, FitDecision.Fits)]
    public void A_ball_is_as_wide_in_every_rotation(double side, FitDecision expected) =>
        Assert.Equal(expected, Ask(Solids.Icosphere(25, 4), FormattableString.Invariant($"{side}x{side}x{side}")).Decision);

    [Fact]
    public void The_answer_says_how_much_too_long_in_every_orientation()
    {
        var result = Ask(Solids.Box(100, 100, 100).Transformed(Askew), "98x120x120");
        Assert.Equal(FitDecision.DoesNotFit, result.Decision);
        Assert.Equal(-2, result.SpareMm, 0.01);
    }

    [Fact]
    public void A_part_that_fits_as_it_is_stays_as_it_is_unless_turning_spares_more()
    {
        var result = Ask(Solids.Box(100, 60, 30), "100x60x30");
        Assert.Equal((FitDecision.Fits, 0.0, Rotation.Identity), (result.Decision, result.SpareMm, result.Rotation));
    }

    [Fact]
    public void An_empty_part_fits() => Assert.True(FitSearch.Fit(ConvexHull.Of([]), BuildVolume.Parse("10x10x10")).Fits);

    [Theory]
    [InlineData("60x50x40", true)]
    [InlineData("59.8x50x40", false)]
    public void A_flat_part_fits_by_its_outline(string volume, bool fits)
    {
        // A right triangle 50 × 78 flat in space, standing on edge or diagonal: decided by brute force below, not by hand.
        var hull = ConvexHull.Of([0, 0, 0, 50, 0, 0, 0, 78, 0]);
        var result = FitSearch.Fit(hull, BuildVolume.Parse(volume));
        Assert.Equal(Brute(hull, BuildVolume.Parse(volume)) >= -0.3 && fits, result.SpareMm >= -0.3 && fits);
        Assert.True(result.SpareMm >= Brute(hull, BuildVolume.Parse(volume)) - 0.01);
    }

    [Fact]
    public void No_rotation_drawn_at_random_beats_the_one_found() =>
        Gen.Select(AnyPart.Hulls, AnyPart.Rotations.Array[200]).Sample(
            (hull, turns) =>
            {
                var volume = BuildVolume.Parse("64x114x152");
                var found = FitSearch.Fit(hull, volume);
                Assert.All(turns, turn => Assert.True(Margin(hull, turn, volume) <= found.SpareMm + found.ErrorBoundMm + 1e-6));
            },
            iter: 20);

    [Fact]
    public void The_rotation_given_has_the_size_and_spare_given() =>
        AnyPart.Hulls.Sample(
            hull =>
            {
                var volume = BuildVolume.Parse("64x114x52");
                var found = FitSearch.Fit(hull, volume);
                Assert.Equal(found.SpareMm, Margin(hull, found.Rotation, volume), 1e-9);
                Assert.Equal(1, Vec3.Dot(Vec3.Cross(found.Rotation.RowX, found.Rotation.RowY), found.Rotation.RowZ), 1e-9);
            },
            iter: 20);

    [Fact]
    public void The_spare_does_not_depend_on_how_the_part_lies_in_its_file() =>
        Gen.Select(AnyPart.Hulls, AnyPart.Rotations).Sample(
            (hull, turn) =>
            {
                var volume = BuildVolume.Parse("64x114x152");
                var (a, b) = (FitSearch.Fit(hull, volume), FitSearch.Fit(ConvexHull.Of(hull.ToMesh().Transformed(turn)), volume));
                Assert.Equal(a.SpareMm, b.SpareMm, Math.Max(a.ErrorBoundMm, b.ErrorBoundMm) + 1e-4);
            },
            iter: 20);

    [Fact]
    public void A_larger_volume_never_spares_less() =>
        Gen.Select(AnyPart.Hulls, Gen.Double[0, 20].Array[3]).Sample(
            (hull, more) =>
            {
                var small = FitSearch.Fit(hull, BuildVolume.Rectangular(64, 80, 60));
                var large = FitSearch.Fit(hull, BuildVolume.Rectangular(64 + more[0], 80 + more[1], 60 + more[2]));
                Assert.True(large.SpareMm + large.ErrorBoundMm >= small.SpareMm - 1e-6);
                if (small.Fits) Assert.NotEqual(FitDecision.DoesNotFit, large.Decision);
            },
            iter: 20);

    private static FitResult Ask(TriangleMesh mesh, string volume) => FitSearch.Fit(ConvexHull.Of(mesh), BuildVolume.Parse(volume));

    private static TriangleMesh Rod(double length) => Solids.Cylinder(0.005, length, 6).Transformed(Askew);

    private static double Margin(ConvexHull hull, Rotation turn, BuildVolume volume)
    {
        var bounds = BoundingBox.Empty;
        for (var i = 0; i < hull.VertexCount; i++) bounds = bounds.Including(turn.Apply(hull.Vertex(i)));
        var size = bounds.Size;
        return Math.Min(volume.Width - size.X, Math.Min(volume.Depth - size.Y, volume.Height - size.Z));
    }

    private static double Brute(ConvexHull hull, BuildVolume volume)
    {
        var best = double.NegativeInfinity;
        for (var i = 0; i < 60; i++)
        {
            for (var j = 0; j < 60; j++)
            {
                for (var k = 0; k < 60; k++)
                {
                    var turn = Rotation.About(Vec3.UnitZ, i * Math.PI / 60)
                        .After(Rotation.About(Vec3.UnitY, j * Math.PI / 60).After(Rotation.About(Vec3.UnitX, k * Math.PI / 60)));
                    best = Math.Max(best, Margin(hull, turn, volume));
                }
            }
        }

        return best;
    }
}
