using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

/// <summary>Drawing again only what a limit concerns comes to the same as judging everything: the table of checks names every limit and every code.</summary>
public sealed class JudgeAgainTests
{
    private static readonly IReadOnlyList<MeshFacts> Measured =
    [
        .. new[]
        {
            Solids.Box(30, 30, 0.7), // A thin free wall.
            Solids.Box(40, 0.8, 0.8), // A thin limb that breaks.
            Solids.Together(Solids.Box(30, 30, 30), Solids.Inverted(Solids.Icosphere(10, 3, new(15, 15, 15)))), // Sealed liquid.
            Solids.Together(Solids.Box(20, 20, 10), Solids.Box(20, 20, 10).Transformed(Rotation.Identity, new(0, 0, 10.2))), // A gap between pieces, and an overhang.
            Solids.Torus(20, 2, 40, 16), // A hole, and a start in mid-air.
            Solids.Together(Solids.Box(60, 4, 2).Transformed(Rotation.Identity, new(0, 0, 20)), Solids.Box(6, 4, 25)), // A bridge, meshes that cross.
        }.Select(Inspect),
    ];

    public static TheoryData<string, string> EveryLimit
    {
        get
        {
            var all = new TheoryData<string, string>();
            foreach (var process in BuiltInProcesses.Create())
                foreach (var limit in process.Limits) all.Add(process.Code, limit.Key);
            return all;
        }
    }

    [Theory, MemberData(nameof(EveryLimit))]
    public void Only_the_checks_that_ask_a_limit_are_drawn_again_and_nothing_else_changes(string code, string key)
    {
        foreach (var factor in new[] { 0.3, 1.4, 4 })
        {
            var process = BuiltInProcesses.Create().Single(p => p.Code == code);
            process.Limit(key)!.AskFor(process.Limit(key)!.Value * factor, "a test");
            var next = process.Next();
            foreach (var facts in Measured)
            {
                var again = Check.Asking(key).Select(c => (c, CheckedFacts.FromJson(c.PartOf(CheckedFacts.Of(facts)).ToJson()))).ToList();
                var (expected, actual) = (RevisionJudge.Judge(facts, next), RevisionJudge.JudgeAgain(RevisionJudge.Judge(facts, process), again, next));
                Assert.Equal(expected.Verdict, actual.Verdict);
                Assert.Equal(expected.Findings, actual.Findings);
            }
        }
    }

    [Fact]
    public void The_shapes_of_this_test_have_findings_of_most_checks()
    {
        var codes = BuiltInProcesses.Create().SelectMany(p => Measured.SelectMany(f => RevisionJudge.Judge(f, p).Findings)).Select(f => f.Code).ToHashSet();
        var silent = Check.All.Where(c => !c.Codes.Any(codes.Contains)).Select(c => c.Name).ToList();
        Assert.True(silent.Count <= 2, $"Nothing found by {string.Join(", ", silent)}.");
    }

    [Fact]
    public void What_is_not_changed_is_the_same_process()
    {
        var process = BuiltInProcesses.Create()[0];
        process.Limit(LimitKey.WallFree)!.AskFor(9, "ours");
        var next = process.Next();
        Assert.True(process.IsChanging);
        Assert.False(next.IsChanging);
        Assert.Equal((9.0, "ours"), (next.Limit(LimitKey.WallFree)!.Value, next.Limit(LimitKey.WallFree)!.Origin));
        Assert.All(process.Limits.Where(l => l.Key != LimitKey.WallFree), l => Assert.Equal((l.Value, l.Origin, l.Unit), (next.Limit(l.Key)!.Value, next.Limit(l.Key)!.Origin, next.Limit(l.Key)!.Unit)));
    }

    private static MeshFacts Inspect(TriangleMesh mesh)
    {
        using var file = new MemoryStream();
        StlWriter.Write(mesh, file);
        file.Position = 0;
        return MeshInspector.Inspect(file, file.Length, new InspectionRequest { Sha256 = "" }).Facts;
    }
}
