using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Conventions;

/// <summary>What a site that is given one of our links may show in its place: oEmbed 1.0 (oembed.com).</summary>
internal static class EmbeddingEndpoint
{
    private const int UsualWidth = 640;
    private const int UsualHeight = 600;

    /// <summary>How long an answer may be kept, in seconds: an edition may follow any day.</summary>
    private const int Life = 3600;

    public static void MapEmbedding(this IEndpointRouteBuilder app) => app.MapGet("/oembed", AnswerAsync)
        .WithTags("Conventions").WithSummary("What to show in place of a link to a figure or a part (oEmbed 1.0)")
        .WithDescription("A frame with the viewer; a picture where the host allows no frames; both no larger than “maxwidth” and “maxheight”. JSON only.")
        .Produces<JsonObject>().ProducesProblem(404).ProducesProblem(422).ProducesProblem(501);

    private static async Task<IResult> AnswerAsync(
        HttpRequest request, RangeSearch search, CatalogueDb db, Masthead masthead, IOptions<CatalogueOptions> options, CancellationToken cancellation,
        string? url = null, string? format = null, int? maxwidth = null, int? maxheight = null)
    {
        if (format is not (null or "json")) return Results.Problem(Problems.Make(501, "embed-format", $"Only JSON is given here", $"“{format}” is not; leave “format” out, or say json."));
        if (maxwidth is < 1 || maxheight is < 1) throw new RuleBrokenException("embed-size", $"“maxwidth” and “maxheight” are whole numbers of pixels from 1 on.");
        var (slug, part) = PageOf(request, url);
        var figure = (await search.SnapshotAsync(cancellation)).BySlug.GetValueOrDefault(slug) ?? throw NotHere();
        var details = part is null ? null : await FigureAnswer.LoadAsync(db, search, slug, Printer.Unknown, cancellation, closely: part);
        var shown = details?.Parts.FirstOrDefault(p => p.Part.Slug == part);
        if (part is not null && shown is null) throw NotHere();

        var range = await masthead.TitleAsync();
        var title = shown is null ? figure.Title : T($"{shown.Part.Name} of {figure.Title}");
        var page = part is null ? $"/figures/{slug}" : $"/figures/{slug}/parts/{part}";
        var answer = new JsonObject
        {
            ["version"] = "1.0",
            ["type"] = "link",
            ["title"] = title,
            ["provider_name"] = range,
            ["provider_url"] = SiteAddress.Of(request, "/"),
            ["cache_age"] = Life,
        };
        var (mostWide, mostHigh) = (maxwidth ?? int.MaxValue, maxheight ?? int.MaxValue);
        if (options.Value.MayBeFramed)
        {
            var (width, height) = (Math.Min(UsualWidth, mostWide), Math.Min(UsualHeight, mostHigh));
            var frame = WebUtility.HtmlEncode(SiteAddress.Of(request, Framing.PathFor(page)));
            answer["type"] = "rich";
            (answer["width"], answer["height"]) = (width, height);
            answer["html"] = FormattableString.Invariant($"<iframe src=\"{frame}\" width=\"{width}\" height=\"{height}\" title=\"{WebUtility.HtmlEncode(title)}\" loading=\"lazy\" style=\"border:0\"></iframe>");
        }

        if (PictureOf(figure, part, shown, mostWide, mostHigh) is not { } picture) return Results.Json(answer, JsonSerializerOptions.Default);
        var kind = options.Value.MayBeFramed ? "thumbnail_" : "";
        if (!options.Value.MayBeFramed) answer["type"] = "photo";
        (answer[kind + "url"], answer[kind + "width"], answer[kind + "height"]) = (SiteAddress.Of(request, picture.Path), picture.Width, picture.Height);
        return Results.Json(answer, JsonSerializerOptions.Default);
    }

    /// <summary>The largest picture within these bounds, as PNG, which everything can show; null for none.</summary>
    private static (string Path, int Width, int Height)? PictureOf(IndexedFigure figure, string? part, PartAnswer? shown, int mostWide, int mostHigh)
    {
        var variant = shown is null ? null : (shown.Chosen ?? shown.Variants.FirstOrDefault(v => v.Variant.IsMeasured)) is { Variant.IsMeasured: true } measured ? measured : null;
        if (shown is not null && variant is null) return null;
        foreach (var size in PicturePath.Sizes.Where(s => s <= 640).OrderDescending())
        {
            var height = shown is null ? PicturePath.HeightOf(size) : size;
            if (size > mostWide || height > mostHigh) continue;
            var path = variant is null ? PicturePath.Of(figure, size) : PicturePath.Of(figure.Slug, part!, variant.Variant.Slug, variant.Revision, size);
            return path is null ? null : (path.Replace(".webp?", ".png?", StringComparison.Ordinal), size, height);
        }

        return null;
    }

    /// <summary>The figure and the part an address of this site is about.</summary>
    private static (string Figure, string? Part) PageOf(HttpRequest request, string? url)
    {
        if (!Uri.TryCreate(url, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https")
            || !address.Authority.Equals(request.Host.ToUriComponent(), StringComparison.OrdinalIgnoreCase)
            || !new PathString(address.AbsolutePath).StartsWithSegments(request.PathBase, out var rest)) throw NotHere();
        return rest.Value!.Trim('/').Split('/') switch
        {
            ["figures", var figure] => (figure, null),
            ["figures", var figure, "parts", var part] => (figure, part),
            _ => throw NotHere(),
        };
    }

    private static RuleBrokenException NotHere() => new("not-found", $"“url” is to be the address of a published figure or part of this catalogue.");
}
