using Catalogue.Data.Ranges;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;
using CsCheck;

namespace Catalogue.Web.Tests.Ranges;

/// <summary>The packed figure of the index comes to what the engine of verdicts comes to, whatever the figure.</summary>
public sealed class FigureSketchTests
{
    private static readonly string[] Processes = ["MEX-rigid", "VPP-rigid"];

    private static readonly Gen<VariantCase> Variants = Gen.Select(Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[0, 2])
        .Select((made, mex, vpp, fit) => new VariantCase(made, [(FindingOf)mex, (FindingOf)vpp], (OutlineFit)fit));

    private static readonly Gen<PartOfFigure> Parts = Gen.Select(Gen.Int[0, 3], Gen.Bool, Variants.Array[0, 3])
        .Select((kind, usual, variants) => new PartOfFigure(kind, usual, variants));

    private static readonly Gen<(int First, int Second, int On, FindingOf Kind)[]> Joints =
        Gen.Select(Gen.Int[0, 5], Gen.Int[0, 5], Gen.Int[0, 3], Gen.Int[0, 2]).Select((a, b, on, kind) => (a, b, on, (FindingOf)kind)).Array[0, 4];

    private enum FindingOf
    {
        Nothing,
        Care,
        Stop,
        Pending,
    }

    [Fact]
    public void The_sketch_and_the_engine_come_to_the_same_verdict_and_an_open_fit_is_spanned() =>
        Gen.Select(Parts.Array[1, 6], Joints).Sample(
            (parts, joints) =>
            {
                var figure = new Built(parts, [.. joints.Where(j => j.First < parts.Length && j.Second < parts.Length && j.First != j.Second)]);
                for (var process = 0; process < Processes.Length; process++)
                {
                    var span = figure.Sketch.On(process, figure.Fits);
                    var open = figure.Fits.Count(f => f == OutlineFit.Unclear);
                    for (var way = 0; way < 1 << open; way++)
                    {
                        // Every way the open fits may turn out.
                        var settled = Settled(figure.Fits, way);
                        var truth = figure.Judge(process, settled).Verdict;
                        Assert.InRange(truth, span.Best, span.Worst);
                        Assert.Equal(new VerdictSpan(truth, truth), figure.Sketch.On(process, settled));
                    }

                    Assert.Equal(figure.Judge(process, null).Verdict, figure.Sketch.On(process, []).Best);
                }
            },
            iter: 3_000);

    private static OutlineFit[] Settled(OutlineFit[] fits, int way)
    {
        var bit = 0;
        return Array.ConvertAll(fits, f => f != OutlineFit.Unclear ? f : (way >> bit++ & 1) == 0 ? OutlineFit.Fits : OutlineFit.TooLarge);
    }

    private sealed record VariantCase(int MadeFor, FindingOf[] On, OutlineFit Fit);

    /// <param name="Kind">0 required, 1 optional, 2 and 3 a member of one of two choices.</param>
    private sealed record PartOfFigure(int Kind, bool Usual, VariantCase[] Variants);

    /// <summary>A figure both ways: as the index packs it and as the engine takes it.</summary>
    private sealed class Built
    {
        private readonly List<IndexedPart> _parts = [];
        private readonly List<VariantCase> _variants = [];
        private readonly List<(Guid First, Guid Second, int On, Judgement Judgement)> _joints = [];

        public Built(PartOfFigure[] parts, (int First, int Second, int On, FindingOf Kind)[] joints)
        {
            Guid[] choices = [Guid.NewGuid(), Guid.NewGuid()];
            var verdicts = new Dictionary<(Guid, string), Verdict>();
            for (var p = 0; p < parts.Length; p++)
            {
                var variants = new List<IndexedVariant>();
                foreach (var variant in parts[p].Variants)
                {
                    var made = new IndexedVariant
                    {
                        Id = Guid.NewGuid(),
                        Slug = $"v{variants.Count}",
                        Name = "",
                        RevisionId = Guid.NewGuid(),
                        Number = 1,
                        InspectionId = Guid.NewGuid(),
                        Sha256 = "",
                        Size = default,
                        VolumeMm3 = 1,
                        AreaMm2 = 1,
                        IsMeasured = true,
                        MadeFor = [.. Processes.Where((_, i) => (variant.MadeFor >> i & 1) != 0)],
                        Place = _variants.Count,
                    };
                    for (var i = 0; i < Processes.Length; i++)
                        if (variant.On[i] != FindingOf.Pending) verdicts[(made.RevisionId, Processes[i])] = Of(variant.On[i]).Verdict;
                    variants.Add(made);
                    _variants.Add(variant);
                }

                var choice = parts[p].Kind >= 2 ? choices[parts[p].Kind - 2] : (Guid?)null;
                var role = parts[p].Kind switch { 0 => PartRole.Required, 1 => PartRole.Optional, _ => PartRole.ChoiceMember };
                _parts.Add(new(Guid.NewGuid(), $"p{p}", $"P{p}", 1, role, p, choice, "choice", choice is not null && parts[p].Usual, variants));
            }

            foreach (var (first, second, on, kind) in joints) _joints.Add((_parts[first].Id, _parts[second].Id, on, Of(kind)));
            Fits = [.. _variants.Select(v => v.Fit)];
            var indexed = _joints.Select(j => new IndexedJoint(Guid.NewGuid(), j.First, j.Second, null, new(JointKind.Glued, "j"),
                Processes.Where((_, i) => (j.On >> i & 1) != 0).ToDictionary(p => p, _ => j.Judgement.Verdict))).ToList();
            Sketch = new(_parts, indexed, [.. _variants.Select(_ => (byte[]?)null)], Processes, (revision, process) => verdicts.TryGetValue((revision, process), out var v) ? v : null);
        }

        public FigureSketch Sketch { get; }
        public OutlineFit[] Fits { get; }

        public FigureVerdict Judge(int process, OutlineFit[]? fits)
        {
            var cases = _parts.Select(part =>
            {
                var candidates = part.Variants.Where(v => v.MadeFor.Contains(Processes[process])).Select(v => new Candidate(v.Id, v.RevisionId, v.Slug,
                    Of(_variants[v.Place].On[process]).With(fits?[v.Place] == OutlineFit.TooLarge ? new("fit.too-large", Severity.Stop, $"Too long.") : null))).ToList();
                return new PartCase(part.Id, part.Slug, part.Name, part.Role, part.ChoiceId, part.ChoiceName, candidates) { IsDefaultMember = part.IsDefaultMember };
            }).ToList();
            var joints = _joints.Where(j => (j.On >> process & 1) != 0).Select(j => new JointCase(Guid.NewGuid(), j.First, j.Second, j.Judgement)).ToList();
            return FigureJudge.Judge(cases, "it", joints);
        }

        private static Judgement Of(FindingOf kind) => kind switch
        {
            FindingOf.Care => Judgement.From([new("a", Severity.Care, $"Care.")]),
            FindingOf.Stop => Judgement.From([new("b", Severity.Stop, $"Stop.")]),
            FindingOf.Pending => Judgement.Unchecked,
            _ => Judgement.From([]),
        };
    }
}
