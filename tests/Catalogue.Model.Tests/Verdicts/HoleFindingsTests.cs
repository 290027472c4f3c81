using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class HoleFindingsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    // Common practice: the smallest hole is 2 mm in filament, 0.5 mm in resin, 1.5 mm in powder.
    [Theory]
    [InlineData("MEX-rigid", 1.7, true)]
    [InlineData("MEX-rigid", 2, false)]
    [InlineData("VPP-rigid", 1.7, false)]
    [InlineData("VPP-rigid", 0.4, true)]
    [InlineData("PBF-rigid", 1.35, true)]
    public void A_hole_below_the_limit_has_to_be_drilled(string process, double diameter, bool narrow)
    {
        var finding = Of(process, Hole(diameter)).SingleOrDefault(f => f.Code == "hole.narrow");
        Assert.Equal(narrow, finding is not null);
        if (finding is null) return;
        Assert.Equal((Severity.Care, diameter, "mm", "common practice"), (finding.Severity, finding.Measured, finding.Unit, finding.Source));
        Assert.Equal(new Vec3(1, 2, 3), finding.At);
        Assert.Contains("Drill", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Several_are_told_of_in_one_finding()
    {
        var finding = Of("MEX-rigid", Hole(1.7), Hole(1.2), Hole(3)).Single(f => f.Code == "hole.narrow");
        Assert.StartsWith("2 holes are narrower than the 2 mm", finding.Message, StringComparison.Ordinal);
        Assert.Equal(1.2, finding.Measured);
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
        Assert.Contains(advice!, finding.Message, StringComparison.Ordinal);
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
