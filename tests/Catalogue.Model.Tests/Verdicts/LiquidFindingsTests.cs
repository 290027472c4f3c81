using Catalogue.Geometry.Health;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class LiquidFindingsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    private static readonly TrappedLiquid Dry = new()
    {
        Rotation = Rotation.Identity.ToRowMajor(),
        PitchMm = 0.1,
        FinestOpeningMm = 0.3,
        Cavities = [],
        Pools = [],
        SuctionCups = [],
        PooledMm3 = 0,
        SuctionMm2 = 0,
        SuctionLastsMm = 0,
    };

    [Fact]
    public void A_part_that_keeps_nothing_has_no_finding() =>
        Assert.All(Processes, p => Assert.Empty(LiquidFindings.Of(Dry, p)));

    [Fact]
    public void A_sealed_void_asks_for_care_in_resin_and_powder_and_not_in_filament()
    {
        var ball = Solids.Together(Solids.Icosphere(15, 4), Solids.Inverted(Solids.Icosphere(12, 4)));
        var liquid = TrappedLiquid.Of(ball, TriangleTree.Build(ball), MeshHealth.Of(ball), Rotation.Identity);
        var resin = Assert.Single(LiquidFindings.Of(liquid, Process("VPP-rigid")), f => f.Code == "liquid.sealed");
        Assert.Equal(Severity.Care, resin.Severity);
        Assert.Equal(7200, resin.Measured!.Value, 50.0);
        Assert.InRange(resin.At!.Value.Z, 14, 15.1);
        Assert.Contains("closed on all sides", resin.Message.English, StringComparison.Ordinal);
        Assert.Contains("4 mm through 3.0 mm of wall", resin.Message.English, StringComparison.Ordinal);
        var powder = Assert.Single(LiquidFindings.Of(liquid, Process("PBF-rigid")));
        Assert.Contains("5 mm through 3.0 mm of wall", powder.Message.English, StringComparison.Ordinal);
        Assert.Empty(LiquidFindings.Of(liquid, Process("MEX-rigid")));
    }

    [Fact]
    public void A_narrow_way_out_is_measured_against_the_limit_and_a_change_of_limit_judges_anew()
    {
        var liquid = Dry with { Cavities = [Hollow(5000, 3)] };
        var finding = Assert.Single(LiquidFindings.Of(liquid, Process("VPP-rigid")));
        Assert.Equal(("liquid.drain", Severity.Care, 3.0, 4.0), (finding.Code, finding.Severity, finding.Measured!.Value, finding.Limit!.Value));
        Assert.Equal("common practice", finding.Source?.English);
        var lenient = Processes.Single(p => p.Code == "VPP-tough");
        lenient.Limit(LimitKey.DrainDiameter)!.Change(2.5, "set by the host");
        Assert.Equal("liquid.vent", Assert.Single(LiquidFindings.Of(liquid, lenient)).Code);
    }

    [Theory, InlineData(5000, "care"), InlineData(40, "note")]
    public void A_hollow_that_can_be_shaken_out_is_only_noted(double volume, string severity) =>
        Assert.Equal(severity, Assert.Single(LiquidFindings.Of(Dry with { Cavities = [Hollow(volume, 1)] }, Process("VPP-rigid"))).Severity.Code());

    // A hole of 12 flat facets drawn 4 mm wide lets a ball of 3.86 mm pass: 4 · cos 15°.
    [Fact]
    public void A_faceted_hole_of_the_limit_is_wide_enough() =>
        Assert.Empty(LiquidFindings.Of(Dry with { Cavities = [Hollow(5000, 3.86, 3.86)] }, Process("VPP-rigid")));

    [Fact]
    public void One_way_out_is_one_too_few_in_resin_but_a_wide_neck_counts_for_two_and_powder_needs_one()
    {
        var one = Dry with { Cavities = [Hollow(5000, 5)] };
        var finding = Assert.Single(LiquidFindings.Of(one, Process("VPP-rigid")));
        Assert.Equal(("liquid.vent", Severity.Care, 1.0, 2.0), (finding.Code, finding.Severity, finding.Measured!.Value, finding.Limit!.Value));
        Assert.Empty(LiquidFindings.Of(one, Process("PBF-rigid")));
        Assert.Empty(LiquidFindings.Of(Dry with { Cavities = [Hollow(5000, 8)] }, Process("VPP-rigid")));
    }

    [Fact]
    public void Rooms_joined_by_wide_ways_drain_together_and_by_narrow_ones_each_for_itself()
    {
        var joined = Dry with
        {
            Cavities =
            [
                Hollow(5000) with { Openings = [new(6, Vec3.Zero, 1), new(4, Vec3.Zero, -1)] },
                Hollow(4000) with { Openings = [new(6, Vec3.Zero, 0), new(4, Vec3.Zero, -1)] },
            ],
        };
        Assert.Empty(LiquidFindings.Of(joined, Process("VPP-rigid")));
        var apart = joined with
        {
            Cavities = [Hollow(5000) with { Openings = [new(4, Vec3.Zero, -1), new(4, Vec3.Zero, -1), new(2, Vec3.Zero, 1)] }, Hollow(4000) with { Openings = [new(2, Vec3.Zero, 0)] }],
        };
        var finding = Assert.Single(LiquidFindings.Of(apart, Process("VPP-rigid")));
        Assert.Equal(("liquid.drain", 2.0), (finding.Code, finding.Measured!.Value));
    }

    [Fact]
    public void Pools_and_suction_are_notes_of_the_files_pose_in_resin_alone()
    {
        var cup = Dry with
        {
            Pools = [new(900, 12, new(1, 2, 3), new(new(1, 2, 5), -Vec3.UnitZ, 2))],
            PooledMm3 = 900,
            SuctionCups = [new(400, 30, 8000, new(4, 5, 6), null)],
            SuctionMm2 = 400,
            SuctionLastsMm = 30,
        };
        var findings = LiquidFindings.Of(cup, Process("VPP-rigid")).ToList();
        Assert.Equal(["liquid.pool", "liquid.suction"], findings.Select(f => f.Code));
        Assert.All(findings, f => Assert.Equal(Severity.Note, f.Severity));
        Assert.Contains("drill through 2.0 mm at (1.0, 2.0, 5.0)", findings[0].Message.English, StringComparison.Ordinal);
        Assert.Contains("400 mm² over 30.0 mm", findings[1].Message.English, StringComparison.Ordinal);
        Assert.Empty(LiquidFindings.Of(cup, Process("PBF-rigid")));
        Assert.Empty(LiquidFindings.Of(cup with { PooledMm3 = 10, SuctionMm2 = 5 }, Process("VPP-rigid")));
    }

    private static Cavity Hollow(double volume, params double[] openings) => new()
    {
        VolumeMm3 = volume,
        At = Vec3.Zero,
        Sealed = false,
        Openings = [.. openings.Select(d => new CavityOpening(d, Vec3.UnitX, -1))],
        SkinMm = 2,
        SkinAt = Vec3.UnitY,
        Drain = null,
        Vent = null,
    };

    private static Process Process(string code) => BuiltInProcesses.Create().Single(p => p.Code == code);
}
