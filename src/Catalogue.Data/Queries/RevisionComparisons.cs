using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>Comparisons of revisions with the ones before them: those that are there, and those that are still to be asked for.</summary>
public static class RevisionComparisons
{
    private static readonly Dictionary<(Guid Before, Guid After), MeshComparison> None = [];

    /// <summary>The comparisons between meshes of these revisions, by the ids of the two inspections. No query where there is nothing to compare.</summary>
    public static async Task<IReadOnlyDictionary<(Guid Before, Guid After), MeshComparison>> ComparisonsAmongAsync(
        this CatalogueDb db, IReadOnlyCollection<Revision> revisions, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(revisions);
        var later = revisions.GroupBy(r => r.VariantId).SelectMany(v => v.OrderBy(r => r.Number).Skip(1)).Select(r => r.InspectionId).Distinct().ToList();
        return later.Count == 0
            ? None
            : await db.Comparisons.AsNoTracking().Where(c => later.Contains(c.AfterId)).ToDictionaryAsync(c => (c.BeforeId, c.AfterId), cancellation);
    }

    /// <summary>
    /// Pairs of finished inspections that a designer or a reader sees side by side (see <see cref="RevisionHistory.Before"/>) and that nobody has
    /// compared yet, or only by an earlier version.
    /// </summary>
    /// <param name="of">Only pairs of variants that have a revision with this inspection; those that broke off are then taken up again as well. Null = all.</param>
    /// <param name="most">At most about so many.</param>
    public static async Task<IReadOnlyList<(Guid Before, Guid After)>> MissingComparisonsAsync(
        this CatalogueDb db, Guid? of, int most, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        var pairs = new HashSet<(Guid, Guid)>();
        foreach (var published in new[] { false, true })
        {
            var missing = await Missing(db, of, published).Take(most).ToListAsync(cancellation);
            pairs.UnionWith(missing.Select(m => (m.Before!.Value, m.After)));
        }

        return [.. pairs];
    }

    private static IQueryable<Pair> Missing(CatalogueDb db, Guid? of, bool published)
    {
        var revisions = db.Revisions.Where(r => r.DiscardedAt == null && (!published || r.PublishedAt != null));
        var counting = revisions.Where(r => r.Inspection.State != InspectionState.Rejected && r.Inspection.State != InspectionState.Failed);
        var later = revisions.Where(r => r.Number > 1 && r.Inspection.State == InspectionState.Done);
        if (of is not null) later = later.Where(r => db.Revisions.Any(o => o.VariantId == r.VariantId && o.InspectionId == of));
        return later.OrderBy(r => r.Id)
            .Select(r => new Pair
            {
                Before = counting.Where(b => b.VariantId == r.VariantId && b.Number < r.Number).OrderByDescending(b => b.Number)
                    .Select(b => b.Inspection.State == InspectionState.Done ? (Guid?)b.InspectionId : null).FirstOrDefault(),
                After = r.InspectionId,
            })
            .Where(p => p.Before != null && p.Before != p.After
                && !db.Comparisons.Any(c => c.BeforeId == p.Before && c.AfterId == p.After
                    && (c.MadeByVersion == MeshComparison.Version || c.State == ComparisonState.Queued || c.State == ComparisonState.Running)
                    && (of == null || c.State != ComparisonState.Failed)));
    }

    private sealed class Pair
    {
        public Guid? Before { get; init; }
        public Guid After { get; init; }
    }
}
