using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class OverrulingTests
{
    private static readonly DateTime Now = new(2026, 3, 1, 9, 0, 0, DateTimeKind.Utc);
    private static readonly Overruled Word = new("The peg fills it.", "Ada", Now);
    private static readonly Finding Care = Rules.HoleThinWall.Found(Severity.Care, $"Only 0.4 mm of wall are left.");
    private static readonly Finding Stop = Rules.WallThin.Found(Severity.Stop, $"A wall is only 0.2 mm thick.");
    private static readonly Finding Reported = Rules.ReportsFailed.Found(Severity.Care, $"9 of 14 failed.");
    private static readonly Finding Joint = Rules.JointPin.Found(Severity.Care, $"The hole is too narrow.");

    [Fact]
    public void A_care_overruled_stays_and_counts_as_a_note()
    {
        var judged = Judgement.From([Care]).OverruledBy(Words(Care));
        Assert.Equal(Verdict.Suits, judged.Verdict);
        var finding = Assert.Single(judged.OverruledFindings);
        Assert.Equal((Severity.Care, Severity.Note, Word), (finding.Severity, finding.Weight, finding.Overruled));
    }

    [Fact]
    public void Neither_a_stop_nor_a_report_nor_a_joint_is_overruled_whatever_is_stored()
    {
        foreach (var finding in new[] { Stop, Reported, Joint, Rules.FitTooLarge.Found(Severity.Stop, $"2 mm too long."), Rules.MeshOpen.Found(Severity.Stop, $"3 open edges.") })
        {
            var before = Judgement.From([finding]);
            Assert.Equal(before.Verdict, before.OverruledBy(Words(finding)).Verdict);
            Assert.Empty(before.OverruledBy(Words(finding)).OverruledFindings);
        }
    }

    // A limit made stricter turns the care into a stop: the word on the care does not reach it.
    [Fact]
    public void A_care_that_has_become_a_stop_counts_again() =>
        Assert.Equal(Verdict.Unsuited, Judgement.From([Stop]).OverruledBy(new Dictionary<string, Overruled> { ["wall.thin"] = Word }).Verdict);

    [Fact]
    public void What_is_overruled_comes_after_what_counts()
    {
        var other = Rules.MeshNonManifold.Found(Severity.Care, $"Two surfaces touch.");
        var note = Rules.MeshUntidy.Found(Severity.Note, $"Five triangles twice.");
        Assert.Equal([other, Care with { Overruled = Word }, note], Judgement.From([note, Care, other]).OverruledBy(Words(Care)).Findings);
    }

    [Fact]
    public void A_word_said_anew_withdraws_the_one_before_and_nothing_is_forgotten()
    {
        var variant = NewVariant();
        variant.Overrule(1, "VPP-rigid", Care.Code, Judgement.From([Care]), "First thought.", "Ada", Now);
        variant.Overrule(1, "VPP-rigid", Care.Code, Judgement.From([Care]), "Second thought.", "Bea", Now.AddDays(1));
        var history = variant.RevisionOf(1).Overrulings;
        Assert.Equal(["First thought.", "Second thought."], history.Select(o => o.Reason));
        Assert.Equal([false, true], history.Select(o => o.Stands));
        Assert.Equal("Bea", history[0].WithdrawnBy);
        variant.WithdrawOverruling(1, "VPP-rigid", Care.Code, "Cy", Now.AddDays(2));
        Assert.DoesNotContain(history, o => o.Stands);
        Assert.Equal("not-found", Assert.Throws<RuleBrokenException>(() => variant.WithdrawOverruling(1, "VPP-rigid", Care.Code, "Cy", Now)).Code);
    }

    [Theory]
    [InlineData("wall.thin", "overrule-refused")]
    [InlineData("reports.failed", "overrule-refused")]
    [InlineData("mesh.untidy", "overrule-needless")]
    [InlineData("liquid.sealed", "finding-missing")]
    public void What_cannot_be_overruled_says_why(string code, string problem)
    {
        var judged = Judgement.From([Stop, Reported, Rules.MeshUntidy.Found(Severity.Note, $"Five triangles twice.")]);
        Assert.Equal(problem, Assert.Throws<RuleBrokenException>(() => NewVariant().Overrule(1, "VPP-rigid", code, judged, "Because.", "Ada", Now)).Code);
    }

    private static Dictionary<string, Overruled> Words(Finding finding) => new() { [finding.Code] = Word };

    private static Variant NewVariant()
    {
        var figure = new Figure("gull", new() { Title = "Gull", HeightMm = 120, Licence = "CC-BY-4.0" }, Now);
        var variant = figure.AddPart("arm", "Arm", 2, PartRole.Required, Now).AddVariant("resin", "Resin", ["VPP-rigid"], Now);
        var sha = new string('a', 64);
        variant.Upload(sha, 684, "arm.stl", null, null, new MeshInspection(sha, null, Now), Now);
        return variant;
    }
}
