using Catalogue.Geometry.Fit;
using Catalogue.Model.Inspections;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data;

/// <summary>The <see cref="FitOutline"/> of an inspected mesh, in a table of its own, so that the index reads a few hundred bytes a part and steps over no hull.</summary>
public sealed class InspectionOutline
{
    private InspectionOutline()
    {
    }

    private InspectionOutline(Guid inspectionId) => InspectionId = inspectionId;

    public Guid InspectionId { get; private set; }

    /// <summary>As <see cref="FitOutline.Of"/> makes it.</summary>
    public byte[] Outline { get; private set; } = [];

    /// <summary>Adds or replaces the outline of an inspection just finished; the caller saves. None for a mesh without a fit profile.</summary>
    public static async Task KeepAsync(CatalogueDb db, MeshInspection inspection, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(inspection);
        var kept = await db.Outlines.FindAsync([inspection.Id], cancellation);
        if (FitProfile.TryFromBytes(inspection.FitProfile) is not { } profile)
        {
            if (kept is not null) db.Outlines.Remove(kept);
            return;
        }

        if (kept is null) db.Outlines.Add(kept = new InspectionOutline(inspection.Id));
        kept.Outline = FitOutline.Of(profile);
    }

    /// <summary>Makes the outlines that are missing: after an update from a version that kept none.</summary>
    public static async Task FillAsync(CatalogueDb db, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        const int Batch = 200;
        for (var last = Guid.Empty; ;)
        {
            var missing = await db.Inspections.AsNoTracking()
                .Where(i => i.State == InspectionState.Done && i.Id.CompareTo(last) > 0 && !db.Outlines.Any(o => o.InspectionId == i.Id))
                .OrderBy(i => i.Id).Take(Batch).Select(i => new { i.Id, i.FitProfile }).ToListAsync(cancellation);
            if (missing.Count == 0) return;
            last = missing[^1].Id;
            foreach (var row in missing)
                if (FitProfile.TryFromBytes(row.FitProfile) is { } profile) db.Outlines.Add(new InspectionOutline(row.Id) { Outline = FitOutline.Of(profile) });
            await db.SaveChangesAsync(cancellation);
            db.ChangeTracker.Clear();
        }
    }
}
