using System.Net;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests.Pictures;

/// <summary>Pictures of figures and parts: drawn once, kept, and shown where people look.</summary>
public abstract partial class PictureTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_published_part_has_its_picture_on_its_page_and_keeps_it_for_ever()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("cube-sitter", 10, 10, 10);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}/parts/body");
        var address = WebUtility.HtmlDecode(Source().Match(browser.Html).Groups[1].Value);
        Assert.StartsWith($"/figures/{figure}/parts/body/solid/1/picture/640.webp?v=", address, StringComparison.Ordinal);

        using var picture = await visitor.GetAsync(address);
        Assert.Equal((HttpStatusCode.OK, "image/webp"), (picture.StatusCode, picture.Content.Headers.ContentType?.MediaType));
        Assert.Contains("immutable", picture.Headers.CacheControl?.ToString() ?? "", StringComparison.Ordinal);
        var bytes = await picture.Content.ReadAsByteArrayAsync();

        // RIFF … WEBP: the container of WebP (RFC 9649).
        Assert.Equal("RIFFWEBP", System.Text.Encoding.ASCII.GetString([.. bytes[..4], .. bytes[8..12]]));
        Assert.Equal(bytes, await visitor.GetByteArrayAsync(address));
        using var request = new HttpRequestMessage(HttpMethod.Get, address);
        request.Headers.IfNoneMatch.Add(picture.Headers.ETag!);
        using var again = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
    }

    [Fact]
    public async Task A_figure_is_pictured_as_soon_as_its_designer_says_where_its_parts_sit()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("cube-stander", 10, 10, 10);
        using (var none = await visitor.GetAsync($"/figures/{figure}/picture/320.png")) Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/body/poses",
            new { poses = new[] { new { x = 0, y = 0, z = 0, rotation = new[] { 1, 0, 0, 0, 1, 0, 0, 0, 1 } } } }, HttpStatusCode.OK);

        using var picture = await visitor.GetAsync($"/figures/{figure}/picture/320.png");
        Assert.Equal("image/png", picture.Content.Headers.ContentType?.MediaType);
        var bytes = await picture.Content.ReadAsByteArrayAsync();

        // Width and height in the IHDR chunk (PNG, third edition, 11.2.1).
        Assert.Equal((320, 400), ((bytes[18] << 8) + bytes[19], (bytes[22] << 8) + bytes[23]));
        Assert.Contains($"/figures/{figure}/picture/320.webp", await visitor.GetStringAsync("/?q=cube-stander"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_figure_of_several_pieces_is_pictured_taken_apart_too()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.NewFigureAsync("cube-stacker");
        await designer.PostAsync($"/api/figures/{figure}/parts", new { slug = "hat", name = "Hat" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{figure}/parts/hat/variants", new { slug = "solid", name = "Solid", processes = new[] { "MEX-rigid" } }, HttpStatusCode.Created);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        using (var form = Api.Form(Api.BoxStl(6, 6, 3)))
        using (var hat = await designer.PostAsync(Api.Revisions(figure, "hat"), form)) await designer.InspectedAsync(await hat.ExpectAsync(HttpStatusCode.Accepted));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        foreach (var (part, z) in new[] { ("body", 0), ("hat", 10) })
        {
            if (part == "hat") using (var single = await visitor.GetAsync($"/figures/{figure}/apart/320.png")) Assert.Equal(HttpStatusCode.NotFound, single.StatusCode);
            await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/{part}/poses", new { poses = new[] { new { x = 0, y = 0, z, rotation = new[] { 1, 0, 0, 0, 1, 0, 0, 0, 1 } } } }, HttpStatusCode.OK);
        }

        var together = await visitor.GetByteArrayAsync($"/figures/{figure}/picture/320.png");
        Assert.NotEqual(together, await visitor.GetByteArrayAsync($"/figures/{figure}/apart/320.png"));
    }

    [Fact]
    public async Task A_draft_and_odd_sizes_have_no_picture()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var draft = await designer.NewFigureAsync("cube-hider");
        await designer.InspectedAsync(await designer.UploadAsync(draft, Api.BoxStl(10, 10, 10)));
        var figure = await designer.PublishBoxAsync("cube-walker", 10, 10, 10);
        foreach (var address in new[]
        {
            $"/figures/{draft}/parts/body/solid/1/picture/320.webp", $"/figures/{figure}/parts/body/solid/1/picture/321.webp",
            $"/figures/{figure}/parts/body/solid/1/picture/320.gif", $"/figures/{figure}/parts/body/solid/2/picture/320.webp",
        })
        {
            using var answer = await visitor.GetAsync(address);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
    }

    [GeneratedRegex("class=\"part-picture\" src=\"([^\"]+)\"")]
    private static partial Regex Source();
}

public sealed class PicturesOnSqliteTests(SqliteCatalogue catalogue) : PictureTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PicturesOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : PictureTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
