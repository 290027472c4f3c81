using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Photos;

/// <summary>Photos of figures: shown to everybody once the figure is published, changed by designers.</summary>
internal static class PhotoApi
{
    public static void AddPhotos(this WebApplicationBuilder builder, Storage.CatalogueOptions options)
    {
        builder.Services.AddSingleton(services => new PhotoDesk(services.GetRequiredService<Storage.IBlobStore>(), options));
        builder.Services.AddRazorPages(pages => pages.Conventions.AddPageApplicationModelConvention("/Photos/EditPhotos",
            page => page.EndpointMetadata.Add(new RequestSizeLimitAttribute(MeshUploadEndpoint.BodyOf(PhotoReading.MostBytes)))));
    }

    public static void MapPhotos(this IEndpointRouteBuilder app)
    {
        app.MapGet("/figures/{figure}/photos/{photo:guid}/{size:int}.webp", ShowAsync).ExcludeFromDescription();
        var photos = app.MapGroup("/api/figures/{figure}/photos").RequireAuthorization(AccountSetup.DesignerApi).WithTags("Drafts")
            .ProducesProblem(401).ProducesProblem(404).ProducesProblem(422);
        photos.MapPost("/", AddAsync).WithMetadata(new RequestSizeLimitAttribute(MeshUploadEndpoint.BodyOf(PhotoReading.MostBytes)))
            .Accepts<IFormFile>("multipart/form-data", "image/jpeg", "image/png", "image/webp").ProducesProblem(413)
            .WithSummary("Add a photo of the figure as it was built")
            .WithDescription("JPEG, PNG or WebP, as the field “file” of a form or as the body; “words” says what it shows. A smaller, upright copy is kept, without what the camera wrote beside the "
                + "picture (place, time, device); the file itself is not. At most twelve. Shown at once, like the figure's texts.");
        photos.MapPut("/{photo:guid}", ChangeAsync).WithSummary("Say what a photo shows, or show it first")
            .WithExample("""{"words":"Painted by Ada, in grey and brass","first":true}""");
        photos.MapDelete("/{photo:guid}", RemoveAsync).WithSummary("Take a photo away; its address answers no more");
    }

    private static async Task<Created<PhotoView>> AddAsync(string figure, HttpRequest request, CatalogueDb db, PhotoDesk desk, TimeProvider time, CancellationToken cancellation)
    {
        await CheckAsync(db, figure, cancellation);
        var form = await FileForm<(Storage.StoredBlob Blob, int Width, int Height)>.ReadAsync(request, desk.KeepAsync, null, cancellation);
        var added = await db.EditAsync(figure, f => PhotoView.Of(f, f.AddPhoto(form.File.Blob.Sha256, form.File.Width, form.File.Height, form.Field("words"), time.GetUtcNow().UtcDateTime)), cancellation);
        return TypedResults.Created(request.PathBase + added.Url, added);
    }

    private static async Task<Ok<PhotoView>> ChangeAsync(string figure, Guid photo, PhotoWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(await db.EditAsync(figure, f =>
        {
            var (found, now) = (f.PhotoOf(photo), time.GetUtcNow().UtcDateTime);
            if (words.Words is not null) f.DescribePhoto(found, words.Words, now);
            if (words.First) f.ShowFirst(found, now);
            return PhotoView.Of(f, found);
        }, cancellation));

    private static async Task<NoContent> RemoveAsync(string figure, Guid photo, CatalogueDb db, TimeProvider time, CancellationToken cancellation)
    {
        await db.EditAsync(figure, f => f.RemovePhoto(f.PhotoOf(photo), time.GetUtcNow().UtcDateTime), cancellation);
        return TypedResults.NoContent();
    }

    private static async Task<IResult> ShowAsync(string figure, Guid photo, int size, HttpContext http, CatalogueDb db, PhotoDesk desk, CancellationToken cancellation)
    {
        var found = await db.Figures.Where(f => f.Slug == figure).SelectMany(f => f.Photos, (f, p) => new { p.Id, p.Sha256, Published = f.Status == FigureStatus.Published })
            .SingleOrDefaultAsync(p => p.Id == photo, cancellation);
        if (found is null || !PhotoPath.Sizes.Contains(size) || (!found.Published && !await ViewedRevision.IsDesignerAsync(http)))
            throw new RuleBrokenException("not-found", $"There is no such photo. It may have been taken away; the figure’s page shows those there are.");

        // An address belongs to one photo, which never changes; it may be taken away.
        http.Response.Headers.CacheControl = found.Published ? "public, max-age=86400" : "private, no-cache";
        return Results.File(await desk.FileAsync(found.Sha256, size, cancellation), "image/webp", entityTag: new($"\"{found.Sha256}-{size}\""));
    }

    /// <summary>Refuses a photo that has nowhere to go, before any of it is read.</summary>
    internal static async Task CheckAsync(CatalogueDb db, string figure, CancellationToken cancellation)
    {
        if (!await db.Figures.AnyAsync(f => f.Slug == figure, cancellation)) throw new RuleBrokenException("not-found", $"There is no figure “{figure}” here. Nothing was kept.");
    }
}

/// <param name="Words">What it shows; left out = as it was.</param>
/// <param name="First">True puts it before the others.</param>
internal sealed record PhotoWords(string? Words, bool First = false);
