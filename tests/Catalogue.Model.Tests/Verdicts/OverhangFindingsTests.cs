using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class OverhangFindingsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    // By hand: a slab 20 × 20 × 5 on a post 10 × 10 × 20 in its corner. 300 mm² hang over, 20 above the plate; the part has 4000 mm³.
    private static readonly OverhangMeasures Mushroom = Measured(Solids.Together(
        Solids.Box(10, 10, 20.001), Solids.Box(20, 20, 5).Transformed(Rotation.Identity, new(0, 0, 20))));

    [Fact]
    public void Filament_is_told_what_hangs_over_and_what_supports_cost()
    {
        var finding = Assert.Single(OverhangFindings.Of(Mushroom, 4000, Process("MEX-rigid")), f => f.Code == "overhang.area");
        Assert.Equal(300, finding.Measured!.Value, 3.0);
        Assert.Equal("mm²", finding.Unit);
        Assert.Contains("JAITA 2020", finding.Source!.English, StringComparison.Ordinal);
        Assert.Contains("45° from the vertical", finding.Message.English, StringComparison.Ordinal);
        Assert.Contains("6.0 cm³, 150 %", finding.Message.English, StringComparison.Ordinal);
    }

    [Fact]
    public void Resin_and_powder_are_not_judged_by_the_angle()
    {
        Assert.Empty(OverhangFindings.Of(Mushroom, 4000, Process("VPP-rigid")));
        Assert.Empty(OverhangFindings.Of(Mushroom, 4000, Process("PBF-rigid")));
    }

    [Fact]
    public void Another_limit_judges_the_same_measures_anew()
    {
        var leaning = Measured(Solids.Box(20, 20, 20).Transformed(Rotation.About(Vec3.UnitY, 40 * Math.PI / 180)));
        var process = Processes.Single(p => p.Code == "MEX-rigid");
        var before = OverhangFindings.Of(leaning, 8000, process).Single(f => f.Code == "overhang.area").Measured!.Value;
        var strict = With(process, LimitKey.OverhangAngle, 30);
        var after = OverhangFindings.Of(leaning, 8000, strict).Single(f => f.Code == "overhang.area").Measured!.Value;

        // A cube turned by 40° about an edge stands on it with one face at 50° and one at 40° from the vertical.
        Assert.Equal(400, before, 8.0);
        Assert.Equal(800, after, 16.0);
    }

    [Theory, InlineData(9, false), InlineData(12, true)]
    public void A_bridge_is_told_only_beyond_what_filament_bridges(double span, bool told)
    {
        var findings = OverhangFindings.Of(Measured(Gate(span)), 1000, Process("MEX-rigid")).ToList();
        Assert.Equal(told, findings.Exists(f => f is { Code: "overhang.bridge", Limit: 10, Severity: Severity.Note }));

        // A bridge that prints unsupported needs no supports, so its area is not told either.
        Assert.Equal(told, findings.Exists(f => f.Code == "overhang.area"));
    }

    [Fact]
    public void A_start_in_mid_air_is_told_to_filament_and_resin_with_its_place_and_not_to_powder()
    {
        var apart = Measured(Solids.Together(Solids.Box(5, 5, 5), Solids.Box(5, 5, 5).Transformed(Rotation.Identity, new(10, 0, 7))));
        foreach (var code in (string[])["MEX-rigid", "VPP-rigid", "VPP-flexible"])
        {
            var finding = Assert.Single(OverhangFindings.Of(apart, 250, Process(code)), f => f.Code == "overhang.island");
            Assert.Equal((1.0, "place", Severity.Note), (finding.Measured!.Value, finding.Unit, finding.Severity));
            Assert.Equal(7, finding.At!.Value.Z, 3);
            Assert.Contains("7.0 mm from the plate", finding.Message.English, StringComparison.Ordinal);
        }

        Assert.DoesNotContain(OverhangFindings.Of(apart, 250, Process("PBF-rigid")), f => f.Code == "overhang.island");
    }

    private static Process Process(string code) => Processes.Single(p => p.Code == code);

    private static Process With(Process process, string limit, double value) => new(
        process.Code, process.Name, process.Description, process.Position, process.Material,
        process.Limits.Select(l => new ProcessLimit(l.Key, l.Key == limit ? value : l.Value, l.Unit, "set by the host")));

    private static OverhangMeasures Measured(TriangleMesh mesh) => OverhangMeasures.Of(TriangleTree.Build(mesh), Rotation.Identity);

    /// <summary>Two posts and a slab over them: an outline extruded by 10.</summary>
    private static TriangleMesh Gate(double span)
    {
        (double X, double Z)[] outline = [(0, 0), (5, 0), (5, 10), (5 + span, 10), (5 + span, 0), (10 + span, 0), (10 + span, 15), (5 + span, 15), (5, 15), (0, 15)];
        int[] front = [0, 1, 2, 0, 2, 9, 2, 8, 9, 2, 3, 7, 2, 7, 8, 3, 4, 5, 3, 5, 6, 3, 6, 7];
        var positions = outline.SelectMany(p => new[] { (float)p.X, 0f, (float)p.Z }).Concat(outline.SelectMany(p => new[] { (float)p.X, 10f, (float)p.Z })).ToArray();
        var indices = new List<int>(front);
        for (var i = 0; i < front.Length; i += 3) indices.AddRange([front[i] + 10, front[i + 2] + 10, front[i + 1] + 10]);
        for (var i = 0; i < 10; i++)
        {
            var j = (i + 1) % 10;
            indices.AddRange([i, i + 10, j + 10, i, j + 10, j]);
        }

        return new(positions, [.. indices]);
    }
}
