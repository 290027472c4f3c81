using System.Globalization;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;
using Microsoft.EntityFrameworkCore;
using Microsoft.Net.Http.Headers;

namespace Catalogue.Web.Features.Pictures;

/// <summary>Pictures of published figures and parts, WebP or PNG on a transparent ground.</summary>
internal static class PictureEndpoint
{
    public static void MapPictures(this IEndpointRouteBuilder app)
    {
        app.MapGet("/figures/{figure}/picture/{size:int}.{format}", FigureAsync).ExcludeFromDescription();
        app.MapGet("/figures/{figure}/parts/{part}/{variant}/{revision:int}/picture/{size:int}.{format}", PartAsync).ExcludeFromDescription();
    }

    private static async Task<IResult> FigureAsync(
        string figure, int size, string format, HttpContext http, RangeSearch search, PictureDesk desk, CancellationToken cancellation)
    {
        Check(size, format);
        var snapshot = await search.SnapshotAsync(cancellation);
        if (!snapshot.BySlug.TryGetValue(figure, out var shown)) throw NotFound();
        var files = PicturePath.FilesOf(shown);
        if (files.Count == 0) throw NotFound();
        return await SendAsync(http, desk, files, size, PicturePath.HeightOf(size), format, cancellation);
    }

    private static async Task<IResult> PartAsync(
        string figure, string part, string variant, int revision, int size, string format, HttpContext http, CatalogueDb db, PictureDesk desk, CancellationToken cancellation)
    {
        Check(size, format);
        var found = await (
            from f in db.Figures
            from p in f.Parts
            from v in p.Variants
            from r in v.Revisions
            where f.Slug == figure && f.Status == FigureStatus.Published && p.Slug == part && v.Slug == variant && r.Number == revision && r.PublishedAt != null
            select new { r.Sha256, r.StatedUnit }).AsNoTracking().SingleOrDefaultAsync(cancellation) ?? throw NotFound();
        return await SendAsync(http, desk, [new(found.Sha256, found.StatedUnit, Rotation.Identity, Vec3.Zero)], size, size, format, cancellation);
    }

    private static async Task<IResult> SendAsync(
        HttpContext http, PictureDesk desk, IReadOnlyList<PicturedFile> files, int width, int height, string format, CancellationToken cancellation)
    {
        var path = await desk.FileAsync(files, width, height, format, cancellation);
        var name = Path.GetFileName(path);

        // An address that names the picture never shows another one.
        http.Response.Headers.CacheControl = http.Request.Query["v"] == PicturePath.Mark(name) ? "public, max-age=31536000, immutable" : "public, max-age=60";
        return Results.File(path, format == "png" ? "image/png" : "image/webp", entityTag: new EntityTagHeaderValue($"\"{name}\""));
    }

    private static void Check(int size, string format)
    {
        if (!PicturePath.Sizes.Contains(size) || format is not ("webp" or "png")) throw NotFound();
    }

    private static RuleBrokenException NotFound() => new("not-found",
        string.Create(CultureInfo.InvariantCulture, $"There is no such picture. Published figures and parts have them, {string.Join(", ", PicturePath.Sizes)} pixels wide, as webp and png."));
}
