using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>One line of the designers' list.</summary>
/// <param name="Edition">The number of the edition readers see; null when there is none.</param>
/// <param name="HasChanges">True when publishing would change what readers see.</param>
/// <param name="Waiting">Uploads that are still being inspected.</param>
public sealed record DraftSummary(
    string Slug, string Title, FigureStatus Status, int? Edition, DateTime ChangedAt, int Parts, int Waiting, bool HasChanges, IReadOnlyList<Obstacle> Obstacles);

/// <summary>The designers' list of figures, whatever their status, with what stands in the way of publishing each.</summary>
public static class DraftList
{
    /// <summary>One page of the list, the latest changes first, and how many there are. Two queries, no mesh data read.</summary>
    public static async Task<(IReadOnlyList<DraftSummary> Items, int Total)> ListDraftsAsync(
        this CatalogueDb db, FigureStatus? status, int page, int size, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        var figures = db.Figures.AsNoTracking().Where(f => status == null || f.Status == status);
        var total = await figures.CountAsync(cancellation);
        var rows = await figures.OrderByDescending(f => f.ChangedAt).ThenBy(f => f.Slug).Skip((page - 1) * size).Take(size).Select(f => new
        {
            f.Slug,
            f.Title,
            f.Status,
            f.ChangedAt,
            Edition = f.Editions.Where(e => e.Id == f.CurrentEditionId).Select(e => (int?)e.Number).FirstOrDefault(),
            Shown = f.Editions.Where(e => e.Id == f.CurrentEditionId).SelectMany(e => e.Entries).Select(n => n.RevisionId).ToList(),
            Parts = f.Parts.Where(p => p.RemovedAt == null).OrderBy(p => p.Position).Select(p => new
            {
                p.Slug,
                p.Name,
                p.Role,
                Choice = p.Choice == null ? null : p.Choice.Name,
                Variants = p.Variants.Where(v => v.RemovedAt == null).Select(v => new
                {
                    v.Name,
                    Latest = v.Revisions.Where(r => r.DiscardedAt == null).OrderByDescending(r => r.Number).Select(r => new
                    {
                        r.Id,
                        r.Number,
                        r.Inspection.State,
                        r.Inspection.OpenEdges,
                        r.Inspection.ErrorMessage,
                    }).FirstOrDefault(),
                }).ToList(),
            }).ToList(),
        }).AsSplitQuery().ToListAsync(cancellation);

        return ([.. rows.Select(f =>
        {
            var latest = f.Parts.SelectMany(p => p.Variants).Select(v => v.Latest).Where(r => r is not null).ToList();
            var parts = f.Parts.Select(p => new PartState(p.Slug, p.Name, p.Role, p.Choice,
            [
                .. p.Variants.Select(v => new VariantState(v.Name, v.Latest is { } r ? new(r.Number, r.State, r.OpenEdges, r.ErrorMessage) : null)),
            ])).ToList();
            return new DraftSummary(f.Slug, f.Title, f.Status, f.Edition, f.ChangedAt, f.Parts.Count,
                latest.Count(r => r!.State is InspectionState.Queued or InspectionState.Running),
                !latest.Select(r => r!.Id).ToHashSet().SetEquals(f.Shown),
                PublishingObstacles.Of(f.Title, parts));
        })], total);
    }
}
