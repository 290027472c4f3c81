using Catalogue.Data;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Net.Http.Headers;

namespace Catalogue.Web.Features.Downloads;

/// <summary>The file of a published revision: never changes, can be resumed, and carries the digest of what was uploaded (RFC 9530).</summary>
internal static class DownloadEndpoint
{
    private const string Route = "/figures/{figure}/parts/{part}/{variant}/{revision:int}/{filename}";

    public static void MapDownloads(this IEndpointRouteBuilder app) =>
        app.MapMethods(Route, [HttpMethods.Get, HttpMethods.Head], SendAsync).ExcludeFromDescription();

    private static async Task<IResult> SendAsync(
        string figure, string part, string variant, int revision, string filename, HttpContext http, CatalogueDb db, IBlobStore blobs, CancellationToken cancellation)
    {
        var found = await (
            from f in db.Figures
            from p in f.Parts
            from v in p.Variants
            from r in v.Revisions
            where f.Slug == figure && f.Status == FigureStatus.Published && p.Slug == part && v.Slug == variant && r.Number == revision && r.PublishedAt != null
            select r).AsNoTracking().SingleOrDefaultAsync(cancellation)
            ?? throw new RuleBrokenException("not-found",
                $"No published file is at this address: revision {revision} of “{part}” ({variant}) of “{figure}”. Look at the figure’s page for the files there are.");
        var name = DownloadPath.NameOf(figure, part, variant, found);
        if (filename != name) return Results.Redirect(http.Request.PathBase + DownloadPath.Of(figure, part, variant, found), permanent: true);
        var content = await blobs.OpenAsync(found.Sha256, cancellation)
            ?? throw new RuleBrokenException("file-missing",
                $"The catalogue knows this file but cannot find it in its store. Nothing else is affected; please tell the host, who can restore it from a backup.");
        var headers = http.Response.Headers;
        headers["Repr-Digest"] = $"sha-256=:{Convert.ToBase64String(Convert.FromHexString(found.Sha256))}:";
        headers.CacheControl = "public, max-age=31536000, immutable";
        return Results.Stream(content, TypeOf(name), name, found.UploadedAt, new EntityTagHeaderValue($"\"{found.Sha256}\""), enableRangeProcessing: true);
    }

    /// <summary>The registered media types of the formats (IANA, tree “model”).</summary>
    private static string TypeOf(string name) => Path.GetExtension(name) switch
    {
        ".obj" => "model/obj",
        ".3mf" => "model/3mf",
        _ => "model/stl",
    };
}
