using System.Net;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests.Conventions;

/// <summary>Figures and parts shown in other sites: oEmbed 1.0 (oembed.com) and the frame it points to.</summary>
public abstract partial class EmbeddingTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_part_tells_programs_what_to_show_in_its_place_and_the_frame_may_be_framed()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("framed", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        var html = await visitor.GetStringAsync($"/figures/{figure}/parts/body?process=VPP-rigid&volume=64x114x152");
        var found = new Uri(WebUtility.HtmlDecode(Discovery().Match(html).Groups[1].Value));

        var answer = await visitor.GetJsonAsync(found.PathAndQuery);
        Assert.Equal(("1.0", "rich", "Body of framed"), ((string?)answer["version"], (string?)answer["type"], (string?)answer["title"]));
        Assert.Equal((640, 600, 640, 640), ((int)answer["width"]!, (int)answer["height"]!, (int)answer["thumbnail_width"]!, (int)answer["thumbnail_height"]!));
        using var picture = await visitor.GetAsync(new Uri((string)answer["thumbnail_url"]!).PathAndQuery);
        Assert.Equal("image/png", picture.Content.Headers.ContentType?.MediaType);

        var frame = new Uri(WebUtility.HtmlDecode(Source().Match((string)answer["html"]!).Groups[1].Value));
        Assert.Equal($"/embed/figures/{figure}/parts/body", frame.AbsolutePath);
        using var framed = await visitor.GetAsync(frame.PathAndQuery);
        Assert.Contains("frame-ancestors *", Policy(framed), StringComparison.Ordinal);
        Assert.DoesNotContain("set-cookie", framed.Headers.ToString(), StringComparison.OrdinalIgnoreCase);
        var shown = await framed.Content.ReadAsStringAsync();
        Assert.DoesNotContain("<form", shown, StringComparison.Ordinal);
        Assert.Contains("picture/640.webp", shown, StringComparison.Ordinal);
        Assert.Contains($"<link rel=\"canonical\" href=\"{visitor.BaseAddress}figures/{figure}/parts/body\">", shown, StringComparison.Ordinal);
    }

    // W3C Content Security Policy Level 3, 6.4.2: who may frame a page.
    [Fact]
    public async Task Every_other_page_refuses_frames_of_others_also_the_one_for_what_is_missing()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("unframed", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        foreach (var path in new[] { "/", $"/figures/{figure}", $"/figures/{figure}/parts/body", "/sign-in", "/embed/figures/nobody", $"/embed/figures/{figure}/parts/nothing" })
        {
            using var page = await visitor.GetAsync(path);
            Assert.EndsWith("frame-ancestors 'self'", Policy(page), StringComparison.Ordinal);
        }
    }

    [Theory, InlineData(300, 200, 160), InlineData(1280, 1000, 640), InlineData(50, 50, 0)]
    public async Task Nothing_is_larger_than_asked_for(int width, int height, int picture)
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("bounded", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        var answer = await visitor.GetJsonAsync($"/oembed?url={visitor.BaseAddress}figures/{figure}/parts/body&maxwidth={width}&maxheight={height}");
        Assert.Equal((Math.Min(640, width), Math.Min(600, height)), ((int)answer["width"]!, (int)answer["height"]!));
        Assert.Equal(picture, (int?)answer["thumbnail_width"] ?? 0);
    }

    [Fact]
    public async Task A_figure_without_a_picture_has_a_frame_and_no_thumbnail()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("unplaced", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        var answer = await visitor.GetJsonAsync($"/oembed?url={visitor.BaseAddress}figures/{figure}/");
        Assert.Equal("rich", (string?)answer["type"]);
        Assert.Null(answer["thumbnail_url"]);
        Assert.Contains("There is no picture of this figure yet", await visitor.GetStringAsync($"/embed/figures/{figure}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_ours_not_published_or_not_json_is_refused()
    {
        using var designer = await Catalogue.DesignerAsync();
        var draft = await designer.NewFigureAsync("secret");
        using var visitor = Catalogue.CreateClient();
        foreach (var url in new[] { "", "figures/x", "https://elsewhere.example/figures/x", $"{visitor.BaseAddress}matrix", $"{visitor.BaseAddress}figures/{draft}", $"{visitor.BaseAddress}figures/{draft}/parts/body" })
        {
            using var missing = await visitor.GetAsync("/oembed?url=" + Uri.EscapeDataString(url));
            await missing.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        }

        using var xml = await visitor.GetAsync($"/oembed?format=xml&url={visitor.BaseAddress}figures/{draft}");
        await xml.ExpectProblemAsync(HttpStatusCode.NotImplemented, "embed-format");
    }

    private static string Policy(HttpResponseMessage page) => page.Headers.GetValues("Content-Security-Policy").Single();

    [GeneratedRegex("<link rel=\"alternate\" type=\"application/json\\+oembed\" href=\"([^\"]+)\"")]
    private static partial Regex Discovery();

    [GeneratedRegex("src=\"([^\"]+)\"")]
    private static partial Regex Source();
}

public sealed class SqliteEmbeddingTests(SqliteCatalogue catalogue) : EmbeddingTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PostgreSqlEmbeddingTests(PostgreSqlCatalogue catalogue) : EmbeddingTests(catalogue), IClassFixture<PostgreSqlCatalogue>;

/// <summary>A catalogue whose host wants no frames.</summary>
public sealed class UnframedCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [.. base.Settings(), ("Catalogue:FramedBy", "'none'")];
}

public sealed class UnframedTests(UnframedCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<UnframedCatalogue>
{
    [Fact]
    public async Task Where_the_host_wants_no_frames_a_picture_is_given()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("pictured", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        var answer = await visitor.GetJsonAsync($"/oembed?url={visitor.BaseAddress}figures/{figure}/parts/body");
        Assert.Equal(("photo", 640, 640), ((string?)answer["type"], (int)answer["width"]!, (int)answer["height"]!));
        Assert.Null(answer["html"]);
        using var frame = await visitor.GetAsync($"/embed/figures/{figure}/parts/body");
        Assert.EndsWith("frame-ancestors 'none'", frame.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
    }
}
