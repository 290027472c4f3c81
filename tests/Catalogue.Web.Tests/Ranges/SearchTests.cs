using System.Net;
using System.Text.Json.Nodes;

namespace Catalogue.Web.Tests.Ranges;

/// <summary>The range searched by words and narrowed down, as page and as JSON.</summary>
public abstract class SearchTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    // A figure's address: what a title begins with, and letters of its own.
    private static string Letters() => string.Concat(Guid.NewGuid().ToByteArray().Select(b => (char)('a' + (b % 26))));

    [Fact]
    public async Task A_word_is_found_without_accents_by_its_beginning_and_with_a_few_wrong_letters()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var own = Letters();
        var figure = await PublishAsync(designer, own, "The Périwinkle " + own, "Sells whelks on the promenade.");
        foreach (var q in new[] { "periwinkle", "PÉRIWINKLE", "peri", "winkle", "whelks promenade", "periwinkle " + own[..6] })
        {
            var found = await visitor.GetJsonAsync($"/api/figures?q={Uri.EscapeDataString(q)}");
            Assert.Contains(figure, Slugs(found));
            Assert.Null(found["taken"]);
        }

        var wrong = await visitor.GetJsonAsync("/api/figures?q=perwinkel%20" + own);
        Assert.Equal([figure], Slugs(wrong));
        var taken = Assert.Single(wrong["taken"]!.AsArray())!;
        Assert.Equal(("perwinkel", "periwinkle"), ((string?)taken["word"], (string?)Assert.Single(taken["for"]!.AsArray())));

        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync("/?q=perwinkel%20" + own);
        Assert.Contains("Taken instead: for “perwinkel” “periwinkle”.", browser.Text, StringComparison.Ordinal);
        Assert.Contains("One figure", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_answers_the_words_better_comes_first_and_wrong_letters_only_where_nothing_has_them_right()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var own = Letters();
        var aunt = await PublishAsync(designer, own, $"Aunt {own}", "Minds the upturned boatshed.");
        var beginning = await PublishAsync(designer, own, $"Boatshedder {own}", "");
        var clerk = await PublishAsync(designer, own, $"Clerk {own}", "Sleeps in a boatshed.");
        var inTitle = await PublishAsync(designer, own, $"Zoe’s boatshed {own}", "");
        var misspelt = await PublishAsync(designer, own, $"Boathsed {own}", "");
        Assert.Equal([inTitle, aunt, clerk, beginning], Slugs(await visitor.GetJsonAsync($"/api/figures?q=boatshed%20{own}")));
        Assert.Equal([aunt, beginning, clerk, inTitle], Slugs(await visitor.GetJsonAsync($"/api/figures?q=boatshed%20{own}&sort=title")));

        // As nobody wrote it: both spellings are as near.
        Assert.Contains(misspelt, Slugs(await visitor.GetJsonAsync($"/api/figures?q=boatsed%20{own}")));
    }

    [Fact]
    public async Task The_kind_of_hardware_is_a_word_too_and_another_size_is_another_thing()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var own = Letters();
        var figure = await PublishAsync(designer, own, own, "", ("magnet", "Neodym disc", "5 × 2.5 mm", []));
        Assert.Equal([figure], Slugs(await visitor.GetJsonAsync($"/api/figures?q=magnet%20{own}")));
        Assert.Equal([figure], Slugs(await visitor.GetJsonAsync($"/api/figures?q=2.5%20{own}")));
        Assert.Empty(Slugs(await visitor.GetJsonAsync($"/api/figures?q=2.6%20{own}")));
    }

    [Fact]
    public async Task Filters_of_one_kind_widen_and_of_different_kinds_narrow_and_every_count_tells_what_choosing_brings()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var own = Letters();
        var rods = await PublishAsync(designer, own, $"A {own}", "", 100, "CC-BY-4.0", ("rod", "pin", "1.5 mm", []));
        var glued = await PublishAsync(designer, own, $"B {own}", "", 130, "CC0-1.0", ("adhesive", "glue", "", ["VPP-rigid"]));
        var bare = await PublishAsync(designer, own, $"C {own}", "", 130, "CC0-1.0");
        var path = $"/api/figures?q={own}";

        Assert.Equal([rods], Slugs(await visitor.GetJsonAsync(path + "&height=90-120")));
        Assert.Equal([rods, glued, bare], Slugs(await visitor.GetJsonAsync(path + "&height=90-120&height=120-150")));
        Assert.Equal([glued, bare], Slugs(await visitor.GetJsonAsync(path + "&height=130-")));
        Assert.Equal([rods, bare], Slugs(await visitor.GetJsonAsync(path + "&needs=none,rod")));
        Assert.Equal([bare], Slugs(await visitor.GetJsonAsync(path + "&needs=none&licence=CC0-1.0")));

        // Glue is for resin alone: on filament that figure takes nothing.
        Assert.Equal([glued, bare], Slugs(await visitor.GetJsonAsync(path + "&needs=none&process=MEX-rigid")));

        var facets = (await visitor.GetJsonAsync(path + "&height=120-150&licence=CC0-1.0"))["facets"]!;
        Assert.Equal([("120-150", 2)], Counts(facets["height"]!));
        Assert.Equal([("none", 1), ("adhesive", 1)], Counts(facets["needs"]!));
        Assert.Equal([("CC0-1.0", 2)], Counts(facets["licence"]!));
        Assert.Contains(("MEX-rigid", 2), Counts(facets["processes"]!));
        Assert.Contains(("VPP-flexible", 0), Counts(facets["processes"]!));
        Assert.Equal([("CC0-1.0", 2), ("CC-BY-4.0", 1)], Counts((await visitor.GetJsonAsync(path + "&licence=CC0-1.0"))["facets"]!["licence"]!));

        // Each count is what one finds who follows it.
        foreach (var (kind, counts) in (await visitor.GetJsonAsync(path + "&process=VPP-rigid&volume=64x114x152"))["facets"]!.AsObject().Where(f => f.Key != "processes"))
            foreach (var (value, count) in Counts(counts!))
                Assert.Equal(count, (int)(await visitor.GetJsonAsync($"{path}&process=VPP-rigid&volume=64x114x152&{kind}={Uri.EscapeDataString(value)}"))["total"]!);
    }

    // By hand, rates as built in, the cubes as their files lie. Resin: (10 + 5) mm ÷ 0.05 mm = 300 layers, 6 × 35 s + 294 × 8 s = 2 562 s = 0.71 h; 100 mm high 2 100 layers, 16 962 s = 4.71 h.
    // Filament: skin 600 mm² × 1.2 mm = 720 mm³, 20 % of the other 280; 776 mm³ ÷ 4.5 mm³/s × 1.3 + 50 layers × 1 s = 274 s = 0.08 h.
    [Fact]
    public async Task Figures_are_narrowed_and_ordered_by_how_long_the_printer_is_busy()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var own = Letters();
        var tall = await PublishAsync(designer, own, $"A {own}", "", 120, "CC0-1.0", Api.BoxStl(10, 10, 100));
        var low = await PublishAsync(designer, own, $"B {own}", "");
        var path = $"/api/figures?q={own}";

        var resin = await visitor.GetJsonAsync(path + "&process=VPP-rigid&sort=time");
        Assert.Equal([low, tall], Slugs(resin));
        Assert.Equal([0.71, 4.71], resin["items"]!.AsArray().Select(i => (double)i!["printHours"]!));
        Assert.Equal([("-2", 1), ("4-8", 1)], Counts(resin["facets"]!["time"]!));
        Assert.Equal([tall], Slugs(await visitor.GetJsonAsync(path + "&process=VPP-rigid&time=4-8")));
        Assert.Equal([tall, low], Slugs(await visitor.GetJsonAsync(path + "&process=VPP-rigid&time=4-8,-1&sort=title")));
        Assert.Equal(0.08, (double)(await visitor.GetJsonAsync(path + "&process=MEX-rigid&sort=time"))["items"]![0]!["printHours"]!);

        // Half the cycle on one's own printer: 6 × 35 s + 2 094 × 4 s = 8 586 s = 2.39 h.
        Assert.Equal([tall], Slugs(await visitor.GetJsonAsync(path + "&process=VPP-rigid&cycle=4&time=2-4")));

        // Without a process nobody knows, and the filter asks nothing.
        var anywhere = await visitor.GetJsonAsync(path + "&time=4-8&sort=time");
        Assert.Equal([tall, low], Slugs(anywhere));
        Assert.Empty(Counts(anywhere["facets"]!["time"]!));
        Assert.Null(anywhere["items"]![0]!["printHours"]);

        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/?q={own}&process=VPP-rigid&time=4-8");
        Assert.Contains("value=\"4-8\" checked", browser.Html, StringComparison.Ordinal);
        Assert.Contains("About 4\u00A0h 40\u00A0min of printing as the files lie, if all goes on one plate.", browser.Text, StringComparison.Ordinal);
        Assert.Contains("printing 4\u00A0h to under 8\u00A0h", browser.Text, StringComparison.Ordinal);
        Assert.Contains("licence, tags (1)", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync($"/?q={own}&time=4-8");
        Assert.DoesNotContain("tags (1)", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tags_are_kept_in_small_letters_found_as_words_and_filtered_by()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var (own, theirs) = (Letters(), Letters()[..12]);
        var both = await PublishAsync(designer, own, $"A {own}", "");
        var one = await PublishAsync(designer, own, $"B {own}", "");
        await TagAsync(designer, both, $"A {own}", $"  {theirs.ToUpperInvariant()}, Night  watch", theirs);
        await TagAsync(designer, one, $"B {own}", theirs);
        var path = $"/api/figures?q={own}";

        var found = await visitor.GetJsonAsync(path);
        Assert.Equal([theirs, "night watch"], found["items"]![0]!["tags"]!.AsArray().Select(t => (string)t!));
        Assert.Equal([(theirs, 2), ("night watch", 1)], Counts(found["facets"]!["tag"]!));
        Assert.Equal([both], Slugs(await visitor.GetJsonAsync(path + "&tag=Night%20watch")));
        Assert.Equal([both, one], Slugs(await visitor.GetJsonAsync($"/api/figures?tag={theirs},night%20watch&sort=title&q={own}")));
        Assert.Equal([both, one], Slugs(await visitor.GetJsonAsync($"/api/figures?q={theirs}&sort=title")));

        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{both}");
        Assert.Contains($"href=\"/?tag=night%20watch\"", browser.Html, StringComparison.Ordinal);
        Assert.Contains($"\"keywords\":[\"{theirs}\",\"night watch\"]", browser.Html, StringComparison.Ordinal);
        await browser.GoAsync($"/?tag=night%20watch&q={own}");
        Assert.Contains("One figure", browser.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"night watch\" checked", browser.Html, StringComparison.Ordinal);
    }

    private static Task<JsonNode> TagAsync(HttpClient designer, string figure, string title, params string[] tags) =>
        designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}", new { title, heightMm = 120, licence = "CC-BY-4.0", tags }, HttpStatusCode.OK);

    [Fact]
    public async Task The_page_keeps_every_filter_in_its_form_and_its_links_and_shows_each_as_something_to_take_away()
    {
        using var designer = await Catalogue.DesignerAsync();
        var own = Letters();
        await PublishAsync(designer, own, $"A {own}", "", 100, "CC-BY-4.0", ("rod", "pin", "1.5 mm", []));
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/?q={own}&height=90-120&needs=rod&licence=CC-BY-4.0&verdict=suits&process=MEX-rigid&layer=0.12");
        Assert.Contains("One figure", browser.Text, StringComparison.Ordinal);
        foreach (var chosen in new[] { "value=\"90-120\" checked", "value=\"rod\" checked", "value=\"CC-BY-4.0\" checked", "name=\"verdict\" value=\"suits\"", "name=\"layer\" value=\"0.12\"" })
            Assert.Contains(chosen, browser.Html, StringComparison.Ordinal);
        Assert.Contains($"/?q={own}&amp;height=90-120&amp;needs=rod&amp;licence=CC-BY-4.0&amp;process=MEX-rigid&amp;layer=0.12\"", browser.Html, StringComparison.Ordinal);
        Assert.Contains($"/?q={own}&amp;height=90-120&amp;licence=CC-BY-4.0&amp;verdict=suits&amp;process=MEX-rigid", browser.Html, StringComparison.Ordinal);
        Assert.Contains("Take all away", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_nothing_is_found_the_page_says_what_each_filter_leaves_and_what_there_is_without_it()
    {
        using var designer = await Catalogue.DesignerAsync();
        var own = Letters();
        await PublishAsync(designer, own, $"A {own}", "", 100, "LicenseRef-" + own);
        await PublishAsync(designer, own, $"B {own}", "", 130, "LicenseRef-" + own);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/?q={own}&height=150-200&licence=LicenseRef-{own}");
        Assert.Contains($"“{own}” : 2 taking it away alone does not help", browser.Text, StringComparison.Ordinal);
        Assert.Contains("Take it away: 2 figures", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync($"/?q={own}xyzzyxyz");
        Assert.Contains($"“{own}xyzzyxyz” : none", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("height=tall", "height-invalid")]
    [InlineData("height=120-90", "height-invalid")]
    [InlineData("height=-", "height-invalid")]
    [InlineData("needs=luck", "needs-invalid")]
    [InlineData("time=soon", "time-invalid")]
    [InlineData("time=8-4", "time-invalid")]
    public async Task A_filter_that_cannot_be_understood_is_answered_with_how_to_ask(string query, string code)
    {
        using var visitor = Catalogue.Visitor();
        using var api = await visitor.GetAsync("/api/figures?" + query);
        Assert.NotEmpty(await api.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code));
    }

    [Fact]
    public async Task The_matrix_forgives_the_same_letters()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var own = Letters();
        var figure = await PublishAsync(designer, own, "Chimneysweep " + own, "");
        var rows = (await visitor.GetJsonAsync($"/api/matrix?q=chimneyswep%20{own}"))["rows"]!.AsArray();
        Assert.Equal(figure, (string?)Assert.Single(rows)!["figure"]);
    }

    private static Task<string> PublishAsync(HttpClient designer, string own, string title, string summary, params (string Kind, string Name, string Size, string[] On)[] hardware) =>
        PublishAsync(designer, own, title, summary, 120, "CC-BY-4.0", hardware);

    private static Task<string> PublishAsync(
        HttpClient designer, string own, string title, string summary, double height, string licence, params (string Kind, string Name, string Size, string[] On)[] hardware) =>
        PublishAsync(designer, own, title, summary, height, licence, Api.BoxStl(10, 10, 10), hardware);

    private static async Task<string> PublishAsync(
        HttpClient designer, string own, string title, string summary, double height, string licence, byte[] mesh, params (string Kind, string Name, string Size, string[] On)[] hardware)
    {
        var figure = await designer.NewFigureAsync(own);
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}", new { title, summary, heightMm = height, licence }, HttpStatusCode.OK);
        foreach (var (kind, name, size, on) in hardware)
            await designer.PostAsync($"/api/figures/{figure}/hardware", new { kind, name, size, quantity = 1, processes = on }, HttpStatusCode.Created);
        await designer.InspectedAsync(await designer.UploadAsync(figure, mesh));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        return figure;
    }

    private static List<string> Slugs(JsonNode found) => [.. found["items"]!.AsArray().Select(i => (string)i!["slug"]!)];

    private static List<(string Value, int Figures)> Counts(JsonNode facet) => [.. facet.AsArray().Select(c => ((string)c!["value"]!, (int)c["figures"]!))];
}

public sealed class SearchOnSqliteTests(SqliteCatalogue catalogue) : SearchTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class SearchOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : SearchTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
