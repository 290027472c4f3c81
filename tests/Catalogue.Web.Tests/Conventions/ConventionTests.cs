using System.Net;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Catalogue.Web.Tests.Conventions;

/// <summary>What others ask a site for: previews of links, structured data, a map, what to leave alone, how to be installed.</summary>
public abstract partial class ConventionTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Title = "Signal \"keeper\" </script>";

    [Fact]
    public async Task A_figure_says_what_it_is_and_how_it_is_built_in_the_words_of_schema_org()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("signal-keeper", 10, 10, 10);
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}", new { title = Title, heightMm = 120, licence = "CC-BY-4.0" }, HttpStatusCode.OK);
        using var visitor = Catalogue.CreateClient();
        var html = await visitor.GetStringAsync($"/figures/{figure}?process=VPP-rigid&volume=64x114x152");
        Assert.Matches(Structured(), html);
        var graph = JsonNode.Parse(Structured().Match(html).Groups[1].Value)!;
        Assert.Equal("https://schema.org", (string?)graph["@context"]);
        var model = graph["@graph"]![0]!;
        Assert.Equal(("3DModel", Title), ((string?)model["@type"], (string?)model["name"]));

        // The file is at its address, and is the one whose digest is told.
        var file = Assert.Single(model["encoding"]!.AsArray())!;
        var bytes = await visitor.GetByteArrayAsync(new Uri((string)file["contentUrl"]!).PathAndQuery);
        Assert.Equal((string?)file["sha256"], Convert.ToHexStringLower(SHA256.HashData(bytes)));

        // One address for every printer.
        Assert.Contains($"<link rel=\"canonical\" href=\"{visitor.BaseAddress}figures/{figure}\">", html, StringComparison.Ordinal);
        Assert.Contains($"<meta property=\"og:url\" content=\"{visitor.BaseAddress}figures/{figure}\">", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_map_names_published_figures_and_no_drafts()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("map-maker", 10, 10, 10);
        var draft = await designer.NewFigureAsync("map-reader");
        using var visitor = Catalogue.CreateClient();
        var map = XDocument.Parse(await visitor.GetStringAsync("/sitemap.xml"));
        XNamespace ns = "http://www.sitemaps.org/schemas/sitemap/0.9";
        var places = map.Root!.Elements(ns + "url").Select(u => (string)u.Element(ns + "loc")!).ToList();
        Assert.Contains($"{visitor.BaseAddress}figures/{figure}", places);
        Assert.DoesNotContain(places, p => p.Contains(draft, StringComparison.Ordinal));
        var robots = await visitor.GetStringAsync("/robots.txt");
        Assert.Contains($"Sitemap: {visitor.BaseAddress}sitemap.xml", robots, StringComparison.Ordinal);
        Assert.Contains("Disallow: /api/", robots, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_site_can_be_installed_and_has_a_page_for_no_connection()
    {
        using var visitor = Catalogue.CreateClient();
        using var answer = await visitor.GetAsync("/site.webmanifest");
        Assert.Equal("application/manifest+json", answer.Content.Headers.ContentType?.MediaType);
        var manifest = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
        Assert.Equal(("/", "minimal-ui"), ((string?)manifest["start_url"], (string?)manifest["display"]));
        using var icon = await visitor.GetAsync((string)manifest["icons"]![0]!["src"]!);
        Assert.Equal(HttpStatusCode.OK, icon.StatusCode);
        Assert.Contains("No connection", await visitor.GetStringAsync("/offline"), StringComparison.Ordinal);
        using var worker = await visitor.GetAsync("/service-worker.js");
        Assert.Equal("text/javascript", worker.Content.Headers.ContentType?.MediaType);
    }

    [GeneratedRegex("<script type=\"application/ld\\+json\">(.*?)</script>", RegexOptions.Singleline)]
    private static partial Regex Structured();
}

public sealed class ConventionsOnSqliteTests(SqliteCatalogue catalogue) : ConventionTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class ConventionsOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : ConventionTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
