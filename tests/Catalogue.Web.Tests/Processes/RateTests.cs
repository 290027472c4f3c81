using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Data;
using Catalogue.Data.Storage;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Processes;

/// <summary>What material, price and time are estimated by: shown to all, changed by the host, followed by every estimate.</summary>
public abstract class RateTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    // By hand: 20 × 20 × 40 mm of resin: 18.4 cm³ with the waste; 900 layers, 6 × 35 s + 894 × 8 s.
    [Fact]
    public async Task A_figure_tells_what_it_takes_on_a_printer()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("bollard", 20, 20, 40);
        Assert.Null((await visitor.GetJsonAsync($"/api/figures/{figure}"))["cost"]);
        var cost = (await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-tough"))["cost"];
        Assert.Null(cost!["price"]); // No file is made for it, so nothing adds up.
        Assert.Equal(1, (int)cost["unknown"]!);

        cost = (await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid"))["cost"]!;
        Assert.Equal(18_400, (double)cost["materialMm3"]!["value"]!, 0.01);
        Assert.Equal(7_362, (double)cost["seconds"]!["value"]!, 0.01);
        Assert.True((double)cost["seconds"]!["low"]! < 7_362 && (double)cost["seconds"]!["high"]! > 7_362);
        Assert.Contains("900 layers", cost["parts"]![0]!["arithmetic"]!.ToJsonString(), StringComparison.Ordinal);

        // The visitor's own printer: 450 layers; 6 × 35 s + 444 × 4 s.
        cost = (await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid&layer=0.1&cycle=4"))["cost"]!;
        Assert.Equal(1_986, (double)cost["seconds"]!["value"]!, 0.01);

        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}?process=VPP-rigid");
        Assert.Contains("What it takes", browser.Text, StringComparison.Ordinal);
        Assert.Contains("(40 mm high + 5 mm of supports) ÷ 0.05 mm = 900 layers", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync($"/figures/{figure}");
        Assert.DoesNotContain("What it takes", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("layer=9", "layer-invalid")]
    [InlineData("layer=0", "layer-invalid")]
    [InlineData("cycle=0", "cycle-invalid")]
    [InlineData("flow=1000", "flow-invalid")]
    public async Task A_printer_that_works_like_no_printer_is_refused(string words, string code)
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("buoy", 10, 10, 10);
        using var answer = await visitor.GetAsync($"/api/figures/{figure}?process=VPP-rigid&{words}");
        await answer.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code);
    }

    [Fact]
    public async Task A_new_price_is_followed_at_once_and_nothing_is_judged_again()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("capstan", 20, 20, 40, "PBF-rigid");

        // 16 cm³ × 2 × 0.92 g/cm³ × 60 per kg = 1.7664.
        Assert.Equal(1.7664, await PriceAsync(visitor, figure), 0.0001);

        // The shelf says the same where it suits: a box needs no supports.
        async Task<JsonNode> OnTheShelfAsync(string process) => (await visitor.GetJsonAsync($"/api/figures?size=200&process={process}"))["items"]!.AsArray().Single(i => (string?)i!["slug"] == figure)!;
        Assert.Equal(1.7664, (double)(await OnTheShelfAsync("PBF-rigid"))["materialPrice"]!, 0.0001);
        Assert.Null((await OnTheShelfAsync("VPP-rigid"))["materialPrice"]);
        var currency = (string)(await visitor.GetJsonAsync("/api/processes"))["currency"]!; // Another test may have changed it.
        using (var shelf = new Browser(Catalogue.Visitor()))
            Assert.Contains($"About 1.77\u00A0{currency} of material, supports apart.", (await shelf.GoAsync("/?process=PBF-rigid&volume=100x100x100&sort=newest")).Text, StringComparison.Ordinal);

        var judged = await JudgementRevisionAsync();

        using var host = await Catalogue.SignedInAsync(host: true);
        await host.GoAsync("/edit-rate/PBF-rigid/price");
        await host.SubmitAsync("/edit-rate/PBF-rigid/price", ("Value", "-1"), ("SpreadPercent", "5"), ("Origin", "our workshop"));
        Assert.Contains("The number is 0 or more", host.Text, StringComparison.Ordinal);
        await host.SubmitAsync("/edit-rate/PBF-rigid/price", ("Value", "90"), ("SpreadPercent", "5"), ("Origin", "our workshop"));
        Assert.Equal("/processes", host.Path);
        Assert.Contains("our workshop", host.Text, StringComparison.Ordinal);
        Assert.Equal(2.6496, await PriceAsync(visitor, figure), 0.0001);
        Assert.Equal(judged, await JudgementRevisionAsync());
    }

    [Fact]
    public async Task Over_the_api_only_a_hosts_token_changes_a_rate_or_the_currency()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var refused = await designer.PutAsync("/api/processes/MEX-rigid/rates/price", Json("""{"value":25,"spreadPercent":10,"origin":"ours"}"""));
        await refused.ExpectProblemAsync(HttpStatusCode.Forbidden, "not-allowed");

        using var host = Catalogue.Visitor();
        host.DefaultRequestHeaders.Authorization = new("Bearer", await Catalogue.TokenAsync("host", host: true));
        var changed = await host.SendAsync(HttpMethod.Put, "/api/processes/MEX-rigid/rates/price", new { value = 25, spreadPercent = 10, origin = "ours" }, HttpStatusCode.OK);
        Assert.Equal((25, "per kg", 10, "ours"), ((double)changed["value"]!, (string?)changed["unit"], (double)changed["spreadPercent"]!, (string?)changed["origin"]));
        using var unknown = await host.PutAsync("/api/processes/MEX-rigid/rates/colour", Json("""{"value":1,"spreadPercent":1,"origin":"ours"}"""));
        await unknown.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var noSpread = await host.PutAsync("/api/processes/MEX-rigid/rates/price", Json("""{"value":1,"origin":"ours"}"""));
        await noSpread.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "spread-invalid");
        using var noCurrency = await host.PutAsync("/api/currency", Json("""{"currency":"euro"}"""));
        await noCurrency.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "currency-invalid");

        await host.SendAsync(HttpMethod.Put, "/api/currency", new { currency = "nok" }, HttpStatusCode.OK);
        using var visitor = Catalogue.Visitor();
        var processes = await visitor.GetJsonAsync("/api/processes");
        Assert.Equal("NOK", (string?)processes["currency"]);
        Assert.Contains("ours", processes.ToJsonString(), StringComparison.Ordinal);
        using var page = new Browser(Catalogue.CreateClient());
        await page.GoAsync("/processes");
        Assert.Contains("Prices are in NOK", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("edit-rate", page.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_catalogue_from_before_there_were_rates_is_given_them_at_its_next_start()
    {
        var (database, before) = await Catalogue.WithDbAsync(async db => (
            db is PostgreSqlCatalogueDb ? DatabaseChoice.PostgreSql(db.Database.GetConnectionString()!) : new DatabaseChoice(false, db.Database.GetConnectionString()!),
            await db.Processes.SelectMany(p => p.Rates).CountAsync()));
        await Catalogue.WithDbAsync(async db =>
        {
            var process = await db.Processes.Include(p => p.Rates).SingleAsync(p => p.Code == "VPP-tough");
            db.RemoveRange(process.Rates);
            return await db.SaveChangesAsync();
        });
        Assert.True(await Catalogue.WithDbAsync(db => db.Processes.SelectMany(p => p.Rates).CountAsync()) < before);
        await Schema.ApplyAsync(database, CancellationToken.None);
        Assert.Equal(before, await Catalogue.WithDbAsync(db => db.Processes.SelectMany(p => p.Rates).CountAsync()));
    }

    [Fact]
    public async Task My_printer_keeps_how_it_works()
    {
        using var visitor = new Browser(Catalogue.Visitor());
        await visitor.GoAsync("/printer?save=true&process=VPP-rigid&plate=box&width=64&depth=114&height=152&margin=2&layer=0,03&cycle=6&flow=&return=/printer");
        Assert.Contains("value=\"0.03\"", visitor.Html, StringComparison.Ordinal);
        Assert.Contains("Shown for your printer", (await visitor.GoAsync("/")).Text, StringComparison.Ordinal);
        await visitor.GoAsync("/printer?save=true&process=VPP-rigid&plate=box&layer=30");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, visitor.Status);
        Assert.Contains("The layer height is not a number from 0.005 to 2 mm", visitor.Text, StringComparison.Ordinal);
    }

    private static async Task<double> PriceAsync(HttpClient visitor, string figure)
    {
        var answer = await visitor.GetJsonAsync($"/api/figures/{figure}?process=PBF-rigid");
        return (double)answer["cost"]!["price"]!["value"]!;
    }

    private Task<long> JudgementRevisionAsync() => Catalogue.WithDbAsync(db => db.Ranges.Select(r => r.JudgementRevision).SingleAsync());

    private static StringContent Json(string text) => new(text, System.Text.Encoding.UTF8, "application/json");
}

public sealed class RateOnSqliteTests(SqliteCatalogue catalogue) : RateTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class RateOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : RateTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
