using Catalogue.Geometry.Fit;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Scaling;

/// <summary>A variant that is made for the process asked about, as it was measured at its drawn size.</summary>
/// <param name="Published">Its judgement as drawn: counts where there is nothing measured to scale.</param>
/// <param name="Facts">Null while it is not measured.</param>
/// <param name="FitsUpTo">The largest factor at which it still fits the printer; infinite without a volume.</param>
public sealed record ScalableVariant(Guid VariantId, Guid RevisionId, string Slug, Judgement Published, MeshFacts? Facts, double FitsUpTo);

/// <summary>A part with its variants for the process; <paramref name="Case"/> has no candidates yet.</summary>
public sealed record ScalablePart(PartCase Case, IReadOnlyList<ScalableVariant> Variants);

/// <summary>A joint that is used on the process.</summary>
public sealed record ScalableJoint(Guid JointId, Guid FirstPartId, Guid SecondPartId, JointSpec Spec);

/// <summary>A stretch of scales with one verdict.</summary>
/// <param name="FromPercent">Its lower end.</param>
/// <param name="ToPercent">Its upper end.</param>
/// <param name="Reasons">Why, at the end that is nearer to the drawn size: what decides the verdict. Empty where it suits.</param>
public sealed record ScaleSpan(double FromPercent, double ToPercent, Verdict Verdict, IReadOnlyList<Reason> Reasons)
{
    public bool Holds(double percent) => percent >= FromPercent && percent <= ToPercent;
}

/// <summary>A figure judged on one process at any scale, from what was measured at its drawn size.</summary>
public sealed class ScaledFigure(IReadOnlyList<ScalablePart> parts, IReadOnlyList<ScalableJoint> joints, Process process, BuildVolume? volume)
{
    /// <summary>Neighbouring scales that are looked at differ by this factor; between two with different verdicts the change is found to a tenth of a per cent.</summary>
    private const double Step = 1.04;

    private const double FinestPercent = 0.1;

    private readonly Dictionary<double, FigureVerdict> _judged = [];

    /// <summary>The largest factor at which every part that is built fits the printer, with the best of its files and of each choice the best member; infinite without a volume, 0 when a part has no file.</summary>
    public double FitsUpTo
    {
        get
        {
            static double Best(ScalablePart part) => part.Variants.Select(v => v.FitsUpTo).DefaultIfEmpty(0).Max();
            var required = parts.Where(p => p.Case.Role == PartRole.Required).Select(Best);
            var chosen = parts.Where(p => p.Case.ChoiceId is not null).GroupBy(p => p.Case.ChoiceId).Select(g => g.Max(Best));
            return required.Concat(chosen).DefaultIfEmpty(0).Min();
        }
    }

    /// <summary>The figure at a scale.</summary>
    /// <param name="fits">Exact answers for variants, where they are known; for the others <see cref="ScalableVariant.FitsUpTo"/> decides.</param>
    /// <param name="smallParts">Which variants go into the small-parts cylinder at that scale; null = not asked.</param>
    /// <param name="asPublished">True to take the judgements that are shown of the files themselves, with what designers overruled and others reported: at the drawn size only.</param>
    public FigureVerdict At(PrintScale scale, IReadOnlyDictionary<Guid, FitAnswer>? fits = null, IReadOnlySet<Guid>? smallParts = null, bool asPublished = false)
    {
        var cases = parts.Select(p => p.Case with
        {
            Candidates = [.. p.Variants.Select(v => new Candidate(v.VariantId, v.RevisionId, v.Slug, Judge(v, scale, fits?.GetValueOrDefault(v.VariantId), smallParts?.Contains(v.VariantId) == true, asPublished)))],
        }).ToList();
        var held = joints.Select(j => new JointCase(j.JointId, j.FirstPartId, j.SecondPartId, JointMechanics.Judge(j.Spec.Scaled(process, scale), process))).ToList();
        return FigureJudge.Judge(cases, process.SpokenName, held);
    }

    /// <summary>All scales from the least to the most, as stretches of one verdict each, rising. A verdict that lasts over less than 4 per cent of scale may be missed.</summary>
    public IReadOnlyList<ScaleSpan> Spans()
    {
        var steps = Steps().ToList();
        var ends = new List<(double From, double To, Verdict Verdict)>();
        var from = steps[0];
        for (var i = 1; i < steps.Count; i++)
        {
            if (Kept(steps[i]).Verdict == Kept(steps[i - 1]).Verdict) continue;
            var (below, above) = Change(steps[i - 1], steps[i]);
            ends.Add((from, below, Kept(below).Verdict));
            from = above;
        }

        ends.Add((from, steps[^1], Kept(from).Verdict));
        return [.. ends.Select(e => new ScaleSpan(e.From, e.To, e.Verdict, Deciding(Kept(e.To < 100 ? e.To : e.From > 100 ? e.From : 100))))];
    }

    /// <summary>The stretch of scales around the drawn size, or the nearest to it, over which nothing is unsuited; null when there is none.</summary>
    public static (double FromPercent, double ToPercent)? Holds(IReadOnlyList<ScaleSpan> spans)
    {
        ArgumentNullException.ThrowIfNull(spans);
        var near = spans.Where(s => s.Verdict <= Verdict.Care).MinBy(s => s.Holds(100) ? 0 : Math.Min(Math.Abs(s.FromPercent - 100), Math.Abs(s.ToPercent - 100)));
        if (near is null) return null;
        var (first, last) = (spans.ToList().IndexOf(near), spans.ToList().IndexOf(near));
        while (first > 0 && spans[first - 1].Verdict <= Verdict.Care) first--;
        while (last + 1 < spans.Count && spans[last + 1].Verdict <= Verdict.Care) last++;
        return (spans[first].FromPercent, spans[last].ToPercent);
    }

    private static IEnumerable<double> Steps()
    {
        var downward = new Stack<double>();
        for (var percent = 100 / Step; percent > PrintScale.LeastPercent; percent /= Step) downward.Push(percent);
        yield return PrintScale.LeastPercent;
        foreach (var percent in downward) yield return Math.Round(percent, 3);
        for (var percent = 100.0; percent < PrintScale.MostPercent; percent *= Step) yield return Math.Round(percent, 3);
        yield return PrintScale.MostPercent;
    }

    /// <summary>The last scale with the verdict of the lower end and the first with another, a tenth of a per cent apart.</summary>
    private (double Below, double Above) Change(double below, double above)
    {
        var verdict = Kept(below).Verdict;
        while (above - below > FinestPercent * 1.001)
        {
            var middle = Math.Clamp(Math.Round((below + above) / 2, 1), below, above);
            if (middle <= below || middle >= above) break;
            if (Kept(middle).Verdict == verdict) below = middle;
            else above = middle;
        }

        return (below, above);
    }

    private FigureVerdict Kept(double percent)
    {
        if (!_judged.TryGetValue(percent, out var verdict)) _judged[percent] = verdict = At(PrintScale.Of(percent));
        return verdict;
    }

    private static List<Reason> Deciding(FigureVerdict verdict)
    {
        var gravest = verdict.Verdict switch { Verdict.Unsuited => Severity.Stop, Verdict.Care => Severity.Care, _ => (Severity?)null };
        return [.. verdict.Reasons.Where(r => !r.Optional && r.Finding.Severity == gravest)];
    }

    private Judgement Judge(ScalableVariant variant, PrintScale scale, FitAnswer? fit, bool smallPart, bool asPublished)
    {
        var judgement = variant.Facts is { } facts && !asPublished
            ? Judgement.From([.. RevisionJudge.Judge(facts.Scaled(scale.Factor, smallPart), process).Findings, .. ScaleReach.Findings(facts, process, scale.Factor)])
            : variant.Published;
        if (volume is not { } room) return judgement;
        if (fit is not null) return judgement.With(FitFindings.Of(fit, room));
        return scale.Factor > variant.FitsUpTo
            ? judgement.With(Rules.FitTooLarge.Found(Severity.Stop, $"Fits {FitFindings.Words(room)} up to {Math.Floor(variant.FitsUpTo * 1000) / 10:0.#} %; larger it is too long in every orientation.") with
            {
                Measured = Math.Round(scale.Percent, 2),
                Limit = Math.Floor(variant.FitsUpTo * 1000) / 10,
                Unit = "%",
                Source = Rules.FitTooLarge.Origin,
            })
            : judgement;
    }
}
