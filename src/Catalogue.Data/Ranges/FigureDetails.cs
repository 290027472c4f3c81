using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Reports;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>Everything a reader may see of one published figure. Drafts, discarded uploads and withdrawn figures are not in it.</summary>
public sealed record FigureDetails
{
    /// <summary>Parts and judged revisions of the edition shown.</summary>
    public required IndexedFigure Shown { get; init; }

    /// <summary>Texts, hardware, joints, steps and choices. Not tracked; its own parts are not loaded.</summary>
    public required Figure Figure { get; init; }

    /// <summary>The editions, newest first.</summary>
    public required IReadOnlyList<Edition> Editions { get; init; }

    /// <summary>Every published revision of the variants shown, newest first, with its inspection.</summary>
    public required ILookup<Guid, Revision> RevisionsOfVariant { get; init; }

    /// <summary>The designer's notes on parts and variants, by their ids; those without one are not in it.</summary>
    public required IReadOnlyDictionary<Guid, string> Notes { get; init; }

    /// <summary>What the designer says of a variant on the processes it is made for.</summary>
    public required ILookup<Guid, Declaration> DeclarationsOfVariant { get; init; }

    /// <summary>Comparisons of the revisions with the ones before them, by the ids of both inspections.</summary>
    public required IReadOnlyDictionary<(Guid Before, Guid After), MeshComparison> Comparisons { get; init; }

    /// <summary>What was reported, newest first.</summary>
    public required IReadOnlyList<Report> Reports { get; init; }

    /// <summary>The designer's note on a part or a variant; empty when there is none.</summary>
    public string NoteOf(Guid partOrVariant) => Notes.GetValueOrDefault(partOrVariant) ?? "";

    /// <summary>What the designer says to watch when printing a variant on a process; empty when nothing.</summary>
    public string ReservationOf(Guid variant, string? process) => DeclarationsOfVariant[variant].FirstOrDefault(d => d.Process == process)?.Reservation ?? "";

    /// <summary>What changed in a published revision since the published one before it; null for the first.</summary>
    public RevisionChange? ChangeOf(Revision revision)
    {
        ArgumentNullException.ThrowIfNull(revision);
        return RevisionChange.Of(revision, RevisionsOfVariant[revision.VariantId], Comparisons);
    }

    /// <summary>The revision a part's variant is shown with.</summary>
    public Revision? ShownRevision(IndexedVariant variant)
    {
        ArgumentNullException.ThrowIfNull(variant);
        return RevisionsOfVariant[variant.Id].FirstOrDefault(r => r.Id == variant.RevisionId);
    }

    /// <exception cref="RuleBrokenException"><c>not-found</c>: no published figure has that slug.</exception>
    public static Task<FigureDetails> LoadAsync(CatalogueDb db, RangeSnapshot snapshot, string slug, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        return LoadAsync(db, snapshot.BySlug.TryGetValue(slug, out var shown) ? shown : throw NotFound(slug), cancellation);
    }

    /// <exception cref="RuleBrokenException"><c>not-found</c>: the figure was removed meanwhile.</exception>
    public static async Task<FigureDetails> LoadAsync(CatalogueDb db, IndexedFigure shown, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(shown);
        var figure = await db.Figures.AsNoTrackingWithIdentityResolution()
            .Include(f => f.Choices)
            .Include(f => f.Hardware.OrderBy(h => h.Position)).ThenInclude(h => h.Parts)
            .Include(f => f.Joints)
            .Include(f => f.Photos.OrderBy(p => p.Position))
            .Include(f => f.Steps.OrderBy(s => s.Position)).ThenInclude(s => s.Parts)
            .Include(f => f.Steps).ThenInclude(s => s.Hardware)
            .Include(f => f.Editions)
            .AsSplitQuery().SingleOrDefaultAsync(f => f.Id == shown.Id, cancellation) ?? throw NotFound(shown.Slug);
        var variants = shown.Parts.SelectMany(p => p.Variants).Select(v => v.Id).ToList();
        var revisions = await db.Revisions.AsNoTracking().Include(r => r.Inspection)
            .Where(r => variants.Contains(r.VariantId) && r.PublishedAt != null).OrderByDescending(r => r.Number).ToListAsync(cancellation);
        var notes = await db.Parts.Where(p => p.FigureId == shown.Id && p.Note != "").Select(p => new { p.Id, p.Note }).ToListAsync(cancellation);
        var made = await db.Variants.AsNoTracking().Include(v => v.Declarations).Where(v => variants.Contains(v.Id)).ToListAsync(cancellation);
        var reports = await db.Reports.AsNoTracking().Where(r => r.FigureId == shown.Id).OrderByDescending(r => r.ReportedAt).ToListAsync(cancellation);
        return new()
        {
            Shown = shown,
            Figure = figure,
            Editions = [.. figure.Editions.OrderByDescending(e => e.Number)],
            RevisionsOfVariant = revisions.ToLookup(r => r.VariantId),
            Notes = notes.Select(n => (n.Id, n.Note)).Concat(made.Where(v => v.Note.Length > 0).Select(v => (v.Id, v.Note))).ToDictionary(n => n.Id, n => n.Note),
            DeclarationsOfVariant = made.SelectMany(v => v.Declarations).ToLookup(d => d.VariantId),
            Comparisons = await db.ComparisonsAmongAsync(revisions, cancellation),
            Reports = reports,
        };
    }

    internal static RuleBrokenException NotFound(string slug) =>
        new("not-found", $"There is no published figure “{slug}”. It may have been withdrawn or have another address; look it up in the range.");
}
