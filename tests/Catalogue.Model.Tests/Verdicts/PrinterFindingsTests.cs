using Catalogue.Geometry.Details;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Tests.Figures;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

/// <summary>A visitor's own layer and line. Resin: relief from 0.4 mm high and wide, layers up to 0.1 mm (common practice; review PMC9247992).</summary>
public sealed class PrinterFindingsTests
{
    // Stones 0.5 mm high, lines 0.5 mm wide, 40 mm of each; a start in mid-air that lasts 0.08 mm.
    private static readonly MeshFacts Stones = FigureTests.Facts() with
    {
        Details = new()
        {
            Low = Ladder(DetailMeasures.Heights, 0.6, new(null, 0.5, 150, 40, Vec3.Zero)),
            Ridges = Ladder(DetailMeasures.Sizes, 0.6, new(0.5, 1.5, 20, 40, Vec3.Zero)),
            Grooves = Ladder(DetailMeasures.Sizes, 0.6, new(0.5, 1.5, 20, 40, Vec3.Zero)),
        },
        Overhangs = new()
        {
            Rotation = Rotation.Identity,
            HeightMm = 20,
            RestingMm2 = 100,
            AreaMm2 = [.. new double[90]],
            SupportVolumeMm3 = [.. new double[90]],
            OnPartMm2 = [.. new double[90]],
            Bridges = [],
            BridgeCount = 0,
            Islands = [new(7, 0.08, 25, false, Vec3.Zero)],
            IslandCount = 1,
        },
    };

    [Fact]
    public void A_coarse_layer_loses_low_steps_and_a_wide_line_loses_ridges_and_closes_grooves()
    {
        Assert.Empty(Of(null, null));
        var layer = Assert.Single(Of(0.6, null), f => f.Code == "detail.lost");
        Assert.Equal((0.5, 0.6, "your printer’s layer of 0.6 mm"), (layer.Measured!.Value, layer.Limit!.Value, layer.Source?.English));
        Assert.Equal(["detail.lost", "detail.closed"], Of(null, 0.8).Select(f => f.Code));
    }

    // 0.08 mm is within a layer of 0.1 mm and beyond one of 0.05.
    [Theory, InlineData(0.1, false), InlineData(0.05, true)]
    public void A_thin_layer_does_not_hide_a_start_in_mid_air(double layer, bool told) => Assert.Equal(told, Of(layer, null).Any(f => f.Code == "overhang.island"));

    [Fact]
    public void A_finer_printer_does_not_lower_what_survives_and_no_printer_changes_the_verdict()
    {
        Assert.Empty(Of(0.1, 0.02));
        var careful = Judgement.From([Rules.MeshNonManifold.Found(Severity.Care, $"Two surfaces touch.")]);
        var judged = PrinterFindings.Of(careful, Stones, Process(), 0.6, 0.8);
        Assert.Equal(Verdict.Care, judged.Verdict);
        Assert.Equal(["mesh.non-manifold", "detail.lost", "detail.lost", "detail.closed"], judged.Findings.Select(f => f.Code));
    }

    private static IReadOnlyList<Finding> Of(double? layer, double? line) =>
        PrinterFindings.Of(Judgement.From([.. DetailFindings.Of(Stones.Details!, Process()), .. OverhangFindings.Of(Stones.Overhangs!, 6000, Process())]), Stones, Process(), layer, line).Findings;

    private static Process Process() => BuiltInProcesses.Create().Single(p => p.Code == "VPP-rigid");

    private static List<DetailStep> Ladder(IReadOnlyList<double> sizes, double from, DetailFeature feature) =>
        [.. sizes.Select(s => s < from ? new DetailStep(s, 0, 0, 0, []) : new DetailStep(s, 1, feature.AreaMm2, feature.LengthMm, [feature]))];
}
