using Catalogue.Model.Figures;
using Catalogue.Model.Processes;
using Catalogue.Model.Tests.Figures;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class FigureJudgeTests
{
    private static readonly Judgement Good = Judgement.From([]);
    private static readonly Judgement Careful = Judgement.From([new("mesh.non-manifold", Severity.Care, $"two surfaces touch")]);
    private static readonly Judgement Bad = Judgement.From([new("fit.too-large", Severity.Stop, $"2.4 mm too long")]);

    [Fact]
    public void The_worst_required_part_decides_and_is_named()
    {
        var verdict = FigureJudge.Judge([Part("torso", Bad), Part("arm", Careful), Part("head", Good)], "Resin");
        Assert.Equal(Verdict.Unsuited, verdict.Verdict);
        Assert.Equal("torso", Assert.Single(verdict.Deciding).Part.Slug);
        Assert.Equal(["torso", "arm"], verdict.Reasons.Select(r => r.Part));
    }

    [Fact]
    public void A_choice_counts_as_its_best_member_and_says_which()
    {
        var choice = Guid.NewGuid();
        var verdict = FigureJudge.Judge(
            [Part("torso", Good), Part("lit-front", Bad, choice, isDefault: true), Part("plain-front", Careful, choice)], "Resin");
        Assert.Equal(Verdict.Care, verdict.Verdict);
        Assert.Equal("plain-front", Assert.Single(verdict.Choices).Chosen.Part.Slug);
        Assert.DoesNotContain(verdict.Reasons, r => r.Part == "lit-front");
    }

    // Usual: the lit front, unsuited; best: the plain one, with care.
    [Fact]
    public void The_usual_build_and_the_best_one_are_told_apart()
    {
        var choice = Guid.NewGuid();
        var verdict = FigureJudge.Judge([Part("torso", Good), Part("lit-front", Bad, choice, isDefault: true), Part("plain-front", Careful, choice)], "Resin");
        Assert.Equal((Verdict.Care, Verdict.Unsuited), (verdict.Verdict, verdict.Usual.Verdict));
        Assert.Equal("lit-front", Assert.Single(verdict.Usual.Reasons).Part);
        Assert.Equal("lit-front", verdict.Choices[0].Usual.Part.Slug);
        var alike = FigureJudge.Judge([Part("torso", Careful), Part("lit-front", Good, choice, isDefault: true), Part("plain-front", Good, choice)], "Resin");
        Assert.Equal((Verdict.Care, 0), (alike.Usual.Verdict, alike.Usual.Reasons.Count));
    }

    [Fact]
    public void A_member_whose_joint_cracks_is_not_the_one_that_serves_best()
    {
        var choice = Guid.NewGuid();
        var (torso, plain, lit) = (Part("torso", Good), Part("plain-front", Careful, choice), Part("lit-front", Good, choice, isDefault: true));
        var verdict = FigureJudge.Judge([torso, lit, plain], "Resin", [new(Guid.NewGuid(), torso.PartId, lit.PartId, Bad)]);
        Assert.Equal(("plain-front", Verdict.Care, Verdict.Unsuited), (verdict.Choices[0].Chosen.Part.Slug, verdict.Verdict, verdict.Usual.Verdict));
    }

    [Fact]
    public void Members_that_do_not_go_together_are_not_taken_where_the_usual_ones_do()
    {
        var (front, back) = (Guid.NewGuid(), Guid.NewGuid());
        var (plain, lit) = (Part("plain-front", Good, front), Part("lit-front", Careful, front, isDefault: true));
        var (bare, cased) = (Part("bare-back", Good, back, isDefault: true), Part("cased-back", Good, back));
        var verdict = FigureJudge.Judge([plain, lit, bare, cased], "Resin", [new(Guid.NewGuid(), plain.PartId, bare.PartId, Bad)]);
        Assert.Equal((Verdict.Care, Verdict.Care), (verdict.Verdict, verdict.Usual.Verdict));
        Assert.Equal(["lit-front", "bare-back"], verdict.Choices.Select(c => c.Chosen.Part.Slug));
    }

    [Fact]
    public void A_joint_between_parts_that_are_built_decides_too()
    {
        var (torso, arm) = (Part("torso", Good), Part("arm", Good));
        var cracks = Judgement.From([new("joint.strain", Severity.Stop, $"Shoulder: the socket cracks")]);
        var verdict = FigureJudge.Judge([torso, arm], "Resin", [new(Guid.NewGuid(), torso.PartId, arm.PartId, cracks)]);
        Assert.Equal(Verdict.Unsuited, verdict.Verdict);
        Assert.Equal(("torso", "joint.strain"), (verdict.Reasons[0].Part, verdict.Reasons[0].Finding.Code));
    }

    [Fact]
    public void A_joint_that_nobody_can_judge_yet_leaves_the_figure_open_unless_something_stops_it()
    {
        var (torso, arm, tail) = (Part("torso", Careful), Part("arm", Good), Part("tail", Bad));
        var open = Judgement.From([Rules.JointUnknown.Found(Severity.Note, $"Shoulder: the mouth’s diameter is not given")]);
        JointCase[] joint = [new(Guid.NewGuid(), torso.PartId, arm.PartId, open)];
        var verdict = FigureJudge.Judge([torso, arm], "Resin", joint);
        Assert.Equal(Verdict.Unchecked, verdict.Verdict);
        Assert.Contains(verdict.Reasons, r => r.Part == "torso" && r.Finding.Code == "joint.unknown");
        Assert.Equal(Verdict.Unsuited, FigureJudge.Judge([torso, arm, tail], "Resin", joint).Verdict);
    }

    [Fact]
    public void A_joint_of_an_accessory_is_told_apart_and_one_of_a_member_not_chosen_is_not_told()
    {
        var choice = Guid.NewGuid();
        var (torso, hat) = (Part("torso", Good), Part("hat", Good) with { Role = PartRole.Optional });
        var (plain, lit) = (Part("plain-front", Good, choice, isDefault: true), Part("lit-front", Careful, choice));
        var verdict = FigureJudge.Judge([torso, hat, plain, lit], "Resin",
            [new(Guid.NewGuid(), hat.PartId, torso.PartId, Bad), new(Guid.NewGuid(), torso.PartId, lit.PartId, Bad)]);
        Assert.Equal(Verdict.Suits, verdict.Verdict);
        Assert.Equal(("hat", true), (Assert.Single(verdict.Reasons).Part, verdict.Reasons[0].Optional));
    }

    [Fact]
    public void Of_equal_members_the_default_is_built()
    {
        var choice = Guid.NewGuid();
        var verdict = FigureJudge.Judge([Part("plain-front", Good, choice), Part("lit-front", Good, choice, isDefault: true)], "Resin");
        Assert.Equal("lit-front", verdict.Choices[0].Chosen.Part.Slug);
    }

    [Fact]
    public void An_optional_part_never_makes_a_figure_unsuited_but_is_told_apart()
    {
        var verdict = FigureJudge.Judge([Part("torso", Good), Part("winder", Bad) with { Role = PartRole.Optional }], "Resin");
        Assert.Equal(Verdict.Suits, verdict.Verdict);
        Assert.True(Assert.Single(verdict.Reasons).Optional);
    }

    [Fact]
    public void The_best_variant_serves_a_part()
    {
        var part = Part("arm", Bad);
        part = part with { Candidates = [.. part.Candidates, new(Guid.NewGuid(), Guid.NewGuid(), "thick", Careful)] };
        Assert.Equal("thick", FigureJudge.Judge([part], "Resin").Parts[0].Chosen!.Variant);
    }

    [Fact]
    public void A_part_made_for_other_processes_only_is_unsuited_and_says_so()
    {
        var verdict = FigureJudge.Judge([Part("arm", Good) with { Candidates = [], OtherVariants = 1 }], "Resin, rigid");
        Assert.Equal(Verdict.Unsuited, verdict.Verdict);
        Assert.Equal("process.no-variant", verdict.Reasons[0].Finding.Code);
        Assert.Contains("Resin, rigid", verdict.Reasons[0].Finding.Message.English, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unchecked_part_leaves_the_figure_unchecked_unless_another_stops_it()
    {
        Assert.Equal(Verdict.Unchecked, FigureJudge.Judge([Part("a", Judgement.Unchecked), Part("b", Careful)], "Resin").Verdict);
        Assert.Equal(Verdict.Unsuited, FigureJudge.Judge([Part("a", Judgement.Unchecked), Part("b", Bad)], "Resin").Verdict);
    }

    [Fact]
    public void A_finding_added_to_an_unchecked_judgement_only_ever_makes_it_worse()
    {
        Assert.Equal(Verdict.Unchecked, Judgement.Unchecked.With(new("fit.tight", Severity.Note, $"0.2 mm to spare")).Verdict);
        Assert.Equal(Verdict.Unsuited, Judgement.Unchecked.With(Bad.Findings[0]).Verdict);
    }

    [Fact]
    public void An_open_mesh_stops_every_process_and_a_sound_one_suits()
    {
        foreach (var process in BuiltInProcesses.Create())
        {
            Assert.Equal(Verdict.Unsuited, RevisionJudge.Judge(FigureTests.Facts(openEdges: 3), process).Verdict);
            Assert.Equal(Verdict.Suits, RevisionJudge.Judge(FigureTests.Facts(), process).Verdict);
        }
    }

    [Fact]
    public void Every_built_in_limit_says_where_it_comes_from()
    {
        foreach (var process in BuiltInProcesses.Create())
        {
            Assert.NotEmpty(process.Material.Origin);
            Assert.NotEmpty(process.Limits);
            Assert.All(process.Limits, limit => Assert.NotEmpty(limit.Origin));
        }
    }

    private static PartCase Part(string slug, Judgement judgement, Guid? choice = null, bool isDefault = false) => new(
        Guid.NewGuid(), slug, slug, choice is null ? PartRole.Required : PartRole.ChoiceMember, choice, choice is null ? null : "Front",
        [new(Guid.NewGuid(), Guid.NewGuid(), "standard", judgement)])
    {
        IsDefaultMember = isDefault,
    };
}
