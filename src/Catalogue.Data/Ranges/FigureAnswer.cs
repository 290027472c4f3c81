using Catalogue.Geometry.Holes;
using Catalogue.Model;
using Catalogue.Model.Cautions;
using Catalogue.Model.Costs;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Reports;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>A published figure, answered for one printer: the verdict, and per part the file to take. The same for page and API.</summary>
public sealed record FigureAnswer
{
    private FigureCost? _cost;
    private FigureCost? _mixedCost;

    public required RangeSnapshot Snapshot { get; init; }
    public required FigureDetails Details { get; init; }
    public required Printer Printer { get; init; }

    /// <summary>The verdict on every process, in the printer's volume when there is one.</summary>
    public required IReadOnlyList<ProcessVerdict> ByProcess { get; init; }

    /// <summary>The one that counts: the printer's process, or the best one when only a volume is known; null without a printer.</summary>
    public required ProcessVerdict? Asked { get; init; }

    public required IReadOnlyList<PartAnswer> Parts { get; init; }

    /// <summary>How it is built with more than one printer; null when one is enough, or when that does not help either.</summary>
    public MixedAnswer? Mixed { get; init; }

    /// <summary>What it takes on the printer asked about; null without one.</summary>
    public FigureCost? Cost => _cost ??= FigureCosts.Of(this);

    /// <summary>What the build with more than one printer takes; null where there is none.</summary>
    public FigureCost? MixedCost => _mixedCost ??= FigureCosts.OfMixed(this);

    public Figure Figure => Details.Figure;
    public string? Process => Asked?.Process.Code;
    public IEnumerable<PartAnswer> Required => Parts.Where(p => p.Part.Role == PartRole.Required);
    public IEnumerable<PartAnswer> Optional => Parts.Where(p => p.Part.Role == PartRole.Optional);
    public IEnumerable<IGrouping<Guid, PartAnswer>> Choices => Parts.Where(p => p.Part.ChoiceId is not null).GroupBy(p => p.Part.ChoiceId!.Value);

    /// <summary>What is printed for one figure: required parts and, of each choice, the member that serves best.</summary>
    public IEnumerable<PartAnswer> Built => Required.Concat(Choices.Select(BestOf));

    /// <summary>The hardware that is needed on the process asked about; all of it without one.</summary>
    public IEnumerable<HardwareNeed> Hardware => Figure.Hardware.Where(h => Applies(h.Processes));

    public IEnumerable<Step> Steps => Figure.Steps.Where(s => Applies(s.Processes));
    public IEnumerable<Joint> Joints => Figure.Joints.Where(j => Applies(j.Processes));

    public IReadOnlyList<Caution> Cautions => Caution.For(Process, Hardware, Built.Any(p => p.Chosen?.IsSmallPart == true));

    /// <summary>The member of a choice that serves best: that of the verdict, else the default.</summary>
    public PartAnswer BestOf(IGrouping<Guid, PartAnswer> choice)
    {
        ArgumentNullException.ThrowIfNull(choice);
        var chosen = Asked?.Verdict.Choices.FirstOrDefault(c => c.ChoiceId == choice.Key)?.Chosen.Part.PartId;
        return choice.FirstOrDefault(p => p.Part.Id == chosen) ?? choice.FirstOrDefault(p => p.Part.IsDefaultMember) ?? choice.First();
    }

    /// <summary>What was reported of a part: of the files shown now, and of earlier ones.</summary>
    public PartReports ReportsOf(PartAnswer part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return PartReports.Of(Details.Reports.Where(r => r.PartId == part.Part.Id), [part]);
    }

    /// <summary>The same over all parts.</summary>
    public PartReports ReportsInAll => PartReports.Of(Details.Reports, Parts);

    public IndexedPart? PartOf(Guid id) => Details.Shown.Parts.FirstOrDefault(p => p.Id == id);

    /// <summary>The rod of a hinge where the figure is assembled, through the files that are taken (of a part with several, the first); null when that is not known.</summary>
    public RodInPlace? RodOf(Joint joint)
    {
        ArgumentNullException.ThrowIfNull(joint);
        if (joint.Kind != JointKind.PinnedHinge || Placed(joint.FirstPartId) is not { } first || Placed(joint.SecondPartId) is not { } second) return null;
        return RodInPlace.Of(joint.Spec, first.Holes, first.Poses, second.Holes, second.Poses);
    }

    private (IReadOnlyList<RoundHole> Holes, IReadOnlyList<Pose> Poses)? Placed(Guid partId)
    {
        var part = Parts.FirstOrDefault(p => p.Part.Id == partId);
        var taken = part?.Chosen ?? part?.Variants.FirstOrDefault(v => v.Variant.IsMeasured);
        return taken?.Revision.Inspection.Holes is { } holes && part!.Part.Poses.Count > 0 ? (holes.Holes, part.Part.Poses) : null;
    }

    private bool Applies(string[] processes) => Process is null || processes.Length == 0 || processes.Contains(Process);

    /// <param name="also">Other printers that the visitor has; none = other materials of the same category are thought of.</param>
    /// <param name="closely">The slug of the part whose fit is to be told exactly; null = none in particular.</param>
    /// <exception cref="RuleBrokenException"><c>not-found</c>, <c>process-unknown</c>.</exception>
    public static async Task<FigureAnswer> LoadAsync(
        CatalogueDb db, RangeSearch search, string slug, Printer printer, CancellationToken cancellation, string? closely = null,
        IReadOnlyList<Printer>? also = null)
    {
        ArgumentNullException.ThrowIfNull(search);
        ArgumentNullException.ThrowIfNull(printer);
        var snapshot = await search.SnapshotAsync(cancellation);
        snapshot.CheckKnown(printer);
        var indexed = snapshot.BySlug.TryGetValue(slug, out var found) ? found : throw FigureDetails.NotFound(slug);
        var (judged, shown) = await search.ReadAsync(snapshot, indexed, cancellation) ?? throw FigureDetails.NotFound(slug);
        var details = await FigureDetails.LoadAsync(db, shown, cancellation);
        var verdicts = new List<ProcessVerdict>(judged.Processes.Count);
        foreach (var process in judged.Processes)
            verdicts.Add(new(process, await search.JudgeAsync(judged, shown, process.Code, printer.Volume, cancellation)));
        var asked = printer.Process is { } code ? verdicts.Find(v => v.Process.Code == code)
            : printer.Volume is not null ? verdicts.MinBy(v => v.Verdict.Verdict)
            : null;
        var parts = new List<PartAnswer>(details.Shown.Parts.Count);
        foreach (var part in shown.Parts) parts.Add(await PartOfAsync(search, judged, details, part, asked?.Verdict, printer, part.Slug == closely, cancellation));
        if (asked is not null && asked.Process.Code == printer.Process) parts = [.. parts.Select(p => p.PrintedBy(asked.Process, printer.Pace))];
        var mixed = printer.Process is not null && asked is { Verdict.Verdict: Verdict.Unsuited }
            ? await search.MixedAsync(snapshot, shown, also is { Count: > 0 } ? [printer, .. also] : MixedAnswer.Thinkable(snapshot, printer), judged, cancellation)
            : null;
        return new() { Mixed = mixed, Snapshot = snapshot, Details = details, Printer = printer, ByProcess = verdicts, Asked = asked, Parts = parts };
    }

    private static async Task<PartAnswer> PartOfAsync(
        RangeSearch search, JudgedFigures judged, FigureDetails details, IndexedPart part, FigureVerdict? asked, Printer printer, bool exact,
        CancellationToken cancellation)
    {
        var variants = new List<VariantAnswer>(part.Variants.Count);
        foreach (var variant in part.Variants)
        {
            if (details.ShownRevision(variant) is not { } revision) continue;
            var fit = printer.Volume is { } volume ? await search.FitAsync(variant, volume, exact, cancellation) : null;
            variants.Add(new(variant, revision, fit, variant.MadeFor.ToDictionary(p => p, p => judged.On(details.Shown, variant, p))));
        }

        var verdict = asked?.Parts.FirstOrDefault(p => p.Part.PartId == part.Id);
        var chosen = verdict?.Chosen is { } candidate ? variants.Find(v => v.Variant.Id == candidate.VariantId) : null;
        return new(part, verdict, variants, chosen);
    }
}

/// <summary>A figure's verdict on one process.</summary>
public sealed record ProcessVerdict(Process Process, FigureVerdict Verdict);

/// <summary>A part with its verdict on the process asked about and the variant to take; both null without one.</summary>
public sealed record PartAnswer(IndexedPart Part, PartVerdict? Verdict, IReadOnlyList<VariantAnswer> Variants, VariantAnswer? Chosen)
{
    /// <summary>With what the visitor's own layer and line change of the notes; the verdict stays what it is.</summary>
    internal PartAnswer PrintedBy(Process process, PrinterPace pace)
    {
        if (pace is { LayerMm: null, LineMm: null } || Verdict is not { } verdict || Chosen?.Revision.Inspection is not { State: InspectionState.Done } inspection) return this;
        return this with { Verdict = verdict with { Judgement = PrinterFindings.Of(verdict.Judgement, inspection.Facts, process, pace.LayerMm, pace.LineMm) } };
    }
}

/// <summary>A variant with the revision that is shown and, for a volume, its fit.</summary>
/// <param name="Judgements">On every process it is made for, whatever the volume.</param>
public sealed record VariantAnswer(IndexedVariant Variant, Revision Revision, FitAnswer? Fit, IReadOnlyDictionary<string, Judgement> Judgements)
{
    public Judgement On(string process) => Judgements.GetValueOrDefault(process) ?? Judgement.Unchecked;

    /// <summary>True when the mesh goes into the small-parts gauge; false also while that is not known.</summary>
    public bool IsSmallPart => Revision.Inspection.SmallPart;
}

/// <summary>Reports told apart: a revision that answered a failure is not blamed for it.</summary>
public sealed record PartReports(ReportTally Now, ReportTally Earlier)
{
    public bool Any => Now.Total + Earlier.Total > 0;
    public bool HasTrouble => Now.Failed + Now.WithCare + Earlier.Failed + Earlier.WithCare > 0;

    public static PartReports Of(IEnumerable<Report> reports, IEnumerable<PartAnswer> parts)
    {
        ArgumentNullException.ThrowIfNull(reports);
        ArgumentNullException.ThrowIfNull(parts);
        var shown = parts.SelectMany(p => p.Variants).Select(v => v.Revision.Id).ToHashSet();
        var told = reports.ToLookup(r => shown.Contains(r.RevisionId));
        return new(ReportTally.Of(told[true]), ReportTally.Of(told[false]));
    }
}
