using System.Net;

namespace Catalogue.Web.Tests.Ranges;

/// <summary>The range, the matrix and the processes, as pages and as JSON.</summary>
public abstract class RangeTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task Words_are_searched_in_titles_and_in_the_names_of_parts()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.NewFigureAsync("stilt-walker");
        await designer.PostAsync($"/api/figures/{figure}/parts", new { slug = "top-hat", name = "Preposterous hat", role = "optional" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{figure}/parts/top-hat/variants", new { slug = "solid", name = "Solid", processes = new[] { "MEX-rigid" } }, HttpStatusCode.Created);
        using (var form = Api.Form(Api.BoxStl(5, 5, 5)))
        using (var hat = await designer.PostAsync(Api.Revisions(figure, "top-hat"), form))
            await designer.InspectedAsync(await hat.ExpectAsync(HttpStatusCode.Accepted));
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);

        Assert.NotNull(await visitor.FindAsync(figure, "q=STILT"));
        Assert.NotNull(await visitor.FindAsync(figure, "q=walker%20preposterous"));
        Assert.Null(await visitor.FindAsync(figure, "q=walker%20umbrella"));
    }

    [Fact]
    public async Task A_figure_made_for_filament_alone_says_so_to_a_resin_printer()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("bell-ringer", 10, 10, 10, "MEX-rigid");
        var item = await visitor.FindAsync(figure, "process=VPP-rigid");
        Assert.Equal(("unsuited", "process.no-variant"), ((string?)item!["verdict"], (string?)item["reasons"]![0]!["code"]));

        // With a volume alone the process that suits best is found.
        item = await visitor.FindAsync(figure, "volume=64x114x152");
        Assert.Equal(("suits", "MEX-rigid"), ((string?)item!["verdict"], (string?)item["process"]));

        // Without a printer there is no verdict to give.
        item = await visitor.FindAsync(figure, "");
        Assert.Null(item!["verdict"]);
    }

    [Fact]
    public async Task A_figure_too_wide_for_a_round_plate_fits_a_square_one_of_the_same_width()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();

        // A flat square of 100 has a diagonal of 141.4: it lies on a plate of 110 × 110, but not on a round one of 110, nor upright below 60 mm.
        var figure = await designer.PublishBoxAsync("tile-layer", 100, 100, 5);
        Assert.Equal("suits", (string?)(await visitor.FindAsync(figure, "process=MEX-rigid&volume=110x110x60"))!["verdict"]);
        Assert.Equal("unsuited", (string?)(await visitor.FindAsync(figure, "process=MEX-rigid&round=110x60"))!["verdict"]);
        Assert.Equal("suits", (string?)(await visitor.FindAsync(figure, "process=MEX-rigid&round=145x60"))!["verdict"]);
    }

    [Fact]
    public async Task A_margin_is_kept_on_every_side()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("crate", 60, 60, 60);
        Assert.Equal("suits", (string?)(await visitor.FindAsync(figure, "process=MEX-rigid&volume=64x64x64&margin=2"))!["verdict"]);
        Assert.Equal("unsuited", (string?)(await visitor.FindAsync(figure, "process=MEX-rigid&volume=64x64x64&margin=2.1"))!["verdict"]);
    }

    [Fact]
    public async Task Pages_of_the_range_add_up_to_the_whole()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var word = "w" + Guid.NewGuid().ToString("N")[..8];
        for (var i = 0; i < 3; i++) await designer.PublishBoxAsync($"{word}-{i}", 10, 10, 10 + i);
        var seen = new List<string>();
        for (var page = 1; page <= 3; page++)
        {
            var found = await visitor.GetJsonAsync($"/api/figures?q={word}&size=1&page={page}");
            Assert.Equal(3, (int)found["total"]!);
            seen.Add((string)Assert.Single(found["items"]!.AsArray())!["slug"]!);
        }

        Assert.Equal(3, seen.Distinct().Count());
        Assert.Empty((await visitor.GetJsonAsync($"/api/figures?q={word}&size=1&page=4"))["items"]!.AsArray());
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/?q={word}&size=2");
        Assert.Contains("3 figures, 1 to 2 shown", browser.Text, StringComparison.Ordinal);
        Assert.Contains("Next page", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("verdict=splendid", "verdict-invalid")]
    [InlineData("sort=size", "sort-invalid")]
    [InlineData("page=0", "page-invalid")]
    [InlineData("volume=huge", "volume-invalid")]
    [InlineData("volume=64x114x-3", "volume-invalid")]
    [InlineData("round=1x2x3", "volume-invalid")]
    [InlineData("process=resin", "process-invalid")]
    [InlineData("process=XYZ-odd", "process-unknown")]
    [InlineData("volume=64x114x152&margin=60", "margin-invalid")]
    public async Task A_question_that_cannot_be_understood_is_answered_with_how_to_ask(string query, string code)
    {
        using var visitor = Catalogue.Visitor();
        using var api = await visitor.GetAsync("/api/figures?" + query);
        var detail = await api.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code);
        Assert.NotEmpty(detail);
    }

    [Fact]
    public async Task The_matrix_is_searched_sorted_and_narrowed_to_what_breaks_the_promise_alike_on_page_in_json_and_csv()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var word = "w" + Guid.NewGuid().ToString("N")[..8];
        var (both, filament) = (await designer.PublishBoxAsync($"{word}-a", 10, 10, 10), await designer.PublishBoxAsync($"{word}-b", 10, 10, 11, "MEX-rigid"));

        // Promised are MEX-rigid and VPP-rigid.
        Assert.Equal([both, filament], Figures(await visitor.GetJsonAsync($"/api/matrix?q={word}")));
        Assert.Equal([filament], Figures(await visitor.GetJsonAsync($"/api/matrix?q={word}&show=gaps")));
        Assert.Equal([filament, both], Figures(await visitor.GetJsonAsync($"/api/matrix?q={word}&sort=VPP-rigid")));

        var csv = await visitor.GetStringAsync($"/api/matrix.csv?q={word}&process=VPP-rigid&sort=VPP-rigid");
        Assert.Equal(["figure,title,VPP-rigid,VPP-rigid why", $"{filament},{word}-b,unsuited,\"Body: No file of this part is made for rigid resin yet, only for other processes.\"", $"{both},{word}-a,suits,Its one part fits."],
            csv.TrimStart('\uFEFF').Split("\r\n", StringSplitOptions.RemoveEmptyEntries));

        // By verdict, on one process or on any.
        Assert.Equal([filament], Figures(await visitor.GetJsonAsync($"/api/matrix?q={word}&verdict=unsuited&on=VPP-rigid")));
        Assert.Equal([both, filament], Figures(await visitor.GetJsonAsync($"/api/matrix?q={word}&verdict=unsuited")));
        using var noVerdict = await visitor.GetAsync("/api/matrix?verdict=splendid");
        await noVerdict.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "filter-invalid");
        using var nowhere = await visitor.GetAsync("/api/matrix?verdict=suits&on=XYZ-odd");
        await nowhere.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "filter-invalid");

        // Coverage counts the whole range, whatever the filters.
        var coverage = (await visitor.GetJsonAsync($"/api/matrix?q={word}"))["coverage"]!;
        Assert.Equal((int)(await visitor.GetJsonAsync("/api/figures"))["total"]!, (int)coverage["total"]!);
        var resin = coverage["processes"]!.AsArray().Single(p => (string?)p!["process"] == "VPP-rigid")!;
        Assert.Equal((int)coverage["total"]!, (int)resin["suits"]! + (int)resin["care"]! + (int)resin["unsuited"]! + (int)resin["unchecked"]!);
        Assert.True((int)coverage["kept"]! <= (int)resin["reached"]!);

        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/matrix?q={word}&show=gaps");
        Assert.Contains("1 of ", browser.Text, StringComparison.Ordinal);
        Assert.DoesNotContain($"/figures/{both}", browser.Html, StringComparison.Ordinal);
        using var odd = await visitor.GetAsync("/api/matrix?sort=colour");
        await odd.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "filter-invalid");

        static IEnumerable<string?> Figures(System.Text.Json.Nodes.JsonNode matrix) => matrix["rows"]!.AsArray().Select(r => (string?)r!["figure"]);
    }

    [Fact]
    public async Task A_title_that_a_spreadsheet_would_take_for_a_formula_is_kept_as_text()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("sums", 10, 10, 10);
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}", new { title = "=1+1, \"two\"", heightMm = 120, licence = "CC-BY-4.0" }, HttpStatusCode.OK);
        Assert.Contains($"{figure},\"'=1+1, \"\"two\"\"\",", await visitor.GetStringAsync("/api/matrix.csv"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_matrix_answers_for_the_promised_size_or_the_one_asked_about_and_agrees_with_the_range()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("long-bench", 150, 20, 20);
        var matrix = await visitor.GetJsonAsync("/api/matrix");
        Assert.Equal("63.5x114.3x152.4", (string?)matrix["volume"]);
        Assert.Equal(["MEX-rigid", "MEX-flexible", "VPP-rigid", "VPP-tough", "VPP-flexible", "PBF-rigid"], matrix["processes"]!.AsArray().Select(p => (string)p!));
        var row = matrix["rows"]!.AsArray().Single(r => (string?)r!["figure"] == figure)!;
        foreach (var cell in row["cells"]!.AsArray())
        {
            var item = await visitor.FindAsync(figure, $"process={cell!["process"]}&volume=63.5x114.3x152.4");
            Assert.Equal((string?)item!["verdict"], (string?)cell["verdict"]);
        }

        var small = await visitor.GetJsonAsync("/api/matrix?volume=50x50x50&process=MEX-rigid");
        row = small["rows"]!.AsArray().Single(r => (string?)r!["figure"] == figure)!;
        Assert.Equal("unsuited", (string?)Assert.Single(row["cells"]!.AsArray())!["verdict"]);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync("/matrix?volume=50x50x50");
        Assert.Contains("for a build volume of 50 × 50 × 50 mm", browser.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_new_is_answered_without_the_whole_list()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        using var first = await visitor.GetAsync("/api/figures");
        var tag = first.Headers.ETag!;
        using var again = new HttpRequestMessage(HttpMethod.Get, "/api/figures");
        again.Headers.IfNoneMatch.Add(tag);
        using var same = await visitor.SendAsync(again);
        Assert.Equal(HttpStatusCode.NotModified, same.StatusCode);
        Assert.Empty(await same.Content.ReadAsByteArrayAsync());

        await designer.PublishBoxAsync("newcomer", 10, 10, 10);
        using var later = new HttpRequestMessage(HttpMethod.Get, "/api/figures");
        later.Headers.IfNoneMatch.Add(tag);
        using var changed = await visitor.SendAsync(later);
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.NotEqual(tag, changed.Headers.ETag);
    }

    [Fact]
    public async Task Every_limit_of_a_process_says_where_it_comes_from()
    {
        using var visitor = Catalogue.Visitor();
        var processes = await visitor.GetJsonAsync("/api/processes");
        Assert.Equal(6, (int)processes["total"]!);
        foreach (var limit in processes["items"]!.AsArray().SelectMany(p => p!["limits"]!.AsArray()))
            Assert.False(string.IsNullOrWhiteSpace((string?)limit!["origin"]));
    }
}

public sealed class RangeOnSqliteTests(SqliteCatalogue catalogue) : RangeTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class RangeOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : RangeTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
