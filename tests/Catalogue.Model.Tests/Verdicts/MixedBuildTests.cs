using Catalogue.Model.Figures;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class MixedBuildTests
{
    private static readonly Judgement Good = Judgement.From([]);
    private static readonly Judgement Careful = Judgement.From([new("limb.thin", Severity.Care, $"thin")]);
    private static readonly Judgement Bad = Judgement.From([new("limb.thin", Severity.Stop, $"snaps")]);
    private static readonly Dictionary<string, Verdict> Everywhere = new() { ["VPP-rigid"] = Verdict.Suits, ["VPP-flexible"] = Verdict.Suits, ["MEX-rigid"] = Verdict.Suits };

    private readonly Guid _torso = Guid.NewGuid();
    private readonly Guid _arm = Guid.NewGuid();
    private readonly Guid _leg = Guid.NewGuid();

    [Fact]
    public void One_printer_is_enough_when_it_can_make_everything()
    {
        var build = MixedBuild.Of([On("VPP-rigid", (_torso, Good), (_arm, Careful)), On("VPP-flexible", (_torso, Good), (_arm, Good))], []);
        Assert.Equal((Verdict.Suits, "1"), (build!.Verdict, string.Join(' ', build.Printers)));
    }

    [Fact]
    public void Fewer_printers_come_before_a_better_verdict()
    {
        var build = MixedBuild.Of([On("VPP-rigid", (_torso, Good), (_arm, Careful)), On("VPP-flexible", (_torso, Bad), (_arm, Good))], []);
        Assert.Equal((Verdict.Care, "0"), (build!.Verdict, string.Join(' ', build.Printers)));
    }

    // The thin limb in flexible resin, the rest in rigid: common practice.
    [Fact]
    public void A_limb_that_snaps_goes_to_the_other_printer()
    {
        var build = MixedBuild.Of(
            [On("VPP-rigid", (_torso, Good), (_arm, Bad), (_leg, Good)), On("VPP-flexible", (_torso, Bad), (_arm, Good), (_leg, Good))],
            [new(_torso, _arm, Everywhere), new(_torso, _leg, Everywhere)]);
        Assert.Equal(Verdict.Suits, build!.Verdict);
        Assert.Equal([(_torso, 0), (_arm, 1), (_leg, 0)], build.Parts.Select(p => (p.Part.Part.PartId, p.Printer)));
    }

    // By hand: torso 10, leg 2 or 4; the arm only on the second printer for 6: 10 + 6 + 2 = 18.
    [Fact]
    public void Of_equal_builds_the_cheapest_is_taken()
    {
        var build = MixedBuild.Of([
            On("VPP-rigid", (_torso, Good), (_arm, Bad), (_leg, Good)) with { CostOfPart = Costs((_torso, 10), (_leg, 2)) },
            On("VPP-flexible", (_torso, Bad), (_arm, Good), (_leg, Good)) with { CostOfPart = Costs((_arm, 6), (_leg, 4)) },
        ], []);
        Assert.Equal(18, build!.Cost);
    }

    [Fact]
    public void Parts_of_different_processes_need_a_joint_that_both_use()
    {
        var ballForFilament = new MixedJoint(_torso, _arm, new Dictionary<string, Verdict> { ["MEX-rigid"] = Verdict.Suits });
        var sleeveForResin = new MixedJoint(_torso, _arm, new Dictionary<string, Verdict> { ["VPP-rigid"] = Verdict.Suits });
        PrinterCase[] printers = [On("MEX-rigid", (_torso, Good), (_arm, Bad)), On("VPP-rigid", (_torso, Bad), (_arm, Good))];
        Assert.Null(MixedBuild.Of(printers, [ballForFilament, sleeveForResin]));
        Assert.NotNull(MixedBuild.Of(printers, [new(_torso, _arm, Everywhere)]));
    }

    [Fact]
    public void A_joint_that_cracks_on_one_of_the_processes_forbids_the_pair()
    {
        var joint = new MixedJoint(_torso, _arm, new Dictionary<string, Verdict> { ["MEX-rigid"] = Verdict.Suits, ["VPP-rigid"] = Verdict.Unsuited });
        Assert.Null(MixedBuild.Of([On("MEX-rigid", (_torso, Good), (_arm, Bad)), On("VPP-rigid", (_torso, Bad), (_arm, Good))], [joint]));
    }

    [Fact]
    public void Only_the_part_that_has_to_give_counts_where_one_has()
    {
        var bends = new MixedJoint(_torso, _arm, new Dictionary<string, Verdict> { ["VPP-rigid"] = Verdict.Unsuited, ["VPP-flexible"] = Verdict.Suits });
        PrinterCase[] printers = [On("VPP-rigid", (_torso, Good), (_arm, Bad)), On("VPP-flexible", (_torso, Bad), (_arm, Good))];
        Assert.NotNull(MixedBuild.Of(printers, [bends with { StrainedPartId = _arm }]));
        Assert.Null(MixedBuild.Of(printers, [bends with { StrainedPartId = _torso }]));
        Assert.Null(MixedBuild.Of(printers, [bends]));
    }

    [Fact]
    public void A_choice_is_built_from_the_member_and_the_printer_that_serve_best()
    {
        var choice = Guid.NewGuid();
        var (lit, plain) = (Guid.NewGuid(), Guid.NewGuid());
        PrinterCase Printer(string process, Judgement onLit, Judgement onPlain, Judgement torso) => Case(process,
            Part(_torso, torso), Part(lit, onLit) with { Role = PartRole.ChoiceMember, ChoiceId = choice, IsDefaultMember = true }, Part(plain, onPlain) with { Role = PartRole.ChoiceMember, ChoiceId = choice });
        var build = MixedBuild.Of([Printer("VPP-rigid", Bad, Good, Good)], []);
        Assert.Equal([_torso, plain], build!.Parts.Select(p => p.Part.Part.PartId));
        Assert.Equal([_torso, lit], MixedBuild.Of([Printer("VPP-rigid", Good, Good, Good)], [])!.Parts.Select(p => p.Part.Part.PartId));
    }

    [Fact]
    public void An_accessory_goes_where_it_suits_best_and_decides_nothing()
    {
        var build = MixedBuild.Of([Case("VPP-rigid", Part(_torso, Good), Part(_arm, Bad) with { Role = PartRole.Optional })], []);
        Assert.Equal((Verdict.Suits, 2), (build!.Verdict, build.Parts.Count));
    }

    [Fact]
    public void A_part_that_no_printer_can_make_or_that_is_not_checked_yet_leaves_no_build()
    {
        Assert.Null(MixedBuild.Of([On("VPP-rigid", (_torso, Good), (_arm, Bad)), On("MEX-rigid", (_torso, Good), (_arm, Bad))], []));
        Assert.Null(MixedBuild.Of([On("VPP-rigid", (_torso, Good), (_arm, Judgement.Unchecked))], []));
    }

    // Every assignment of seven parts to three printers is tried by hand (3^7) and must not beat the search.
    [Fact]
    public void No_assignment_is_cheaper_than_the_one_found()
    {
        var random = new Random(7);
        for (var round = 0; round < 50; round++)
        {
            var parts = Enumerable.Range(0, 7).Select(_ => Guid.NewGuid()).ToList();
            var codes = new[] { "MEX-rigid", "VPP-rigid", "VPP-flexible" };
            var printers = codes.Select(code => On(code, [.. parts.Select(p => (p, random.Next(3) == 0 ? Bad : Good))]) with
            {
                CostOfPart = parts.ToDictionary(p => p, _ => (double)random.Next(1, 20)),
            }).ToList();
            var joints = Enumerable.Range(1, 6).Select(i => new MixedJoint(parts[random.Next(i)], parts[i],
                codes.Where(_ => random.Next(4) > 0).ToDictionary(c => c, _ => Verdict.Suits))).ToList();
            var expected = (Printers: int.MaxValue, Cost: double.PositiveInfinity);
            for (var code = 0; code < 2187; code++)
            {
                var to = Enumerable.Range(0, 7).Select(i => code / (int)Math.Pow(3, i) % 3).ToArray();
                if (Enumerable.Range(0, 7).Any(i => printers[to[i]].Verdict.Parts[i].Verdict == Verdict.Unsuited)) continue;
                if (joints.Exists(j => !Allowed(j, codes[to[parts.IndexOf(j.FirstPartId)]], codes[to[parts.IndexOf(j.SecondPartId)]]))) continue;
                var found = (to.Distinct().Count(), Enumerable.Range(0, 7).Sum(i => printers[to[i]].CostOfPart[parts[i]]));
                if (found.CompareTo(expected) < 0) expected = found;
            }

            var build = MixedBuild.Of(printers, joints);
            Assert.Equal(expected, build is null ? (int.MaxValue, double.PositiveInfinity) : (build.Printers.Count, build.Cost));
        }

        static bool Allowed(MixedJoint j, string a, string b) => a == b || (j.OnProcess.ContainsKey(a) && j.OnProcess.ContainsKey(b));
    }

    private static Dictionary<Guid, double> Costs(params (Guid Part, double Cost)[] costs) => costs.ToDictionary(c => c.Part, c => c.Cost);

    private static PrinterCase On(string process, params (Guid Part, Judgement Judgement)[] parts) => Case(process, [.. parts.Select(p => Part(p.Part, p.Judgement))]);

    private static PrinterCase Case(string process, params PartCase[] parts) =>
        new(new Printer(process, null), FigureJudge.Judge(parts, process), new Dictionary<Guid, double>());

    private static PartCase Part(Guid id, Judgement judgement) =>
        new(id, id.ToString("N"), "Part", PartRole.Required, null, null, [new(Guid.NewGuid(), Guid.NewGuid(), "standard", judgement)]);
}
