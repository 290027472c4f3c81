using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Scaling;
using Xunit;

namespace Catalogue.Model.Tests.Scaling;

public sealed class StockRodsTests
{
    private static readonly Process Resin = BuiltInProcesses.Create().Single(p => p.Code == "VPP-rigid");

    // By hand: rods 1.2 and 1.6 beside a drawn one of 1.5: 1.2 / 1.5 = 80 %, 1.6 / 1.5 = 106.67 %; 1.5 / 1.5 = 100 %.
    [Theory]
    [InlineData(90, 80.0, 100.0)]
    [InlineData(103, 100.0, 106.667)]
    [InlineData(80, 80.0, 80.0)]
    [InlineData(25, null, 33.333)]
    [InlineData(400, 400.0, 400.0)]
    public void A_drawn_rod_becomes_one_that_shops_keep_at_some_scales_only(double percent, double? below, double? above)
    {
        var (nearBelow, nearAbove) = StockRods.Matches(1.5, PrintScale.Of(percent));
        Assert.Equal(below, nearBelow is null ? null : Math.Round(nearBelow.Percent, 3));
        Assert.Equal(above, nearAbove is null ? null : Math.Round(nearAbove.Percent, 3));
    }

    // Holes print 0.1 to 0.3 mm small (common practice): 1.44 mm as drawn is at most 1.34 mm, so 1.2 goes in and 1.5 does not.
    [Theory]
    [InlineData(1.6, 1.5)]
    [InlineData(1.44, 1.2)]
    [InlineData(2.05, 1.6)]
    [InlineData(0.7, 0.6)]
    [InlineData(0.55, null)]
    public void The_thickest_rod_that_goes_into_a_printed_hole_is_taken(double hole, double? rod) => Assert.Equal(rod, StockRods.ForHole(hole, Resin)?.RodMm);

    [Fact]
    public void At_a_matching_scale_rod_and_hole_keep_the_play_they_were_drawn_with()
    {
        // 1.6 × 0.8 = 1.28 mm; the rod 1.5 × 0.8 = 1.2 mm is stock, though the hole may want a drill by hand: 1.28 − 0.1 = 1.18 < 1.2.
        var passage = RescaledRod.ForHole(1.6, 1.5, Resin, PrintScale.Of(80));
        Assert.Equal((1.2, RodPassing.Drill), (passage.RodMm, passage.Passing));

        // At 90 % the hole of 1.44 mm takes a rod of 1.2 mm, the drawn 1.35 mm is not to be had.
        Assert.Equal(1.2, RescaledRod.ForHole(1.6, 1.5, Resin, PrintScale.Of(90)).RodMm);
        Assert.Equal(1.5, RescaledRod.ForHole(1.6, 1.5, Resin, PrintScale.Drawn).RodMm);
    }

    [Fact]
    public void A_rod_of_the_hardware_takes_its_hole_from_the_hinge_and_its_length_from_the_scale()
    {
        var figure = new Figure("gull", new() { Title = "Gull", HeightMm = 120, Licence = "CC0-1.0" }, DateTime.UtcNow);
        var need = figure.AddHardware(new(HardwareKind.Rod, "steel rod", 2) { DiameterMm = 1.5, CutLengthMm = 14.5 }, DateTime.UtcNow);
        var hinge = new JointSpec(JointKind.PinnedHinge, "Shoulder") { InnerDiameterMm = 1.5, OuterDiameterMm = 1.6 };
        var rod = RescaledRod.Of(need, [hinge], Resin, PrintScale.Of(90))!;
        Assert.Equal((1.35, 1.2, false), (Math.Round(rod.IdealMm, 6), rod.RodMm, rod.IsExact));
        Assert.Equal(13.05, rod.CutLengthMm!.Value, 6);
        Assert.Equal((80, 100), (Math.Round(rod.Below!.Percent, 6), Math.Round(rod.Above!.Percent, 6)));
        Assert.True(RescaledRod.Of(need, [hinge], Resin, PrintScale.Of(80))!.IsExact);

        // Without a joint the nearest by ratio: 1.35 / 1.2 = 1.125, 1.5 / 1.35 = 1.111.
        Assert.Equal(1.5, RescaledRod.Of(need, [], Resin, PrintScale.Of(90))!.RodMm);
        Assert.Null(RescaledRod.Of(figure.AddHardware(new(HardwareKind.Light, "lamp", 1), DateTime.UtcNow), [], Resin, PrintScale.Of(90)));
    }

    // Strain of a snap joint is a ratio: (8 − 7.7) / 7.7 at every scale. Play is not: 0.2 mm at 100 % is 0.1 mm at 50 %.
    [Fact]
    public void Joints_keep_their_strain_and_lose_their_play()
    {
        var ball = new JointSpec(JointKind.PopInBall, "Neck") { InnerDiameterMm = 8, MouthDiameterMm = 7.7 }.Scaled(Resin, PrintScale.Of(50));
        Assert.Equal(0.03896, (ball.InnerDiameterMm!.Value - ball.MouthDiameterMm!.Value) / ball.MouthDiameterMm.Value, 5);
        var sleeve = new JointSpec(JointKind.PlugInSleeve, "Wrist") { InnerDiameterMm = 6, OuterDiameterMm = 6.2, LengthMm = 9 }.Scaled(Resin, PrintScale.Of(50));
        Assert.Equal(0.1, sleeve.OuterDiameterMm!.Value - sleeve.InnerDiameterMm!.Value, 6);
        Assert.Equal(4.5, sleeve.LengthMm);
    }

    // 1:12 at 80 % is 1:15 (12 / 0.8).
    [Fact]
    public void A_scale_has_its_own_ratio() => Assert.Equal(15, PrintScale.Parse("80 %").DenominatorOf(12), 9);

    [Theory, InlineData("24.9"), InlineData("401"), InlineData("-80"), InlineData("half"), InlineData(""), InlineData("NaN")]
    public void A_scale_out_of_bounds_is_refused(string text) => Assert.Equal("percent-invalid", Assert.Throws<RuleBrokenException>(() => PrintScale.Parse(text)).Code);
}
