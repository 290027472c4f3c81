using System.Net;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests.Orientations;

/// <summary>Ways to lay a published part down on a visitor's printer: the page, its pictures, the API.</summary>
public abstract partial class OrientationTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Small = "process=VPP-rigid&volume=64x114x152";

    [Fact]
    public async Task A_part_is_laid_down_several_ways_each_with_its_numbers_and_a_picture()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("brick-layer", 20, 30, 60);
        using var visitor = new Browser(Catalogue.CreateClient());
        await visitor.GoAsync($"/figures/{figure}/parts/body?{Small}");
        Assert.Contains($"/figures/{figure}/parts/body/orientations?", WebUtility.HtmlDecode(visitor.Html), StringComparison.Ordinal);

        await visitor.GoAsync($"/figures/{figure}/parts/body/orientations?{Small}");
        Assert.Contains("Supports touch", visitor.Html, StringComparison.Ordinal);
        Assert.Contains("Sealed by the film", visitor.Html, StringComparison.Ordinal);
        var pictures = Source().Matches(visitor.Html).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value)).ToList();
        Assert.NotEmpty(pictures);
        Assert.Equal(pictures.Count, pictures.Distinct().Count());
        using var client = Catalogue.CreateClient();
        foreach (var address in pictures)
        {
            using var picture = await client.GetAsync(address);
            Assert.Equal((HttpStatusCode.OK, "image/webp"), (picture.StatusCode, picture.Content.Headers.ContentType?.MediaType));
            Assert.Contains("immutable", picture.Headers.CacheControl?.ToString() ?? "", StringComparison.Ordinal);
            var bytes = await picture.Content.ReadAsByteArrayAsync();

            // RIFF … WEBP: the container of WebP (RFC 9649).
            Assert.Equal("RIFFWEBP", System.Text.Encoding.ASCII.GetString([.. bytes[..4], .. bytes[8..12]]));
        }

        using var none = await client.GetAsync(pictures[0].Replace("/orientations/0/", "/orientations/99/", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Fact]
    public async Task The_API_gives_what_lies_flat_and_what_stands_of_a_brick()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("brick-giver", 20, 30, 60);
        using var visitor = Catalogue.Visitor();
        var answer = await visitor.GetJsonAsync($"/api/figures/{figure}/parts/body/orientations?{Small}");
        Assert.Equal(("body", "solid", 1, "VPP-rigid"), ((string?)answer["part"], (string?)answer["variant"], (int)answer["revision"]!, (string?)answer["process"]));
        var ways = answer["orientations"]!["advised"]!.AsArray();
        Assert.InRange(ways.Count, 1, 5);

        // A brick on a flat side hangs over nowhere; laid on its largest side it is 20 mm high.
        Assert.Contains(ways, w => Math.Abs((double)w!["heightMm"]! - 20) < 0.05 && (double)w["contactMm2"]! < 0.5);
        Assert.All(ways, w => Assert.True((double)w!["spareMm"]! >= 0));
        Assert.Equal(60, (double)answer["orientations"]!["asTheFileLies"]!["heightMm"]!, 2);
    }

    [Fact]
    public async Task Without_a_printer_the_page_asks_for_one_and_the_API_says_what_is_missing()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("brick-asker", 20, 30, 60);
        using var visitor = new Browser(Catalogue.CreateClient());
        await visitor.GoAsync($"/figures/{figure}/parts/body/orientations");
        Assert.Contains("Choose my printer", visitor.Html, StringComparison.Ordinal);
        using var client = Catalogue.Visitor();
        using var refused = await client.GetAsync($"/api/figures/{figure}/parts/body/orientations?process=VPP-rigid");
        await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "printer-needed");
        using var unknown = await client.GetAsync($"/api/figures/{figure}/parts/body/orientations?variant=none&{Small}");
        await unknown.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
    }

    [Fact]
    public async Task Nothing_fits_a_printer_that_is_too_small_and_the_page_says_so()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("brick-large", 20, 30, 60);
        using var visitor = new Browser(Catalogue.CreateClient());
        await visitor.GoAsync($"/figures/{figure}/parts/body/orientations?process=VPP-rigid&volume=15x15x15");
        Assert.Contains("None of the ways that were tried fits this printer.", visitor.Html, StringComparison.Ordinal);
        Assert.Empty(Source().Matches(visitor.Html));
    }

    [GeneratedRegex("<li class=\"way\">\\s*<img src=\"([^\"]+)\"")]
    private static partial Regex Source();
}

public sealed class OrientationsOnSqliteTests(SqliteCatalogue catalogue) : OrientationTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class OrientationsOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : OrientationTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
