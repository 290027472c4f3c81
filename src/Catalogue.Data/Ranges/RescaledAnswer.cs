using Catalogue.Geometry.Gauges;
using Catalogue.Geometry.Hulls;
using Catalogue.Model;
using Catalogue.Model.Costs;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Scaling;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>A part at a scale.</summary>
/// <param name="Part">As it is shown at its drawn size.</param>
/// <param name="Taken">The file to take at that scale; null when none is made for the process.</param>
/// <param name="Verdict">At the scale.</param>
/// <param name="Drawn">By the same measurements at the drawn size.</param>
/// <param name="SmallPart">Goes into the small-parts cylinder at the scale.</param>
public sealed record RescaledPart(PartAnswer Part, VariantAnswer? Taken, PartVerdict Verdict, PartVerdict Drawn, FitAnswer? Fit, bool SmallPart)
{
    /// <summary>What the scale brings.</summary>
    public IEnumerable<Finding> Come => Verdict.Judgement.Findings.Where(f => f.Severity > Severity.Note && !Has(Drawn, f));

    /// <summary>What stood against it at its drawn size and is gone, or is less grave.</summary>
    public IEnumerable<Finding> Gone => Drawn.Judgement.Findings.Where(f => f.Severity > Severity.Note && !Has(Verdict, f));

    private static bool Has(PartVerdict verdict, Finding finding) => verdict.Judgement.Findings.Any(f => f.Code == finding.Code && f.Severity >= finding.Severity);
}

/// <summary>A published figure printed at another size on one printer, judged from stored measurements. The same for page and API.</summary>
public sealed record RescaledAnswer
{
    public required FigureAnswer Answer { get; init; }
    public required PrintScale Scale { get; init; }
    public required Process Process { get; init; }
    public required FigureVerdict Verdict { get; init; }
    public required IReadOnlyList<RescaledPart> Parts { get; init; }

    /// <summary>All scales by verdict, rising.</summary>
    public required IReadOnlyList<ScaleSpan> Spans { get; init; }

    /// <summary>Up to which it fits the printer; null without a volume, or when it fits at every scale.</summary>
    public required double? FitsUpToPercent { get; init; }

    public required IReadOnlyList<RescaledRod> Rods { get; init; }
    public required IReadOnlyList<RescaledHoles> Holes { get; init; }

    /// <summary>Hardware that comes in the size it has, and is no rod.</summary>
    public required IReadOnlyList<HardwareNeed> KeepsSize { get; init; }

    public required IReadOnlyList<(Joint Joint, JointSpec Spec, IReadOnlyList<JointMechanics> Mechanics)> Joints { get; init; }
    public required FigureCost Cost { get; init; }

    public double HeightMm => Answer.Figure.HeightMm * Scale.Factor;
    public double? ScaleDenominator => Answer.Figure.ScaleDenominator is { } drawn ? Scale.DenominatorOf(drawn) : null;

    /// <summary>Where nothing is unsuited, around the drawn size or nearest to it; null when there is no such scale.</summary>
    public (double FromPercent, double ToPercent)? Holds => ScaledFigure.Holds(Spans);

    /// <exception cref="RuleBrokenException"><c>printer-missing</c>: no printer was asked about.</exception>
    public static async Task<RescaledAnswer> OfAsync(FigureAnswer answer, PrintScale scale, RangeSearch search, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(search);
        if (answer.Asked is not { Process: var process })
            throw new RuleBrokenException("printer-missing", $"What a figure is like at another size depends on the printer. Name a process, a build volume, or both: process=VPP-rigid&volume=64x114x152.");
        var facts = answer.Parts.SelectMany(p => p.Variants).Where(v => v.Variant.MadeFor.Contains(process.Code) && v.Revision.Inspection.State == InspectionState.Done)
            .ToDictionary(v => v.Variant.Id, v => v.Revision.Inspection.Facts);
        var parts = await PartsAsync(answer, process, facts, search, cancellation);
        var joints = answer.Details.Figure.Joints.Where(j => j.IsUsedOn(process.Code)).ToList();
        var figure = new ScaledFigure(parts, [.. joints.Select(j => new ScalableJoint(j.Id, j.FirstPartId, j.SecondPartId, j.Spec))], process, answer.Printer.Volume);
        var (fits, small) = await AtAsync(answer, process, scale, search, cancellation);
        var (verdict, drawn) = (figure.At(scale, fits, small, asPublished: scale == PrintScale.Drawn), figure.At(PrintScale.Drawn));
        var rescaled = answer.Parts.Select(p => PartOf(p, verdict, drawn, fits, small)).ToList();
        var built = verdict.Built.Select(b => b.Part.PartId).ToHashSet();
        var hardware = answer.Hardware.ToList();
        return new()
        {
            Answer = answer,
            Scale = scale,
            Process = process,
            Verdict = verdict,
            Parts = rescaled,
            Spans = figure.Spans(),
            FitsUpToPercent = answer.Printer.Volume is not null && figure.FitsUpTo * 100 < PrintScale.MostPercent ? Math.Floor(figure.FitsUpTo * 1000) / 10 : null,
            Rods = [.. hardware.Select(h => RescaledRod.Of(h, joints.Select(j => j.Spec), process, scale)).OfType<RescaledRod>()],
            Holes = RescaledHoles.Of(rescaled.Where(p => built.Contains(p.Part.Part.Id) && p.Taken is not null)
                .Select(p => (p.Part.Part.Name, facts.GetValueOrDefault(p.Taken!.Variant.Id)?.Holes?.Holes ?? [])), process, scale),
            KeepsSize = [.. hardware.Where(h => h is not { Kind: HardwareKind.Rod, DiameterMm: not null } && h.Kind is not (HardwareKind.Adhesive or HardwareKind.Paint or HardwareKind.Tool))],
            Joints = [.. joints.Select(j => (j, j.Spec.Scaled(process, scale))).Select(j => (j.j, j.Item2, JointMechanics.Of(j.Item2, process)))],
            Cost = CostOf(answer, rescaled, built, facts, process, scale),
        };
    }

    private static async Task<List<ScalablePart>> PartsAsync(
        FigureAnswer answer, Process process, Dictionary<Guid, MeshFacts> facts, RangeSearch search, CancellationToken cancellation)
    {
        var largest = answer.Printer.Volume is { } volume ? new LargestFit(search, volume) : null;
        var parts = new List<ScalablePart>();
        foreach (var part in answer.Parts)
        {
            var variants = new List<ScalableVariant>();
            foreach (var v in part.Variants.Where(v => v.Variant.MadeFor.Contains(process.Code)))
            {
                var fits = largest is null || !v.Variant.IsMeasured ? double.PositiveInfinity : await largest.AboutAsync(v.Variant, cancellation);
                variants.Add(new(v.Variant.Id, v.Revision.Id, v.Variant.Slug, v.On(process.Code), facts.GetValueOrDefault(v.Variant.Id), fits));
            }

            var p = part.Part;
            parts.Add(new(new(p.Id, p.Slug, p.Name, p.Role, p.ChoiceId, p.ChoiceName, []) { IsDefaultMember = p.IsDefaultMember, OtherVariants = part.Variants.Count - variants.Count }, variants));
        }

        return largest is null ? parts : await RefinedAsync(answer, parts, largest, cancellation);
    }

    /// <summary>Profiles say about how large a part may be; those that decide for the figure are asked exactly.</summary>
    private static async Task<List<ScalablePart>> RefinedAsync(FigureAnswer answer, List<ScalablePart> parts, LargestFit largest, CancellationToken cancellation)
    {
        var asked = new HashSet<Guid>();
        while (true)
        {
            var least = parts.Where(p => p.Case.Role != PartRole.Optional && p.Variants.Count > 0).Select(p => p.Variants.MaxBy(v => v.FitsUpTo)!).MinBy(v => v.FitsUpTo);
            if (least is null || !asked.Add(least.VariantId)) return parts;
            var indexed = answer.Parts.SelectMany(p => p.Variants).First(v => v.Variant.Id == least.VariantId).Variant;
            var exact = await largest.ExactAsync(indexed, least.FitsUpTo, cancellation);
            parts = parts.ConvertAll(p => p with { Variants = [.. p.Variants.Select(v => v.VariantId == least.VariantId ? v with { FitsUpTo = exact } : v)] });
        }
    }

    /// <summary>Fit and small-parts gauge of every file that could be taken, exactly at the scale: neither room nor gauge scales with the part.</summary>
    private static async Task<(Dictionary<Guid, FitAnswer> Fits, HashSet<Guid> Small)> AtAsync(
        FigureAnswer answer, Process process, PrintScale scale, RangeSearch search, CancellationToken cancellation)
    {
        var (fits, small) = (new Dictionary<Guid, FitAnswer>(), new HashSet<Guid>());
        foreach (var v in answer.Parts.SelectMany(p => p.Variants).Where(v => v.Variant.IsMeasured && v.Variant.MadeFor.Contains(process.Code)))
        {
            if (answer.Printer.Volume is { } volume && await search.FitAsync(v.Variant, volume.At(scale.Factor), exact: false, cancellation) is { } fit)
                fits[v.Variant.Id] = fit.Scaled(scale.Factor);
            if (v.Revision.Inspection.Hull is { Length: > 0 } hull && SmallPartsGauge.TakesIn(ConvexHull.FromBytes(hull).Scaled(scale.Factor), cancellation)) small.Add(v.Variant.Id);
        }

        return (fits, small);
    }

    private static RescaledPart PartOf(PartAnswer part, FigureVerdict verdict, FigureVerdict drawn, Dictionary<Guid, FitAnswer> fits, HashSet<Guid> small)
    {
        var now = verdict.Parts.First(p => p.Part.PartId == part.Part.Id);
        var taken = part.Variants.FirstOrDefault(v => v.Variant.Id == now.Chosen?.VariantId);
        return new(part, taken, now, drawn.Parts.First(p => p.Part.PartId == part.Part.Id), taken is null ? null : fits.GetValueOrDefault(taken.Variant.Id),
            taken is not null && small.Contains(taken.Variant.Id));
    }

    private static FigureCost CostOf(
        FigureAnswer answer, List<RescaledPart> parts, HashSet<Guid> built, Dictionary<Guid, MeshFacts> facts, Process process, PrintScale scale)
    {
        PartCost? Cost(RescaledPart part) => part.Taken is { } taken && facts.GetValueOrDefault(taken.Variant.Id) is { } drawn
            && PrintShape.Of(drawn.Scaled(scale.Factor, part.SmallPart), process, answer.Printer.Volume, part.Fit) is { } shape
            && PrintCost.Of(shape, process, answer.Printer.PaceOn(process.Code)) is { } cost
                ? new(part.Part.Part.Id, part.Part.Part.Slug, part.Part.Part.Name, part.Part.Part.Quantity, process, cost)
                : null;
        var counted = parts.Where(p => built.Contains(p.Part.Part.Id)).Select(Cost).ToList();
        return new([.. counted.OfType<PartCost>()], [.. parts.Where(p => !built.Contains(p.Part.Part.Id)).Select(Cost).OfType<PartCost>()], counted.Count(c => c is null));
    }
}
