using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

// Limits: walls 0.8 mm in filament; 0.5 mm held and 1 mm free-standing in resin; 0.7 mm in powder; limbs 5 mm in filament (common practice).
public sealed class ThicknessFindingsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    [Theory]
    [InlineData("MEX-rigid", 0.8, null)]
    [InlineData("MEX-rigid", 0.7, Severity.Care)]
    [InlineData("MEX-rigid", 0.3, Severity.Stop)]
    [InlineData("VPP-rigid", 1.0, null)]
    [InlineData("VPP-rigid", 0.9, Severity.Care)]
    [InlineData("VPP-rigid", 0.4, Severity.Stop)]
    [InlineData("PBF-rigid", 0.7, null)]
    [InlineData("PBF-rigid", 0.6, Severity.Care)]
    public void A_fin_is_judged_as_free_standing(string process, double thick, Severity? expected)
    {
        var findings = Of(OnBlock(thick, 30, 8), process).Where(f => f.Code.StartsWith("wall", StringComparison.Ordinal)).ToList();
        if (expected is null)
        {
            Assert.Empty(findings);
            return;
        }

        var fin = Assert.Single(findings);
        Assert.Equal("wall.thin-free", fin.Code);
        Assert.Equal(expected, fin.Severity);
        Assert.Equal(thick, fin.Measured!.Value, 0.005);
        Assert.Equal("common practice", fin.Source?.English);
        Assert.InRange(fin.At!.Value.Z, 10, 18);
    }

    // A closed can: its wall is bent round and held at both ends.
    [Theory, InlineData("VPP-rigid", 0.6, null), InlineData("VPP-rigid", 0.45, Severity.Care), InlineData("VPP-rigid", 0.2, Severity.Stop), InlineData("MEX-rigid", 0.6, Severity.Care)]
    public void A_can_is_judged_as_held(string process, double thick, Severity? expected)
    {
        var tube = Solids.Together(Tube(10, 20, 96), Solids.Inverted(Tube(10 - thick, 20 - (2 * thick), 96).Transformed(Rotation.Identity, new(0, 0, thick))));
        var wall = Of(tube, process).SingleOrDefault(f => f.Code.StartsWith("wall", StringComparison.Ordinal));
        Assert.Equal(expected, wall?.Severity);
        if (expected is not null) Assert.Equal("wall.thin", wall!.Code);
    }

    [Fact]
    public void A_low_ridge_is_no_wall_and_one_tiny_is_not_spoken_of()
    {
        Assert.DoesNotContain(Of(OnBlock(0.6, 3, 0.8), "MEX-rigid"), f => f.Code.StartsWith("wall", StringComparison.Ordinal));
        var ridge = Assert.Single(Of(OnBlock(0.6, 30, 0.8), "MEX-rigid"), f => f.Code.StartsWith("wall", StringComparison.Ordinal));
        Assert.Equal(("wall.edge", Severity.Note), (ridge.Code, ridge.Severity));
    }

    [Fact]
    public void A_solid_block_has_nothing_thin() => Assert.Empty(Processes.SelectMany(p => Of(Solids.Box(20, 20, 20), p.Code)));

    [Fact]
    public void Another_limit_judges_the_same_measures_anew_also_between_two_steps()
    {
        var walls = WallMeasures.Of(TriangleTree.Build(OnBlock(0.9, 30, 8)));
        Assert.DoesNotContain(ThicknessFindings.Of(walls, true, Process("MEX-rigid")), f => f.Code.StartsWith("wall", StringComparison.Ordinal));
        Assert.Contains(ThicknessFindings.Of(walls, true, With("MEX-rigid", LimitKey.WallFree, 0.95)), f => f.Code == "wall.thin-free");
        Assert.Contains(ThicknessFindings.Of(walls, true, With("MEX-rigid", LimitKey.WallFree, 2.2)), f => f is { Code: "wall.thin-free", Severity: Severity.Stop });
        Assert.Contains(ThicknessFindings.Of(walls, true, With("MEX-rigid", LimitKey.WallFree, 4)), f => f.Code == "wall.thin-free");
    }

    [Fact]
    public void Where_the_surface_runs_through_itself_nothing_stops()
    {
        var walls = WallMeasures.Of(TriangleTree.Build(OnBlock(0.3, 30, 8)));
        var fin = Assert.Single(ThicknessFindings.Of(walls, false, Process("MEX-rigid")), f => f.Code == "wall.thin-free");
        Assert.Equal(Severity.Care, fin.Severity);
        Assert.Contains("runs through itself", fin.Message.English, StringComparison.Ordinal);
    }

    [Theory, InlineData(6, null), InlineData(4, Severity.Note), InlineData(1.5, Severity.Care)]
    public void A_rod_is_a_narrow_limb_in_filament_only(double diameter, Severity? expected)
    {
        var rod = Tube(diameter / 2, 25, 48);
        Assert.Equal(expected, Of(rod, "MEX-rigid").SingleOrDefault(f => f.Code == "limb.thin")?.Severity);
        Assert.DoesNotContain(Of(rod, "VPP-rigid"), f => f.Code == "limb.thin");
    }

    [Theory, InlineData(0.6, null), InlineData(0.4, Severity.Care), InlineData(0.15, Severity.Care)]
    public void Play_between_two_pieces_below_the_clearance_is_care(double play, Severity? expected)
    {
        var pieces = Solids.Together(Solids.Box(20, 20, 5), Solids.Box(20, 20, 5).Transformed(Rotation.Identity, new(0, 0, 5 + play)));
        var finding = GapFindings.Of(GapMeasures.Of(TriangleTree.Build(pieces)), Process("VPP-rigid")).SingleOrDefault();
        Assert.Equal(expected, finding?.Severity);
        if (finding is null) return;
        Assert.Equal("gap.narrow", finding.Code);
        Assert.Equal(play, finding.Measured!.Value, 0.003);
        Assert.Equal("common practice", finding.Source?.English);
    }

    private static List<Finding> Of(TriangleMesh mesh, string process) =>
        [.. ThicknessFindings.Of(WallMeasures.Of(TriangleTree.Build(mesh)), true, Process(process))];

    private static Process Process(string code) => Processes.Single(p => p.Code == code);

    private static Process With(string code, string key, double value)
    {
        var process = BuiltInProcesses.Create().Single(p => p.Code == code);
        process.Limit(key)!.Change(value, "set by the host");
        return process;
    }

    private static TriangleMesh Tube(double radius, double height, int sides) => Solids.Cylinder(radius, height, sides);

    /// <summary>A block 30 × 20 × 10 with a fin on it, in one surface.</summary>
    private static TriangleMesh OnBlock(double thick, double length, double height)
    {
        // Corners of the xy grid lines at three levels of z; the fin stands in the middle cell.
        double[] xs = [0, 15 - (length / 2), 15 + (length / 2), 30];
        if (length >= 30) xs = [0, 0.5, 29.5, 30];
        double[] ys = [0, 10 - (thick / 2), 10 + (thick / 2), 20];
        var numbers = new Dictionary<(int, int, int), int>();
        var positions = new List<float>();
        var indices = new List<int>();
        double[] zs = [0, 10, 10 + height];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                var top = i == 1 && j == 1 ? 2 : 1;
                Quad(At(i, j, top), At(i + 1, j, top), At(i + 1, j + 1, top), At(i, j + 1, top));
                Quad(At(i, j, 0), At(i, j + 1, 0), At(i + 1, j + 1, 0), At(i + 1, j, 0));
            }
        }

        for (var k = 0; k < 3; k++)
        {
            Quad(At(k, 0, 0), At(k + 1, 0, 0), At(k + 1, 0, 1), At(k, 0, 1));
            Quad(At(k + 1, 3, 0), At(k, 3, 0), At(k, 3, 1), At(k + 1, 3, 1));
            Quad(At(0, k + 1, 0), At(0, k, 0), At(0, k, 1), At(0, k + 1, 1));
            Quad(At(3, k, 0), At(3, k + 1, 0), At(3, k + 1, 1), At(3, k, 1));
        }

        Quad(At(1, 1, 1), At(2, 1, 1), At(2, 1, 2), At(1, 1, 2));
        Quad(At(2, 2, 1), At(1, 2, 1), At(1, 2, 2), At(2, 2, 2));
        Quad(At(1, 2, 1), At(1, 1, 1), At(1, 1, 2), At(1, 2, 2));
        Quad(At(2, 1, 1), At(2, 2, 1), At(2, 2, 2), At(2, 1, 2));
        return new([.. positions], [.. indices]);

        int At(int i, int j, int k)
        {
            if (numbers.TryGetValue((i, j, k), out var number)) return number;
            positions.AddRange([(float)xs[i], (float)ys[j], (float)zs[k]]);
            return numbers[(i, j, k)] = numbers.Count;
        }

        void Quad(int a, int b, int c, int d) => indices.AddRange([a, b, c, a, c, d]);
    }
}
