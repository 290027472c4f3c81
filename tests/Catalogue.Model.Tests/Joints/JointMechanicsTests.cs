using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Joints;

public sealed class JointMechanicsTests
{
    private static readonly JointSpec Ball = new(JointKind.PopInBall, "Shoulder") { InnerDiameterMm = 7, OuterDiameterMm = 7.2, MouthDiameterMm = 6.78 };
    private static readonly JointSpec Retracting = new(JointKind.Retracting, "Arm") { InnerDiameterMm = 2.4, OuterDiameterMm = 76 };

    // Annular snap joint, by hand: (7 − 6.78) ÷ 6.78 = 3.245 %. PLA survives 2–9 % (PMC10113796, table 6), in the middle 5.5; 0.7 of it is 3.85.
    // Rigid resin is taken at 2–6 %, in the middle 4; 0.7 of it is 2.8. PA12 survives 8–25 %, 0.7 × 16.5 = 11.55.
    [Theory]
    [InlineData("MEX-rigid", Severity.Note, 3.85)]
    [InlineData("VPP-rigid", Severity.Stop, 2.8)]
    [InlineData("PBF-rigid", Severity.Note, 11.55)]
    public void A_ball_pops_into_what_gives_and_cracks_what_does_not(string process, Severity severity, double limit)
    {
        var snap = JointMechanics.Of(Ball, Process(process))[0];
        Assert.Equal("(7 − 6.78) ÷ 6.78 = 3.2 %", snap.Arithmetic.English);
        Assert.Equal((3.24, limit, "%", severity), (snap.Finding.Measured, snap.Finding.Limit, snap.Finding.Unit, snap.Finding.Severity));
    }

    // 0.6 and 0.7 of PLA's 5.5 %: 3.3 and 3.85 %. A mouth of 6.76 mm strains 3.55 %.
    [Theory]
    [InlineData(JointKind.PopInBall, 7.0, null)]
    [InlineData(JointKind.Retracting, null, 20.0)]
    [InlineData(JointKind.PressFit, 3.0, null)]
    public void What_has_to_stretch_or_bend_by_a_dimension_that_is_not_given_is_unchecked(JointKind kind, double? inner, double? outer)
    {
        var joint = new JointSpec(kind, "Elbow") { InnerDiameterMm = inner, OuterDiameterMm = outer };
        var judged = JointMechanics.Judge(joint, Process("MEX-rigid"));
        Assert.Equal((Verdict.Unchecked, "joint.unknown"), (judged.Verdict, Assert.Single(judged.Findings).Code));
        Assert.Contains("?", JointMechanics.Of(joint, Process("MEX-rigid"))[0].Arithmetic.English, StringComparison.Ordinal);
        Assert.Equal(Verdict.Suits, JointMechanics.Judge(joint with { Kind = JointKind.Glued }, Process("MEX-rigid")).Verdict);
    }

    [Fact]
    public void Near_the_limit_it_wants_care() =>
        Assert.Equal(Severity.Care, JointMechanics.Of(Ball with { MouthDiameterMm = 6.76 }, Process("MEX-rigid"))[0].Finding.Severity);

    [Fact]
    public void A_mouth_as_wide_as_the_ball_does_not_hold_it()
    {
        var finding = JointMechanics.Of(Ball with { MouthDiameterMm = 7 }, Process("MEX-rigid"))[0].Finding;
        Assert.Equal(("joint.loose", Severity.Stop), (finding.Code, finding.Severity));
    }

    // Beam bent to a radius, by hand: 2.4 ÷ 76 = 3.158 %; a material of 55 % does not mind.
    [Theory]
    [InlineData("MEX-rigid", Severity.Note)]
    [InlineData("VPP-rigid", Severity.Stop)]
    [InlineData("VPP-tough", Severity.Note)]
    [InlineData("VPP-flexible", Severity.Note)]
    public void A_retracting_part_has_to_bend_over_its_seat(string process, Severity severity)
    {
        var bend = Assert.Single(JointMechanics.Of(Retracting, Process(process)));
        Assert.Equal((3.16, severity), (bend.Finding.Measured, bend.Finding.Severity));
        Assert.Equal("2.4 ÷ 76 = 3.2 %", bend.Arithmetic.English);
    }

    // By hand: 6 − 5.8 = 0.2 mm; an accuracy of 0.5 % (review PMC9247992, table 1) takes 0.005 × 11.8 = 0.059 mm.
    [Fact]
    public void A_sleeve_keeps_some_play_whatever_the_process_misses()
    {
        var play = JointMechanics.Of(Sleeve(5.8, 6), Process("VPP-rigid"))[0];
        Assert.Equal((0.141, "joint.play", Severity.Note), (play.Finding.Measured, play.Finding.Code, play.Finding.Severity));
        Assert.Equal("6 − 5.8 = 0.2 mm; less 0.059 mm = 0.141 mm", play.Arithmetic.English);
    }

    [Theory]
    [InlineData(5.98, "joint.tight", Severity.Care)]
    [InlineData(6, "joint.tight", Severity.Stop)]
    [InlineData(5.4, "joint.loose", Severity.Care)]
    public void A_sleeve_that_is_too_tight_or_too_loose_says_so(double plug, string code, Severity severity)
    {
        var finding = JointMechanics.Of(Sleeve(plug, 6), Process("VPP-rigid"))[0].Finding;
        Assert.Equal((code, severity), (finding.Code, finding.Severity));
    }

    [Fact]
    public void A_plug_shorter_than_it_is_thick_has_to_be_held_until_the_glue_has_set() =>
        Assert.Equal("joint.short", JointMechanics.Of(Sleeve(5.8, 6) with { LengthMm = 4 }, Process("VPP-rigid"))[1].Finding.Code);

    // By hand: (3.2 − 3 + 0.005 × 6.2) ÷ 3 = 7.7 %: more than rigid resin takes, and than PLA.
    [Fact]
    public void A_peg_larger_than_its_hole_splits_what_is_brittle()
    {
        var press = Assert.Single(JointMechanics.Of(new(JointKind.PressFit, "Cap") { InnerDiameterMm = 3.2, OuterDiameterMm = 3 }, Process("VPP-rigid")));
        Assert.Equal((7.7, Severity.Stop), (press.Finding.Measured, press.Finding.Severity));
        Assert.Equal(Severity.Note, JointMechanics.Of(new(JointKind.PressFit, "Cap") { InnerDiameterMm = 3.2, OuterDiameterMm = 3 }, Process("VPP-tough"))[0].Finding.Severity);
    }

    [Fact]
    public void A_press_fit_with_play_is_judged_as_what_it_is() =>
        Assert.Equal("joint.play", Assert.Single(JointMechanics.Of(new(JointKind.PressFit, "Neck") { InnerDiameterMm = 6, OuterDiameterMm = 6.2 }, Process("VPP-rigid"))).Finding.Code);

    [Theory]
    [InlineData(JointKind.PlugInSleeve)]
    [InlineData(JointKind.Glued)]
    public void Without_dimensions_nothing_is_claimed(JointKind kind) => Assert.Empty(JointMechanics.Of(new(kind, "Neck"), Process("MEX-rigid")));

    private static JointSpec Sleeve(double plug, double sleeve) =>
        new(JointKind.PlugInSleeve, "Hip") { InnerDiameterMm = plug, OuterDiameterMm = sleeve, LengthMm = 6 };

    private static Process Process(string code) => BuiltInProcesses.Create().Single(p => p.Code == code);
}
