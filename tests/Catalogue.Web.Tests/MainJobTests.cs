using System.Net;

namespace Catalogue.Web.Tests;

/// <summary>The whole main job over HTTP: a designer publishes, a visitor asks, downloads, prints, and tells how it went.</summary>
public abstract class MainJobTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_figure_goes_from_mesh_files_to_the_right_printer_and_back_as_a_report()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.NewFigureAsync("ferryman");
        await designer.PostAsync($"/api/figures/{figure}/parts", new { slug = "oar", name = "Oar" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{figure}/parts/oar/variants", new { slug = "solid", name = "Solid", processes = new[] { "VPP-rigid" } }, HttpStatusCode.Created);
        var oar = Api.BoxStl(6, 6, 180);
        using (var form = Api.Form(oar, "oar.stl", ("unit", "mm"), ("note", "As long as the river is deep.")))
        using (var uploaded = await designer.PostAsync(Api.Revisions(figure, "oar"), form))
            await designer.InspectedAsync(await uploaded.ExpectAsync(HttpStatusCode.Accepted));
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(30, 40, 60)));
        Assert.Null(await visitor.FindAsync(figure, ""));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);

        // The space diagonal of 64 × 114 × 152 is 200.5 mm: a thin oar of 180 goes in when turned, and into 60 × 60 × 60 in no way (103.9).
        var fits = await visitor.FindAsync(figure, "process=VPP-rigid&volume=64x114x152");
        Assert.Equal("suits", (string?)fits!["verdict"]);
        var tooSmall = await visitor.FindAsync(figure, "process=VPP-rigid&volume=60x60x60");
        Assert.Equal("unsuited", (string?)tooSmall!["verdict"]);
        var reason = Assert.Single(tooSmall["reasons"]!.AsArray())!;
        Assert.Equal(("oar", "fit.too-large", "stop"), ((string?)reason["part"], (string?)reason["code"], (string?)reason["severity"]));
        Assert.Null(await visitor.FindAsync(figure, "process=VPP-rigid&volume=60x60x60&verdict=suits,care"));

        var part = await visitor.GetJsonAsync($"/api/figures/{figure}/parts/oar?process=VPP-rigid&volume=64x114x152");
        Assert.Equal("solid", (string?)part["take"]);
        var file = (string)part["variants"]![0]!["revision"]!["file"]!;
        Assert.Equal(oar, await visitor.GetByteArrayAsync(file));

        using var browser = new Browser(Catalogue.CreateClient());
        var page = $"/figures/{figure}/parts/oar/report";
        await browser.GoAsync(page + "?process=VPP-rigid&volume=64x114x152");
        await browser.SubmitAsync("report?process=VPP-rigid&volume=64x114x152",
            ("Outcome", "failed"), ("Symptom", "snapped"), ("Stage", "use"), ("Process", "VPP-rigid"), ("File", "solid/1"), ("Note", "Snapped on the first evening."));
        Assert.Contains("Your report is kept", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync($"/figures/{figure}/parts/oar");
        Assert.Contains("1 of 1 failed: snapped in use", browser.Text, StringComparison.Ordinal);
        Assert.Contains("Snapped on the first evening.", browser.Text, StringComparison.Ordinal);
        var reports = await visitor.GetJsonAsync($"/api/figures/{figure}/reports");
        Assert.Equal((1, "oar", "snapped"), ((int)reports["total"]!, (string?)reports["items"]![0]!["part"], (string?)reports["items"]![0]!["symptom"]));
    }
}

public sealed class MainJobOnSqliteTests(SqliteCatalogue catalogue) : MainJobTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class MainJobOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : MainJobTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
