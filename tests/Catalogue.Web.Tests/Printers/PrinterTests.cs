using System.Net;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Printers;

/// <summary>“My printer”: kept in the browser and in links, without JavaScript and without an account.</summary>
public sealed class PrinterTests(SqliteCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<SqliteCatalogue>
{
    private const string Sent = "/printer?save=true&process=VPP-rigid&plate=box&width=64&depth=114,3&height=152.4&margin=2&unit=inch&return=%2Fmatrix";

    [Fact]
    public async Task A_printer_is_kept_goes_along_in_every_link_and_is_forgotten_again()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(Sent);
        Assert.Equal("/matrix?process=VPP-rigid&volume=64x114.3x152.4&margin=2&unit=inch", browser.Path);
        Assert.Contains("href=\"/cautions?process=VPP-rigid&amp;volume=64x114.3x152.4&amp;margin=2&amp;unit=inch\"", browser.Html, StringComparison.Ordinal);

        await browser.GoAsync("/");
        Assert.Contains("Shown for your printer: Resin, rigid, 64 × 114.3 × 152.4 mm (2.52 × 4.50 × 6.00 in)", browser.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        await browser.GoAsync("/printer");
        await browser.SubmitAsync("/printer?handler=Forget");
        await browser.GoAsync("/");
        Assert.Contains("No printer chosen yet", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_else_I_print_with_is_kept_beside_my_printer()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(Sent + "&also=VPP-flexible&also=VPP-rigid");
        Assert.Equal("/matrix?process=VPP-rigid&volume=64x114.3x152.4&margin=2&also=VPP-flexible&unit=inch", browser.Path);
        await browser.GoAsync("/");
        Assert.Contains("Shown for your printer: Resin, rigid", browser.Text, StringComparison.Ordinal);
        Assert.Contains("; and Resin, flexible", browser.Text, StringComparison.Ordinal);
        Assert.Contains("also=VPP-flexible", browser.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_machine_has_a_size_of_its_own_and_a_wrong_one_is_told()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(Sent + "&also=MEX-rigid&size-MEX-rigid=220x220x250");
        Assert.Equal("/matrix?process=VPP-rigid&volume=64x114.3x152.4&margin=2&also=MEX-rigid@220x220x250&unit=inch", browser.Path);
        await browser.GoAsync("/printer");
        Assert.Contains("value=\"220x220x250\"", browser.Html, StringComparison.Ordinal);
        await browser.GoAsync(Sent + "&also=MEX-rigid&size-MEX-rigid=big");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains("“big” is not a size.", browser.Text, StringComparison.Ordinal);
    }

    // A plate 0.3 mm thick that starts 7 mm up: within filament's thickest layer of 0.4 mm (review PMC9247992), beyond one of 0.1.
    [Fact]
    public async Task My_layer_and_line_go_along_and_are_used_where_parts_are_looked_at_closely()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(Sent + "&layer=0.05&line=0,1");
        Assert.Equal("/matrix?process=VPP-rigid&volume=64x114.3x152.4&margin=2&layer=0.05&line=0.1&unit=inch", browser.Path);
        await browser.GoAsync(Sent + "&line=9");
        Assert.Contains("The width of a line is not a number from 0.005 to 3 mm", browser.Text, StringComparison.Ordinal);

        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("table");
        var mesh = Solids.Together(Solids.Box(10, 10, 10), Solids.Box(5, 5, 0.3).Transformed(Rotation.Identity, new(20, 0, 7)));
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.Stl(mesh)));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        using var visitor = Catalogue.Visitor();
        Assert.DoesNotContain("overhang.island", await CodesAsync(""));
        Assert.DoesNotContain("overhang.island", await CodesAsync("&layer=0.3"));
        Assert.Contains("overhang.island", await CodesAsync("&layer=0.1"));

        async Task<List<string?>> CodesAsync(string more) =>
            [.. (await visitor.GetJsonAsync($"/api/figures/{figure}/parts/body?process=MEX-rigid{more}"))["findings"]!.AsArray().Select(f => (string?)f!["code"])];
    }

    [Fact]
    public async Task A_shared_link_shows_its_own_printer_and_leaves_mine_as_it_is()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(Sent);
        await browser.GoAsync("/?process=MEX-rigid&round=180x280");
        Assert.Contains("Shown for the printer of this link: Filament, rigid, Ø 180 × 280 mm", browser.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.Contains("Back to mine", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync("/");
        Assert.Contains("Shown for your printer: Resin, rigid", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("plate=box&width=&depth=114&height=152", "The width is missing.")]
    [InlineData("plate=box&width=wide&depth=114&height=152", "The width is not a number from 1 to 2000 mm: “wide”.")]
    [InlineData("plate=round&diameter=200&round-height=9999", "The height is not a number from 1 to 2000 mm: “9999”.")]
    [InlineData("plate=box&width=64&depth=114&height=152&margin=32", "A margin this wide on every side leaves no room.")]
    [InlineData("plate=box&process=NO-such", "This catalogue knows no such process.")]
    [InlineData("plate=box", "Choose a process, or give a size, or both")]
    public async Task A_wrong_field_is_told_by_name_and_nothing_is_kept(string fields, string sentence)
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync("/printer?save=true&" + fields);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains(sentence, browser.Text, StringComparison.Ordinal);
        await browser.GoAsync("/");
        Assert.Contains("No printer chosen yet", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("https://elsewhere.example/")]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example/")]
    public async Task Keeping_a_printer_never_leads_to_another_site(string back)
    {
        using var visitor = Catalogue.Stranger();
        using var kept = await visitor.GetAsync("/printer?save=true&process=MEX-rigid&plate=box&return=" + Uri.EscapeDataString(back));
        Assert.Equal((HttpStatusCode.Redirect, "/?process=MEX-rigid"), (kept.StatusCode, kept.Headers.Location!.OriginalString));
    }

    [Fact]
    public async Task Two_numbers_where_three_are_asked_for_are_a_round_plate()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync("/?process=MEX-rigid&volume=180x280");
        Assert.Contains("Ø 180 × 280 mm", browser.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Any_printer_said_on_purpose_is_not_overruled_by_the_one_that_is_kept()
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(Sent);
        await browser.GoAsync("/?process=&volume=");
        Assert.Contains("No printer chosen yet", browser.Text, StringComparison.Ordinal);
        Assert.Contains("href=\"/matrix?process=&amp;unit=inch\"", browser.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_cookie_that_somebody_else_wrote_is_as_good_as_none()
    {
        using var visitor = Catalogue.Stranger();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Add("Cookie", "catalogue.printer=volume%3Dhuge");
        using var response = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Contains("No printer chosen yet", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
