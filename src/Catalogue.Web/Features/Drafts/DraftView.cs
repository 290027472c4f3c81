using System.Text.Json.Serialization;
using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Drafts;

/// <summary>A figure as its designers see it: everything there is, published or not, and what stands in the way of publishing.</summary>
internal sealed record DraftView
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
    public required string Cautions { get; init; }
    public required FigureStatus Status { get; init; }

    /// <summary>Counts every change; send it with <c>publish</c> to publish what you have seen and nothing newer.</summary>
    public required int Version { get; init; }

    /// <summary>The number of the edition readers see.</summary>
    public int? Edition { get; init; }

    public required DateTime ChangedAt { get; init; }
    public required IReadOnlyList<Obstacle> Obstacles { get; init; }
    public required IReadOnlyList<ChangeView> Changes { get; init; }
    public required IReadOnlyList<ChoiceView> Choices { get; init; }
    public required IReadOnlyList<PartView> Parts { get; init; }
    public required IReadOnlyList<JointView> Joints { get; init; }
    public required IReadOnlyList<HardwareView> Hardware { get; init; }
    public required IReadOnlyList<StepView> Steps { get; init; }

    /// <summary>Photos of the figure as somebody built it.</summary>
    public required IReadOnlyList<PhotoView> Photos { get; init; }
    public required IReadOnlyList<EditionView> Editions { get; init; }

    /// <summary>True while an upload of the figure is being inspected, or compared with the one before it.</summary>
    [JsonIgnore]
    public bool IsBusy => Parts.SelectMany(p => p.Variants).SelectMany(v => v.Revisions).Any(r => !r.Discarded && (!r.Inspection.Finished || r.Since is { IsPending: true }));

    /// <summary>The view of a figure that was loaded whole, with the verdicts of its revisions.</summary>
    public static async Task<DraftView> OfAsync(Figure figure, CatalogueDb db, CancellationToken cancellation)
    {
        var known = await KnownOfRevisions.LoadAsync(db, [.. figure.Parts.SelectMany(p => p.Variants).SelectMany(v => v.Revisions)], cancellation);
        var slugs = figure.Parts.ToDictionary(p => p.Id, p => p.Slug);
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
            Cautions = figure.Cautions,
            Status = figure.Status,
            Version = figure.Version,
            Edition = figure.CurrentEdition?.Number,
            ChangedAt = figure.ChangedAt,
            Obstacles = figure.Obstacles(),
            Changes = [.. figure.Changes().Select(c => new ChangeView(c.Part.Slug, c.Part.Name, c.Variant.Slug, c.Variant.Name, c.From?.Number, c.To?.Number))],
            Choices = [.. figure.Choices.OrderBy(c => c.Slug).Select(c => new ChoiceView(c.Slug, c.Name, c.DefaultPartId is { } id ? slugs.GetValueOrDefault(id) : null))],
            Parts = [.. figure.Parts.OrderBy(p => p.Position).Select(p => PartView.Of(p, known))],
            Joints = [.. figure.Joints.OrderBy(j => j.Id).Select(j => JointView.Of(j, slugs))],
            Hardware = [.. figure.Hardware.OrderBy(h => h.Position).Select(HardwareView.Of)],
            Photos = PhotoView.Of(figure),
            Steps = [.. figure.Steps.OrderBy(s => s.Position).Select(s => StepView.Of(s, slugs))],
            Editions = [.. figure.Editions.OrderByDescending(e => e.Number).Select(e => new EditionView(e.Number, e.Note, e.PublishedAt, e.Entries.Count))],
        };
    }
}

/// <summary>What publishing would do to a variant: <c>from</c> absent = new, <c>to</c> absent = gone.</summary>
internal sealed record ChangeView(string Part, string PartName, string Variant, string VariantName, int? From, int? To);

internal sealed record ChoiceView(string Slug, string Name, string? DefaultPart);

internal sealed record EditionView(int Number, string Note, DateTime PublishedAt, int Meshes);

internal sealed record PartView(
    string Slug, string Name, int Quantity, PartRole Role, string? Choice, string Note, bool Removed, IReadOnlyList<Pose> Poses,
    IReadOnlyList<VariantView> Variants)
{
    [JsonIgnore]
    public bool HasMesh => Variants.Any(v => v.Latest is not null);

    public static PartView Of(Part part, KnownOfRevisions known) => new(
        part.Slug, part.Name, part.Quantity, part.Role, part.Choice?.Slug, part.Note, part.IsRemoved, part.AssembledPoses,
        [.. part.Variants.OrderBy(v => v.Id).Select(v => VariantView.Of(v, known))]);
}

internal sealed record VariantView(
    string Slug, string Name, string Note, bool Removed, IReadOnlyList<string> Processes, IReadOnlyDictionary<string, string> Reservations,
    IReadOnlyList<RevisionView> Revisions)
{
    /// <summary>The upload that would be published.</summary>
    [JsonIgnore]
    public RevisionView? Latest => Removed ? null : Revisions.FirstOrDefault(r => !r.Discarded);

    public static VariantView Of(Variant variant, KnownOfRevisions known) => new(
        variant.Slug, variant.Name, variant.Note, variant.IsRemoved, [.. variant.Declarations.Select(d => d.Process).Order()],
        variant.Declarations.Where(d => d.Reservation.Length > 0).ToDictionary(d => d.Process, d => d.Reservation),
        [.. variant.Revisions.OrderByDescending(r => r.Number).Select(r =>
            RevisionView.Of(r, known.Verdicts[r.Id], RevisionChange.Of(r, variant.Revisions, known.Comparisons)))]);
}

internal sealed record RevisionView(
    int Number, string Sha256, long Bytes, string FileName, string? Unit, string Note, DateTime UploadedAt, DateTime? PublishedAt, bool Discarded,
    InspectionView Inspection, IReadOnlyList<VerdictView> Verdicts, IReadOnlyList<OverrulingView> Overrulings)
{
    /// <summary>What changed since the nearest earlier revision that is not discarded; absent until they are compared.</summary>
    public RevisionChangeView? Change => RevisionChangeView.Of(Since);

    [JsonIgnore]
    public RevisionChange? Since { get; private init; }

    public static RevisionView Of(Revision revision, IEnumerable<RevisionVerdict> verdicts, RevisionChange? since) => new(
        revision.Number, revision.Sha256, revision.Bytes, revision.FileName, revision.StatedUnit is { } unit ? MeshInspector.CodeOf(unit) : null,
        revision.Note, revision.UploadedAt, revision.PublishedAt, revision.IsDiscarded, InspectionView.Of(revision.Inspection),
        [.. verdicts.Select(v => new VerdictView(v.Process, v.Judgement))], OverrulingView.Of(revision))
    {
        Since = since,
    };
}

/// <summary>What is kept of revisions beside themselves: verdicts in the order of the processes, comparisons by the ids of both inspections.</summary>
internal sealed record KnownOfRevisions(
    ILookup<Guid, RevisionVerdict> Verdicts, IReadOnlyDictionary<(Guid Before, Guid After), MeshComparison> Comparisons)
{
    /// <summary>For what was just written: verdicts and comparisons come with the draft and with the inspection.</summary>
    public static KnownOfRevisions Nothing { get; } = new(
        Enumerable.Empty<RevisionVerdict>().ToLookup(v => v.RevisionId), new Dictionary<(Guid, Guid), MeshComparison>());

    public static async Task<KnownOfRevisions> LoadAsync(CatalogueDb db, IReadOnlyCollection<Revision> revisions, CancellationToken cancellation)
    {
        var ids = revisions.Select(r => r.Id).ToList();
        var order = await db.Processes.AsNoTracking().ToDictionaryAsync(p => p.Code, p => p.Position, cancellation);
        var verdicts = await db.Verdicts.AsNoTracking().Where(v => ids.Contains(v.RevisionId)).ToListAsync(cancellation);
        return new(verdicts.OrderBy(v => order.GetValueOrDefault(v.Process)).ToLookup(v => v.RevisionId), await db.ComparisonsAmongAsync(revisions, cancellation));
    }
}

internal sealed record VerdictView(string Process, [property: JsonIgnore] Judgement Judgement)
{
    public Verdict Verdict => Judgement.Verdict;
    public IReadOnlyList<FindingReport> Findings => [.. Judgement.Findings.Select(FindingReport.Of)];
}

/// <summary>A verdict on the workbench, with its findings opened or folded. <c>Where</c> tells it from others on the page.</summary>
internal sealed record VerdictLine(string Where, VerdictView Verdict, bool Open)
{
    /// <summary>Where its cares may be overruled; null where they may not, because the variant is not made for the process or the revision is discarded.</summary>
    public OverruleForm? Overrule { get; init; }
}

/// <summary>The form that overrules a finding.</summary>
/// <param name="Action">Where it is sent, below the site.</param>
/// <param name="Earlier">What was said of the same finding on the latest earlier revision that has such words, by code.</param>
internal sealed record OverruleForm(string Action, string Variant, int Number, IReadOnlyDictionary<string, string> Earlier)
{
    public static OverruleForm Of(string action, VariantView variant, RevisionView revision, string process) => new(action, variant.Slug, revision.Number,
        variant.Revisions.Where(r => r.Number < revision.Number).OrderBy(r => r.Number).SelectMany(r => r.Overrulings)
            .Where(o => o.Process == process && o.WithdrawnAt is null).GroupBy(o => o.Code).ToDictionary(g => g.Key, g => g.Last().Reason));
}
