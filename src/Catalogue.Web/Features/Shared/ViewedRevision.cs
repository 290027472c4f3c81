using Catalogue.Data;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Accounts;
using Microsoft.AspNetCore.Authentication;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Shared;

/// <summary>A revision that may be looked at: published ones by anybody, the others by designers (page or token: looking changes nothing).</summary>
internal sealed record ViewedRevision(Guid Id, Guid VariantId, int Number, string PartName, string Sha256, LengthUnit? Unit, Guid InspectionId, bool IsPublished)
{
    /// <summary>What others keep of an answer about it.</summary>
    public string Keeping(bool forEver) => (IsPublished ? "public" : "private") + (forEver ? ", max-age=31536000, immutable" : ", no-cache");

    /// <exception cref="RuleBrokenException"><c>not-found</c></exception>
    public static async Task<ViewedRevision> FindAsync(
        CatalogueDb db, HttpContext http, string figure, string part, string variant, int revision, CancellationToken cancellation)
    {
        var found = await (
            from f in db.Figures
            from p in f.Parts
            from v in p.Variants
            from r in v.Revisions
            where f.Slug == figure && p.Slug == part && v.Slug == variant && r.Number == revision
            select new { r.Id, r.VariantId, r.Number, p.Name, r.Sha256, r.StatedUnit, r.InspectionId, Published = f.Status == FigureStatus.Published && r.PublishedAt != null })
            .AsNoTracking().SingleOrDefaultAsync(cancellation);
        if (found is null || (!found.Published && !await IsDesignerAsync(http)))
            throw new RuleBrokenException("not-found", $"There is no published revision {revision} of “{part}” ({variant}) of “{figure}”. Look at the figure’s page for the parts there are.");
        return new(found.Id, found.VariantId, found.Number, found.Name, found.Sha256, found.StatedUnit, found.InspectionId, found.Published);
    }

    /// <summary>The file of the revision before it that its readers have seen and that could be measured; null when there is none.</summary>
    public async Task<(string Sha256, LengthUnit? Unit)?> BeforeAsync(CatalogueDb db, CancellationToken cancellation)
    {
        var before = await db.Revisions.AsNoTracking()
            .Where(r => r.VariantId == VariantId && r.Number < Number && r.DiscardedAt == null && (!IsPublished || r.PublishedAt != null) && r.Inspection.State == InspectionState.Done)
            .OrderByDescending(r => r.Number).Select(r => new { r.Sha256, r.StatedUnit }).FirstOrDefaultAsync(cancellation);
        return before is null ? null : (before.Sha256, before.StatedUnit);
    }

    internal static async Task<bool> IsDesignerAsync(HttpContext http) =>
        http.User.Identity?.IsAuthenticated is true || (await http.AuthenticateAsync(AccessTokenScheme.Name)).Succeeded;
}
