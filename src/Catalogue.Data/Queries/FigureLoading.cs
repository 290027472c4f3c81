using Catalogue.Model;
using Catalogue.Model.Figures;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>Figures loaded whole, for changing them by their own rules.</summary>
public static class FigureLoading
{
    /// <summary>The figure with everything below it, tracked. Saving fails when somebody else changed it meanwhile.</summary>
    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public static async Task<Figure> LoadForEditingAsync(this CatalogueDb db, string slug, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        return await Whole(db).SingleOrDefaultAsync(f => f.Slug == slug, cancellation) ?? throw NotFound(slug);
    }

    /// <summary>The same for looking only: not tracked.</summary>
    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public static async Task<Figure> LoadForViewingAsync(this CatalogueDb db, string slug, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        return await Whole(db).AsNoTrackingWithIdentityResolution().SingleOrDefaultAsync(f => f.Slug == slug, cancellation) ?? throw NotFound(slug);
    }

    private static RuleBrokenException NotFound(string slug) =>
        new("not-found", $"There is no figure “{slug}” here. It may have another address; look it up in the range.");

    private static IQueryable<Figure> Whole(CatalogueDb db) => db.Figures
        .Include(f => f.Parts).ThenInclude(p => p.Variants).ThenInclude(v => v.Revisions).ThenInclude(r => r.Inspection)
        .Include(f => f.Parts).ThenInclude(p => p.Variants).ThenInclude(v => v.Revisions).ThenInclude(r => r.Overrulings)
        .Include(f => f.Parts).ThenInclude(p => p.Variants).ThenInclude(v => v.Declarations)
        .Include(f => f.Choices)
        .Include(f => f.Hardware).ThenInclude(h => h.Parts)
        .Include(f => f.Joints)
        .Include(f => f.Steps).ThenInclude(s => s.Parts)
        .Include(f => f.Steps).ThenInclude(s => s.Hardware)
        .Include(f => f.Photos)
        .Include(f => f.Editions).ThenInclude(e => e.Entries)
        .AsSplitQuery();
}
