using Catalogue.Geometry.Gauges;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Gauges;

// 16 CFR 1501.4, figure 1: bore 1.25 in, slanted floor, 1 in deep on one side and 2.25 in on the other.
public sealed class SmallPartsGaugeTests
{
    private static readonly Rotation Askew = Rotation.About(new(1, 2, 3), 0.7);

    [Theory, InlineData(31.7, true), InlineData(32, false), InlineData(5, true), InlineData(60, false)]
    public void A_ball_goes_in_up_to_the_bore(double diameter, bool goesIn) =>
        Assert.Equal(goesIn, TakesIn(Solids.Icosphere(diameter / 2, 5)));

    // The longest thin rod leans from the deep edge of the floor to the opposite edge of the mouth: √(57.15² + 31.75²) = 65.38 mm.
    [Theory, InlineData(65, true), InlineData(66, false)]
    public void A_thin_rod_goes_in_up_to_the_longest_line_inside(double length, bool goesIn) =>
        Assert.Equal(goesIn, TakesIn(Solids.Cylinder(0.01, length, 6).Transformed(Askew)));

    // A cylinder nearly as wide as the bore cannot lean, and stands on the high side of the floor: 25.4 mm below the mouth, and 0.05 mm more where it is 0.05 mm narrower.
    [Theory, InlineData(25.3, true), InlineData(26.5, false)]
    public void A_plug_as_wide_as_the_bore_goes_in_as_deep_as_the_shallow_side(double length, bool goesIn) =>
        Assert.Equal(goesIn, TakesIn(Solids.Cylinder(15.85, length, 256).Transformed(Askew)));

    [Fact]
    public void What_is_larger_than_the_gauge_does_not_go_in() =>
        Assert.False(TakesIn(Solids.Box(33, 33, 33).Transformed(Askew)));

    [Theory, InlineData(22, true), InlineData(27, false)]
    public void A_cube_goes_in_by_its_diagonal(double side, bool goesIn) =>
        Assert.Equal(goesIn, TakesIn(Solids.Box(side, side, side).Transformed(Askew)));

    [Fact]
    public void Flat_and_empty_parts_are_small_parts()
    {
        Assert.True(SmallPartsGauge.TakesIn(ConvexHull.Of([])));
        Assert.True(SmallPartsGauge.TakesIn(ConvexHull.Of([0f, 0, 0, 10, 0, 0, 0, 10, 0])));
        Assert.False(SmallPartsGauge.TakesIn(ConvexHull.Of([0f, 0, 0, 80, 0, 0, 0, 10, 0])));
    }

    private static bool TakesIn(TriangleMesh mesh) => SmallPartsGauge.TakesIn(ConvexHull.Of(mesh));
}
