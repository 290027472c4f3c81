using System.Globalization;
using System.Text.Json.Nodes;
using System.Xml.Linq;
using Catalogue.Data.Ranges;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Conventions;

/// <summary>What browsers and search engines ask every site for: a map, what to leave alone, and how to be installed.</summary>
internal static class ConventionEndpoints
{
    private static readonly XNamespace Sitemap = "http://www.sitemaps.org/schemas/sitemap/0.9";

    /// <summary>The protocol's limit for one map.</summary>
    private const int MostAddresses = 50_000;

    public static void MapConventions(this IEndpointRouteBuilder app)
    {
        app.MapGet("/robots.txt", Robots).ExcludeFromDescription();
        app.MapGet("/sitemap.xml", SitemapAsync).ExcludeFromDescription();
        app.MapGet("/site.webmanifest", ManifestAsync).ExcludeFromDescription();
    }

    /// <summary>Robots Exclusion Protocol, RFC 9309. What takes seconds to work out, and what shows the same again, is not for them.</summary>
    private static IResult Robots(HttpRequest request)
    {
        var at = request.PathBase;
        return Results.Text(
            $"User-agent: *\nDisallow: {at}/api/\nDisallow: {at}/drafts\nDisallow: {at}/sign-in\nDisallow: {at}/*/orientations\nDisallow: {at}/*?\nAllow: {at}/oembed\nSitemap: {SiteAddress.Of(request, "/sitemap.xml")}\n",
            "text/plain");
    }

    private static async Task<IResult> SitemapAsync(HttpRequest request, RangeSearch search, CancellationToken cancellation)
    {
        var snapshot = await search.SnapshotAsync(cancellation);
        var pages = new List<XElement> { Page("/", null), Page("/matrix", null), Page("/processes", null), Page("/cautions", null) };
        foreach (var figure in snapshot.Figures)
        {
            if (pages.Count >= MostAddresses) break;
            pages.Add(Page("/figures/" + figure.Slug, figure.PublishedAt));
        }

        return Results.Text(new XDeclaration("1.0", "utf-8", null) + "\n" + new XElement(Sitemap + "urlset", pages), "application/xml");

        XElement Page(string path, DateTime? changed) => new(Sitemap + "url", new XElement(Sitemap + "loc", SiteAddress.Of(request, path)),
            changed is { } day ? new XElement(Sitemap + "lastmod", day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)) : null);
    }

    /// <summary>Web Application Manifest (W3C).</summary>
    private static async Task<IResult> ManifestAsync(HttpRequest request, Masthead masthead)
    {
        var title = await masthead.TitleAsync();
        return Results.Text(new JsonObject
        {
            ["id"] = request.PathBase + "/",
            ["name"] = title,
            ["short_name"] = title,
            ["start_url"] = request.PathBase + "/",
            ["scope"] = request.PathBase + "/",
            ["display"] = "minimal-ui",
            ["background_color"] = "#f1f2ec",
            ["theme_color"] = "#fdfdf9",
            ["icons"] = new JsonArray(new JsonObject { ["src"] = request.PathBase + "/icons/mark.svg", ["sizes"] = "any", ["type"] = "image/svg+xml" }),
        }.ToJsonString(), "application/manifest+json");
    }
}
