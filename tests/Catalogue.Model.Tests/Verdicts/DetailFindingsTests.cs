using Catalogue.Geometry.Details;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class DetailFindingsTests
{
    // Stones raised by 0.4 mm, 300 mm of edges; lines 0.5 mm wide and grooves 0.35 mm wide, 40 mm of each.
    private static readonly DetailMeasures Stones = new()
    {
        Low = Ladder(DetailMeasures.Heights, 0.5, new(null, 0.4, 150, 300, new(1, 2, 3))),
        Ridges = Ladder(DetailMeasures.Sizes, 0.6, new(0.5, 1.5, 20, 40, new(4, 5, 6))),
        Grooves = Ladder(DetailMeasures.Sizes, 0.4, new(0.35, 1.5, 14, 40, new(7, 8, 9))),
    };

    // Raised surface detail below 1 mm may not show on filament prints (common practice).
    [Fact]
    public void Filament_loses_low_relief_and_narrow_lines_and_closes_narrow_grooves()
    {
        var findings = DetailFindings.Of(Stones, Process("MEX-rigid")).ToList();
        Assert.Equal(["detail.lost", "detail.lost", "detail.closed"], findings.Select(f => f.Code));
        Assert.All(findings, f => Assert.Equal((Severity.Note, "mm", "common practice"), (f.Severity, f.Unit, f.Source?.English)));
        Assert.Equal((0.4, 1.0), (findings[0].Measured!.Value, findings[0].Limit!.Value));
        Assert.Equal((0.5, 0.6), (findings[1].Measured!.Value, findings[1].Limit!.Value));
        Assert.Equal((0.35, 0.6), (findings[2].Measured!.Value, findings[2].Limit!.Value));
        Assert.Contains("300 mm of edges in one place, the longest 0.4 mm high at (1.0, 2.0, 3.0)", findings[0].Message.English, StringComparison.Ordinal);
        Assert.Contains("40 mm of them in one place", findings[1].Message.English, StringComparison.Ordinal);
    }

    [Fact]
    public void Resin_shows_what_is_within_its_limits_and_closes_the_grooves_alone() =>
        Assert.Equal("detail.closed", Assert.Single(DetailFindings.Of(Stones, Process("VPP-rigid"))).Code);

    [Fact]
    public void A_change_of_limits_judges_the_same_measures_anew()
    {
        var process = Process("MEX-rigid");
        process.Limit(LimitKey.DetailHeight)!.Change(0.3, "set by the host");
        process.Limit(LimitKey.DetailWidth)!.Change(0.45, "set by the host");
        var finding = Assert.Single(DetailFindings.Of(Stones, process));
        Assert.Equal(("detail.closed", "set by the host"), (finding.Code, finding.Source?.English));
        process.Limit(LimitKey.DetailWidth)!.Change(0.05, "set by the host");
        Assert.Empty(DetailFindings.Of(Stones, process));
    }

    private static List<DetailStep> Ladder(IReadOnlyList<double> sizes, double from, DetailFeature feature) =>
        [.. sizes.Select(s => s < from ? new DetailStep(s, 0, 0, 0, []) : new DetailStep(s, 1, feature.AreaMm2, feature.LengthMm, [feature]))];

    private static Process Process(string code) => BuiltInProcesses.Create().Single(p => p.Code == code);
}
