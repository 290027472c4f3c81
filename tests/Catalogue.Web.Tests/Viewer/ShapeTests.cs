using System.Net;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Viewer;

/// <summary>Levels of detail for the viewer: made once, kept, immutable where the address says so.</summary>
public abstract class ShapeTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_published_part_can_be_looked_at_as_gltf_that_never_changes()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishAsync("ring-bearer", Solids.Torus(20, 5, 160, 80));
        var (shape, tag) = await visitor.MadeAsync($"{Look.Of(figure)}/shape");
        Assert.Equal(25_600, (int?)shape["triangles"]);
        Assert.Equal([-25, -25, -5], shape["min"]!.AsArray().Select(n => Math.Round((double)n!)));
        var levels = shape["levels"]!.AsArray();
        Assert.Equal(2, levels.Count);
        Assert.InRange((int)levels[0]!["triangles"]!, 11_000, 12_000);
        Assert.InRange((double)levels[0]!["deviationMm"]!, 0.0001, 0.05);
        Assert.Equal((25_600, 0.0), ((int)levels[1]!["triangles"]!, (double)levels[1]!["deviationMm"]!));

        foreach (var level in levels)
        {
            using var model = await visitor.GetAsync((string)level!["address"]!);
            Assert.Equal((HttpStatusCode.OK, "model/gltf-binary"), (model.StatusCode, model.Content.Headers.ContentType?.MediaType));
            Assert.Equal("public, max-age=31536000, immutable", model.Headers.CacheControl?.ToString());
            var bytes = await model.Content.ReadAsByteArrayAsync();
            Assert.Equal("glTF", System.Text.Encoding.ASCII.GetString(bytes, 0, 4));
            Assert.Equal((long)level["bytes"]!, bytes.Length);
        }

        using var request = new HttpRequestMessage(HttpMethod.Get, $"{Look.Of(figure)}/shape");
        request.Headers.TryAddWithoutValidation("If-None-Match", tag);
        using var again = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
    }

    [Fact]
    public async Task A_draft_is_for_designers_only_by_token_and_on_their_pages()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.NewFigureAsync("shy-one");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 20, 30)));
        using var refused = await visitor.GetAsync($"{Look.Of(figure)}/shape");
        await refused.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        var (shape, _) = await designer.MadeAsync($"{Look.Of(figure)}/shape");
        using var model = await designer.GetAsync((string)shape["levels"]![0]!["address"]!);
        Assert.Equal("private, max-age=31536000, immutable".Split(", ").Order(), model.Headers.CacheControl!.ToString().Split(", ").Order());
        using var closed = await visitor.GetAsync((string)shape["levels"]![0]!["address"]!);
        await closed.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var browser = await Catalogue.SignedInAsync();
        await browser.GoAsync($"{Look.Of(figure)}/shape");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
    }

    [Fact]
    public async Task What_is_no_mesh_or_not_there_cannot_be_looked_at()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishAsync("plain-one", Solids.Box(10, 10, 10));
        foreach (var address in new[] { $"/api/figures/{figure}/parts/body/variants/solid/revisions/2/shape", $"{Look.Of(figure)}/shape/7.glb", $"{Look.Of("nobody")}/shape" })
        {
            using var answer = await visitor.GetAsync(address);
            await answer.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        }

        var draft = await designer.NewFigureAsync("broken-one");
        await designer.InspectedAsync(await designer.UploadAsync(draft, new byte[200]));
        using var unreadable = await designer.GetAsync($"{Look.Of(draft)}/shape");
        await unreadable.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
    }

    [Fact]
    public async Task The_shape_of_a_large_mesh_is_made_before_anybody_asks_for_it()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("heavy-one");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.Stl(Solids.Torus(20, 5, 320, 160)), ("unit", "mm")));
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(1));
        while (true)
        {
            using var coarsest = await designer.GetAsync($"{Look.Of(figure)}/shape/0.glb", patience.Token); // Makes nothing: the list of levels would.
            if (coarsest.StatusCode == HttpStatusCode.OK) break;
            Assert.Equal(HttpStatusCode.NotFound, coarsest.StatusCode);
            await Task.Delay(50, patience.Token);
        }
    }

    [Fact]
    public async Task A_finding_has_a_link_and_a_picture_that_need_no_script()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishAsync("thin-one", Solids.Together(Solids.Box(20, 20, 10), Solids.Box(20, 0.3, 20).Transformed(Rotation.Identity, new(0, 10, 9.5))));
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}/parts/body");
        var link = WebUtility.HtmlDecode(System.Text.RegularExpressions.Regex.Match(browser.Html, "class=\"where\"[^>]*href=\"([^\"]+)\"").Groups[1].Value);
        Assert.StartsWith($"/figures/{figure}/parts/body?finding=solid.", link, StringComparison.Ordinal);
        await browser.GoAsync(link.Split('#')[0]);
        Assert.Contains("Where it is", browser.Text, StringComparison.Ordinal);
        var source = WebUtility.HtmlDecode(System.Text.RegularExpressions.Regex.Match(browser.Html, "class=\"part-picture\" src=\"([^\"]+)\"").Groups[1].Value);
        Assert.Contains("/finding/solid.", source, StringComparison.Ordinal);
        using var visitor = Catalogue.Visitor();
        using var picture = await visitor.GetAsync(source);
        Assert.Equal((HttpStatusCode.OK, "image/webp"), (picture.StatusCode, picture.Content.Headers.ContentType?.MediaType));
        Assert.Contains("immutable", picture.Headers.CacheControl!.ToString(), StringComparison.Ordinal);

        await browser.GoAsync($"/figures/{figure}/parts/body?finding=solid.VPP-rigid.gone.1");
        Assert.Contains("is not there any more", browser.Text, StringComparison.Ordinal);
        using var none = await visitor.GetAsync($"/figures/{figure}/parts/body/solid/1/finding/solid.VPP-rigid.gone.1/640.webp");
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }
}

public sealed class ShapesOnSqliteTests(SqliteCatalogue catalogue) : ShapeTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class ShapesOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : ShapeTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
