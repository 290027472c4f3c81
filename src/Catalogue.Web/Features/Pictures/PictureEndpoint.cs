using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Web.Accounts;
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
        app.MapGet("/drafts/{figure}/picture/{size:int}.{format}", DraftAsync).RequireAuthorization(AccountSetup.DesignerPages).ExcludeFromDescription();
        app.MapGet("/figures/{figure}/apart/{size:int}.{format}", ApartAsync).ExcludeFromDescription();
        app.MapGet("/figures/{figure}/parts/{part}/{variant}/{revision:int}/change/{size:int}.{format}", ChangeAsync).ExcludeFromDescription();
        app.MapGet("/figures/{figure}/parts/{part}/{variant}/{revision:int}/picture/{size:int}.{format}", PartAsync).ExcludeFromDescription();
        app.MapGet("/figures/{figure}/parts/{part}/{variant}/{revision:int}/finding/{finding}/{size:int}.{format}", FindingAsync).ExcludeFromDescription();
    }

    private static Task<IResult> FigureAsync(
        string figure, int size, string format, HttpContext http, RangeSearch search, PictureDesk desk, CancellationToken cancellation) =>
        OfFigureAsync(figure, size, format, apart: false, http, search, desk, cancellation);

    private static Task<IResult> ApartAsync(
        string figure, int size, string format, HttpContext http, RangeSearch search, PictureDesk desk, CancellationToken cancellation) =>
        OfFigureAsync(figure, size, format, apart: true, http, search, desk, cancellation);

    /// <summary>A figure in the making, as far as its parts have places and meshes.</summary>
    private static async Task<IResult> DraftAsync(string figure, int size, string format, HttpContext http, CatalogueDb db, PictureDesk desk, CancellationToken cancellation)
    {
        Check(size, format);
        var files = PicturePath.FilesOf(await db.LoadForViewingAsync(figure, cancellation));
        if (files.Count == 0) throw NotFound();
        return await SendAsync(http, desk, new(files), size, PicturePath.HeightOf(size), format, cancellation, isPublic: false);
    }

    private static async Task<IResult> OfFigureAsync(
        string figure, int size, string format, bool apart, HttpContext http, RangeSearch search, PictureDesk desk, CancellationToken cancellation)
    {
        Check(size, format);
        var snapshot = await search.SnapshotAsync(cancellation);
        if (!snapshot.BySlug.TryGetValue(figure, out var shown)) throw NotFound();
        var files = PicturePath.FilesOf(shown);
        if (files.Count < (apart ? 2 : 1)) throw NotFound();
        return await SendAsync(http, desk, new(files) { IsApart = apart }, size, PicturePath.HeightOf(size), format, cancellation);
    }

    private static async Task<IResult> PartAsync(
        string figure, string part, string variant, int revision, int size, string format, HttpContext http, CatalogueDb db, PictureDesk desk, CancellationToken cancellation)
    {
        Check(size, format);
        var found = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        return await SendAsync(http, desk, PictureSubject.Part(found.Sha256, found.Unit), size, size, format, cancellation, found.IsPublished);
    }

    /// <summary>A part with a ball where a finding is, seen from there.</summary>
    private static async Task<IResult> FindingAsync(
        string figure, string part, string variant, int revision, string finding, int size, string format, HttpContext http, CatalogueDb db, PictureDesk desk,
        CancellationToken cancellation)
    {
        Check(size, format);
        var found = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        var process = finding.Split('.', 3) is [_, { } code, _] ? code : "";
        var verdict = await db.Verdicts.AsNoTracking().SingleOrDefaultAsync(v => v.RevisionId == found.Id && v.Process == process, cancellation) ?? throw NotFound();
        var place = FindingPlaces.Find($"{variant}.{process}", verdict.Judgement, finding)?.At ?? throw NotFound();
        return await SendAsync(http, desk, PictureSubject.Part(found.Sha256, found.Unit) with { Place = place }, size, size, format, cancellation, found.IsPublished);
    }

    /// <summary>A part with what is elsewhere than in the revision before it.</summary>
    private static async Task<IResult> ChangeAsync(
        string figure, string part, string variant, int revision, int size, string format, HttpContext http, CatalogueDb db, PictureDesk desk, CancellationToken cancellation)
    {
        Check(size, format);
        var found = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        var before = await found.BeforeAsync(db, cancellation) ?? throw NotFound();
        var subject = PictureSubject.Part(found.Sha256, found.Unit) with { Before = PicturedFile.AsItLies(before.Sha256, before.Unit) };
        return await SendAsync(http, desk, subject, size, size, format, cancellation, found.IsPublished);
    }

    private static async Task<IResult> SendAsync(
        HttpContext http, PictureDesk desk, PictureSubject subject, int width, int height, string format, CancellationToken cancellation, bool isPublic = true)
    {
        var path = await desk.FileAsync(subject, width, height, format, cancellation);
        var name = Path.GetFileName(path);

        // An address that names the picture never shows another one.
        http.Response.Headers.CacheControl = http.Request.Query["v"] == PicturePath.Mark(name) ? $"{(isPublic ? "public" : "private")}, max-age=31536000, immutable" : isPublic ? "public, max-age=60" : "private, no-cache";
        return Results.File(path, format == "png" ? "image/png" : "image/webp", entityTag: new EntityTagHeaderValue($"\"{name}\""));
    }

    private static void Check(int size, string format)
    {
        if (!PicturePath.Sizes.Contains(size) || format is not ("webp" or "png")) throw NotFound();
    }

    private static RuleBrokenException NotFound() => new("not-found",
        $"There is no such picture. Published figures and parts have them, {string.Join(", ", PicturePath.Sizes)} pixels wide, as webp and png.");
}
