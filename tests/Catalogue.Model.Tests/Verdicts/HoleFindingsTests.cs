using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class HoleFindingsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    // Common practice: the smallest hole is 2 mm in filament, 0.5 mm in resin, 1.5 mm in powder. Narrower ones come out small and are opened by hand.
    [Theory]
    [InlineData("MEX-rigid", 1.1, Severity.Note)]
    [InlineData("MEX-rigid", 1.9, Severity.Note)]
    [InlineData("MEX-rigid", 0.9, Severity.Care)]
    [InlineData("MEX-rigid", 2, null)]
    [InlineData("VPP-rigid", 1.1, null)]
    [InlineData("VPP-rigid", 0.4, Severity.Care)]
    [InlineData("PBF-rigid", 1.1, Severity.Note)]
    public void A_hole_below_the_limit_is_opened_by_hand_where_a_drill_goes_in(string process, double diameter, Severity? severity)
    {
        var finding = Of(process, Hole(diameter)).SingleOrDefault(f => f.Code == "hole.narrow");
        Assert.Equal(severity, finding?.Severity);
        if (finding is null) return;
        Assert.Equal((diameter, "mm", "common practice"), (finding.Measured, finding.Unit, finding.Source?.English));
        Assert.Equal(new Vec3(1, 2, 3), finding.At);
        Assert.Contains(severity == Severity.Note ? "with a drill of " : "too narrow to be drilled", finding.Message.English, StringComparison.Ordinal);
    }

    // A hole for the usual rod is spoken of once: what the rod needs.
    [Fact]
    public void A_pin_hole_in_filament_asks_for_no_care_and_is_told_once()
    {
        var findings = Of("MEX-rigid", Hole(1.7));
        Assert.Equal(("hole.rod", Severity.Note), (Assert.Single(findings).Code, findings[0].Severity));
    }

    // Flutes of twelve diameters (DIN 338, from memory): 12 × 1.1 = 13.2 mm from one side, 26.4 mm through.
    [Theory, InlineData(13, false, Severity.Note), InlineData(14, false, Severity.Care), InlineData(26, true, Severity.Note), InlineData(27, true, Severity.Care)]
    public void A_hole_deeper_than_a_drill_reaches_asks_for_care(double depth, bool through, Severity severity) =>
        Assert.Equal(severity, Of("MEX-rigid", Hole(1.1) with { DepthMm = depth, Through = through }).Single(f => f.Code == "hole.narrow").Severity);

    [Fact]
    public void Several_are_told_of_in_one_finding()
    {
        var findings = Of("MEX-rigid", Hole(1.1), Hole(1.0), Hole(3), Hole(0.6), Hole(0.5)).Where(f => f.Code == "hole.narrow").ToList();
        Assert.Equal([0.5, 1.0], findings.Select(f => f.Measured!.Value));
        Assert.StartsWith("2 holes are narrower than the 2 mm", findings[0].Message.English, StringComparison.Ordinal);
        Assert.Contains("of its diameter, the narrowest of 1.0 mm", findings[1].Message.English, StringComparison.Ordinal);
    }

    // Common practice: 0.5 mm of wall, supported, in resin.
    [Theory, InlineData(0.4, true), InlineData(0.6, false)]
    public void Too_little_wall_wants_care(double wall, bool thin)
    {
        var finding = Of("VPP-rigid", Hole(1.85) with { WallMm = wall }).SingleOrDefault(f => f.Code == "hole.thin-wall");
        Assert.Equal(thin ? Severity.Care : null, finding?.Severity);
        Assert.Equal(thin, Of("VPP-rigid", Hole(1.85) with { FloorMm = wall, Through = false }).Any(f => f.Code == "hole.thin-floor"));
    }

    [Fact]
    public void Nothing_is_pushed_through_a_window() =>
        Assert.DoesNotContain(Of("VPP-rigid", Hole(5.2) with { WallMm = 0.2 }), f => f.Code == "hole.thin-wall");

    [Theory]
    [InlineData(1.35, "drill the hole to 1.5 mm")]
    [InlineData(1.7, "few turns")]
    [InlineData(1.85, null)]
    [InlineData(3, null)]
    public void What_the_usual_rod_needs_is_noted(double diameter, string? advice)
    {
        var finding = Of("VPP-rigid", Hole(diameter)).SingleOrDefault(f => f.Code == "hole.rod");
        Assert.Equal(advice is not null, finding is not null);
        if (finding is null) return;
        Assert.Equal(Severity.Note, finding.Severity);
        Assert.Contains(advice!, finding.Message.English, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_without_holes_is_not_spoken_of() => Assert.All(Processes, p => Assert.Empty(HoleFindings.Of(Found(), p)));

    private static List<Finding> Of(string process, params RoundHole[] holes) => [.. HoleFindings.Of(Found(holes), Processes.Single(p => p.Code == process))];

    private static PinHoles Found(params RoundHole[] holes) => new() { Holes = holes, Pegs = [], More = false };

    private static RoundHole Hole(double diameter) => new()
    {
        DiameterMm = diameter,
        ClearMm = diameter,
        DepthMm = 6,
        Axis = Vec3.UnitZ,
        Mouth = new(1, 2, 3),
        Center = new(1, 2, 6),
        Through = true,
        WallMm = 2,
    };
}
