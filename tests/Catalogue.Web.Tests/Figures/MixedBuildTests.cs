using System.Net;
using System.Text.Json.Nodes;

namespace Catalogue.Web.Tests.Figures;

/// <summary>Figures that need more than one process.</summary>
public abstract class MixedBuildTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_limb_for_flexible_resin_and_a_body_for_rigid_are_built_from_two_materials()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await TwoMaterialsAsync(designer);

        // Another resin in the same vat is thought of without being asked.
        var answer = await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid&volume=64x114x152");
        Assert.Equal("unsuited", (string?)answer["verdict"]);
        Assert.Equal(["VPP-rigid: body", "VPP-flexible: limb"], Shares(answer));

        // Filament alone cannot, and no resin belongs to its category.
        Assert.Null((await visitor.GetJsonAsync($"/api/figures/{figure}?process=MEX-rigid"))["mixed"]);

        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}?process=VPP-rigid&volume=64x114x152");
        Assert.Contains("It can be built from 2 processes:", browser.Text, StringComparison.Ordinal);

        // On the shelf only what the visitor has counts.
        await browser.GoAsync("/?process=VPP-rigid&volume=64x114x152&also=VPP-flexible&q=eel-juggler");
        Assert.Contains("It can be built with rigid resin and flexible resin.", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync("/?process=VPP-rigid&volume=64x114x152&q=eel-juggler");
        Assert.DoesNotContain("It can be built with", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_second_printer_may_have_another_volume_and_has_to_be_large_enough()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await TwoMaterialsAsync(designer);

        // The limb is 30 mm long.
        var answer = await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid&volume=64x114x152&also=VPP-flexible@31x31x31");
        Assert.Equal(["VPP-rigid: body", "VPP-flexible: limb"], Shares(answer));
        Assert.Null((await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid&volume=64x114x152&also=VPP-flexible@9x9x9"))["mixed"]);
        Assert.Null((await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid&volume=64x114x152&also=MEX-rigid"))["mixed"]);
    }

    [Theory]
    [InlineData("also=VPP-flexible@wide", "volume-invalid")]
    [InlineData("also=resin", "process-invalid")]
    [InlineData("also=AAA-a,AAA-b,AAA-c,AAA-d,AAA-e,AAA-f", "printers-invalid")]
    public async Task A_second_printer_that_cannot_be_understood_is_refused(string words, string code)
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("plinth", 10, 10, 10);
        using var answer = await visitor.GetAsync($"/api/figures/{figure}?process=VPP-rigid&{words}");
        await answer.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code);
    }

    private static IEnumerable<string> Shares(JsonNode answer) => answer["mixed"]!.AsArray()
        .Select(s => $"{(string?)s!["process"]}: {string.Join(' ', s["parts"]!.AsArray().Select(p => (string?)p!["part"]))}");

    private static async Task<string> TwoMaterialsAsync(HttpClient designer)
    {
        var figure = await designer.NewFigureAsync("eel-juggler", "VPP-rigid");
        await designer.PostAsync($"/api/figures/{figure}/parts", new { slug = "limb", name = "Limb" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{figure}/parts/limb/variants", new { slug = "thin", name = "Thin", processes = new[] { "VPP-flexible" } }, HttpStatusCode.Created);
        using (var form = Api.Form(Api.BoxStl(10, 10, 30)))
        using (var limb = await designer.PostAsync(Api.Revisions(figure, "limb", "thin"), form))
            await designer.InspectedAsync(await limb.ExpectAsync(HttpStatusCode.Accepted));
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(40, 30, 60)));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        return figure;
    }
}

public sealed class MixedBuildOnSqliteTests(SqliteCatalogue catalogue) : MixedBuildTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class MixedBuildOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : MixedBuildTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
