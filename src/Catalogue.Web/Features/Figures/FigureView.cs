using Catalogue.Data.Ranges;
using Catalogue.Model.Cautions;
using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Figures;

/// <summary>A published figure as programs read it. Texts are Markdown, lengths mm.</summary>
internal sealed record FigureView
{
    public required string Slug { get; init; }
    public required string Title { get; init; }
    public required string Summary { get; init; }
    public required IReadOnlyList<string> Tags { get; init; }
    public required string Story { get; init; }
    public required string PaintingNotes { get; init; }
    public required string ReferenceNote { get; init; }
    public required double HeightMm { get; init; }
    public double? ScaleDenominator { get; init; }
    public required string Licence { get; init; }
    public required string Credits { get; init; }
    public required int Edition { get; init; }
    public required DateTime PublishedAt { get; init; }

    /// <summary>The process of <c>verdict</c>: the one asked about, or the best one for the volume; absent without a printer.</summary>
    public string? Process { get; init; }

    public Verdict? Verdict { get; init; }
    public IReadOnlyList<ReasonView>? Reasons { get; init; }

    /// <summary>The verdict with the usual member of every choice, and why; absent without a printer. Never better than <c>verdict</c>, which takes the best members.</summary>
    public UsualView? Usual { get; init; }

    /// <summary>
    /// How it is built from parts of several printers, when it does not suit the one asked about: with those named by <c>also</c>, else with other materials
    /// of the same category. Absent when that does not help either.
    /// </summary>
    public IReadOnlyList<MixedView>? Mixed { get; init; }

    /// <summary>What it takes on the printer asked about, estimated; absent without one.</summary>
    public CostView? Cost { get; init; }

    /// <summary>What the build of <c>mixed</c> takes.</summary>
    public CostView? MixedCost { get; init; }

    /// <summary>The verdict on every process, in the volume asked about.</summary>
    public required IReadOnlyList<ProcessVerdictView> Processes { get; init; }

    public required IReadOnlyList<ChoiceView> Choices { get; init; }
    public required IReadOnlyList<PartView> Parts { get; init; }
    public required IReadOnlyList<HardwareView> Hardware { get; init; }
    public required IReadOnlyList<JointView> Joints { get; init; }
    public required IReadOnlyList<StepView> Steps { get; init; }

    /// <summary>Photos of the figure as somebody built it.</summary>
    public required IReadOnlyList<PhotoView> Photos { get; init; }

    /// <summary>The designer's own words.</summary>
    public required string Cautions { get; init; }

    /// <summary>The usual cautions that apply.</summary>
    public required IReadOnlyList<Caution> UsualCautions { get; init; }

    public required IReadOnlyList<EditionView> Editions { get; init; }

    public static FigureView Of(FigureAnswer answer, string pathBase)
    {
        var figure = answer.Figure;
        var slugs = figure.Parts.Select(p => (p.Id, p.Slug)).Concat(answer.Details.Shown.Parts.Select(p => (p.Id, p.Slug))).Distinct().ToDictionary(p => p.Id, p => p.Slug);
        var joints = answer.Joints.Where(j => slugs.ContainsKey(j.FirstPartId) && slugs.ContainsKey(j.SecondPartId));
        return new()
        {
            Slug = figure.Slug,
            Title = figure.Title,
            Summary = figure.Summary,
            Tags = figure.Tags,
            Story = figure.Story,
            PaintingNotes = figure.PaintingNotes,
            ReferenceNote = figure.ReferenceNote,
            HeightMm = figure.HeightMm,
            ScaleDenominator = figure.ScaleDenominator,
            Licence = figure.Licence,
            Credits = figure.Credits,
            Edition = answer.Details.Shown.EditionNumber,
            PublishedAt = answer.Details.Shown.PublishedAt,
            Process = answer.Process,
            Verdict = answer.Asked?.Verdict.Verdict,
            Reasons = answer.Asked is null ? null : ReasonView.Of(answer.Asked.Verdict),
            Usual = UsualView.Of(answer.Asked?.Verdict),
            Mixed = answer.Mixed is null ? null : [.. answer.Mixed.ByPrinter.Select(MixedView.Of)],
            Cost = CostView.Of(answer.Cost, answer.Snapshot.Currency),
            MixedCost = CostView.Of(answer.MixedCost, answer.Snapshot.Currency),
            Processes = [.. answer.ByProcess.Select(v => new ProcessVerdictView(v.Process.Code, v.Verdict.Verdict))],
            Choices = [.. answer.Choices.Select(c => ChoiceView.Of(answer, c))],
            Parts = [.. answer.Parts.Select(p => PartView.Of(answer, p, pathBase, withRevisions: false))],
            Hardware = [.. answer.Hardware.Select(HardwareView.Of)],
            Joints = [.. joints.Select(j => JointView.Of(j, slugs, answer.Asked?.Process, answer.RodOf(j)))],
            Photos = PhotoView.Of(answer.Details.Figure),
            Steps = [.. answer.Steps.Select(s => StepView.Of(s, slugs))],
            Cautions = figure.Cautions,
            UsualCautions = answer.Cautions,
            Editions = [.. answer.Details.Editions.Select(e => new EditionView(e.Number, e.Note, e.PublishedAt))],
        };
    }
}

internal sealed record ProcessVerdictView(string Process, Verdict Verdict);

/// <param name="Reasons">What is said of that build; empty where it is the best one.</param>
internal sealed record UsualView(Verdict Verdict, IReadOnlyList<ReasonView> Reasons)
{
    public static UsualView? Of(FigureVerdict? verdict) => verdict is null ? null : new(verdict.Usual.Verdict, [.. verdict.Usual.Reasons.Select(ReasonView.Of)]);
}

/// <summary>One of several printers with the parts that it makes.</summary>
/// <param name="Volume">Its build volume; absent for any.</param>
internal sealed record MixedView(string Process, string? Volume, IReadOnlyList<MixedPartView> Parts)
{
    public static MixedView Of((Printer Printer, IReadOnlyList<PartVerdict> Parts) share) => new(share.Printer.Process!, share.Printer.Volume?.ToString(),
        [.. share.Parts.Select(p => new MixedPartView(p.Part.Slug, p.Chosen?.Variant, p.Verdict))]);
}

/// <param name="Variant">The slug of the file to take.</param>
internal sealed record MixedPartView(string Part, string? Variant, Verdict Verdict);

internal sealed record EditionView(int Number, string Note, DateTime PublishedAt);

/// <summary>A choice: its members, the usual one, and the one that serves the printer best (the usual one without a printer).</summary>
internal sealed record ChoiceView(string Name, IReadOnlyList<string> Members, string? Usual, string Best)
{
    public static ChoiceView Of(FigureAnswer answer, IGrouping<Guid, PartAnswer> choice) => new(
        choice.First().Part.ChoiceName ?? "", [.. choice.Select(p => p.Part.Slug)], choice.FirstOrDefault(p => p.Part.IsDefaultMember)?.Part.Slug,
        answer.BestOf(choice).Part.Slug);
}

/// <summary>A part: with a printer its verdict, findings and the variant to take.</summary>
internal sealed record PartView(string Slug, string Name, string Note, int Quantity, PartRole Role, string? Choice)
{
    public Verdict? Verdict { get; init; }
    public IReadOnlyList<FindingReport>? Findings { get; init; }

    /// <summary>The slug of the variant to take for the printer.</summary>
    public string? Take { get; init; }

    public required IReadOnlyList<VariantView> Variants { get; init; }

    public static PartView Of(FigureAnswer answer, PartAnswer part, string pathBase, bool withRevisions)
    {
        var p = part.Part;
        return new(p.Slug, p.Name, answer.Details.NoteOf(p.Id), p.Quantity, p.Role, p.ChoiceName)
        {
            Verdict = part.Verdict?.Verdict,
            Findings = part.Verdict is null ? null : [.. part.Verdict.Judgement.Findings.Select(FindingReport.Of)],
            Take = part.Chosen?.Variant.Slug,
            Variants = [.. part.Variants.Select(v => VariantView.Of(answer, p, v, pathBase, withRevisions))],
        };
    }
}

/// <summary>A variant with the revision that is shown; sizes as the file lies.</summary>
internal sealed record VariantView(
    string Slug, string Name, string Note, IReadOnlyList<string> Processes, RevisionView Revision, double[] Size, double VolumeMm3, double AreaMm2, int Triangles)
{
    /// <summary>What the designer says to watch, by process.</summary>
    public required IReadOnlyDictionary<string, string> Reservations { get; init; }

    /// <summary>In the volume asked about.</summary>
    public FitReport? Fit { get; init; }

    /// <summary>On every process it is made for, whatever the volume.</summary>
    public required IReadOnlyList<JudgementView> Verdicts { get; init; }

    /// <summary>Every published revision, newest first; with a single part only.</summary>
    public IReadOnlyList<RevisionView>? Revisions { get; init; }

    public static VariantView Of(FigureAnswer answer, IndexedPart part, VariantAnswer variant, string pathBase, bool withRevisions)
    {
        var (v, inspection) = (variant.Variant, variant.Revision.Inspection);
        RevisionView View(Revision revision) => RevisionView.Of(
            revision, pathBase + DownloadPath.Of(answer.Figure.Slug, part.Slug, v.Slug, revision), answer.Details.ChangeOf(revision));
        return new(v.Slug, v.Name, answer.Details.NoteOf(v.Id), v.MadeFor, View(variant.Revision), [inspection.SizeXMm, inspection.SizeYMm, inspection.SizeZMm],
            inspection.VolumeMm3, inspection.AreaMm2, inspection.Triangles)
        {
            Reservations = answer.Details.DeclarationsOfVariant[v.Id].Where(d => d.Reservation.Length > 0).ToDictionary(d => d.Process, d => d.Reservation),
            Fit = variant.Fit is { } fit ? FitReport.Of(fit) : null,
            Verdicts = [.. v.MadeFor.Select(p => (Process: p, Judgement: variant.On(p)))
                .Select(j => new JudgementView(j.Process, j.Judgement.Verdict, [.. j.Judgement.Findings.Select(FindingReport.Of)]))],
            Revisions = withRevisions ? [.. answer.Details.RevisionsOfVariant[v.Id].Select(View)] : null,
        };
    }
}

internal sealed record JudgementView(string Process, Verdict Verdict, IReadOnlyList<FindingReport> Findings);

/// <param name="File">Where the file is downloaded.</param>
/// <param name="Change">What changed since the published revision before it; absent for the first, and until they are compared.</param>
internal sealed record RevisionView(int Number, string Note, DateTime UploadedAt, long Bytes, string Sha256, string File, RevisionChangeView? Change)
{
    public static RevisionView Of(Revision revision, string file, RevisionChange? change) =>
        new(revision.Number, revision.Note, revision.UploadedAt, revision.Bytes, revision.Sha256, file, RevisionChangeView.Of(change));
}
