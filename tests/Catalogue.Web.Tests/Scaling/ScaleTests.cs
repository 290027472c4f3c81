using System.Net;

namespace Catalogue.Web.Tests.Scaling;

/// <summary>Figures at another size, for people and for programs.</summary>
public abstract class ScaleTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Small = "process=VPP-rigid&volume=64x114x152";

    // By hand: a free plate of 1.6 mm passes the 1 mm of resin, less 2 %, from 61.25 % on; 60 × 40 × 1.6 mm lie in 64 × 114 × 152 mm up to about 250 %.
    [Fact]
    public async Task A_plate_becomes_too_thin_when_small_and_too_long_when_large()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("raft", 60, 40, 1.6);
        var half = await visitor.GetJsonAsync($"/api/figures/{figure}/scale?percent=50&{Small}");
        Assert.Equal(("care", 60.0, 50.0), ((string?)half["verdict"], (double)half["heightMm"]!, (double)half["percent"]!));
        var part = half["parts"]![0]!;
        Assert.Equal("wall.thin-free", (string?)part["come"]![0]);
        Assert.True((bool)part["smallPart"]!); // 30 × 20 × 0.8 mm goes into the cylinder of 31.75 mm; 60 mm long it does not lie deeper than 57.15 mm.
        Assert.Equal(30, part["fit"]!["size"]!.AsArray().Max(s => (double)s!), 0.01);

        var spans = half["spans"]!.AsArray();
        Assert.Equal((25, 400), ((double)spans[0]!["fromPercent"]!, (double)spans[^1]!["toPercent"]!));
        Assert.Equal(61.3, (double)spans.Single(s => (string?)s!["verdict"] == "suits")!["fromPercent"]!, 0.21);
        Assert.Equal((double)half["fitsUpToPercent"]!, (double)half["holdsToPercent"]!, 0.11);
        Assert.InRange((double)half["fitsUpToPercent"]!, 253.3, 290);

        // What it takes: 60 × 40 × 1.6 / 8 = 480 mm³ × 1.15.
        Assert.Equal(552, (double)half["cost"]!["materialMm3"]!["value"]!, 0.5);
        var large = await visitor.GetJsonAsync($"/api/figures/{figure}/scale?percent=400&{Small}");
        Assert.Equal("unsuited", (string?)large["verdict"]);
        Assert.Contains("fit.too-large", large["reasons"]!.ToJsonString(), StringComparison.Ordinal);

        // As drawn the verdict is the figure's own.
        var drawn = await visitor.GetJsonAsync($"/api/figures/{figure}/scale?{Small}");
        Assert.Equal((string?)(await visitor.GetJsonAsync($"/api/figures/{figure}?{Small}"))["verdict"], (string?)drawn["verdict"]);
    }

    [Fact]
    public async Task The_page_works_as_a_plain_form_and_keeps_the_printer()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("pontoon", 60, 40, 1.6);
        await designer.PostAsync($"/api/figures/{figure}/hardware", new { kind = "rod", name = "steel rod", quantity = 2, diameterMm = 1.5, cutLengthMm = 20 }, HttpStatusCode.Created);
        using var visitor = new Browser(Catalogue.CreateClient());
        await visitor.GoAsync($"/figures/{figure}?{Small}");
        Assert.Contains($"/figures/{figure}/scale?", visitor.Html, StringComparison.Ordinal);
        await visitor.GoAsync($"/figures/{figure}/scale?percent=90,0&{Small}");
        Assert.Contains("At 90 %", Plain(visitor), StringComparison.Ordinal);
        Assert.Contains("Scale every part by 90 %", Plain(visitor), StringComparison.Ordinal);
        Assert.Contains("name=\"process\" value=\"VPP-rigid\"", visitor.Html, StringComparison.Ordinal);

        // 1.5 mm × 0.9 = 1.35 mm is not to be had; exactly 1.2 mm at 80 %. Cut to 18 mm.
        Assert.Contains("1.35 mm of it, which shops do not keep", Plain(visitor), StringComparison.Ordinal);
        Assert.Contains("80 % (1.2 mm)", Plain(visitor), StringComparison.Ordinal);
        Assert.Contains("Cut to 18 mm instead of 20 mm", Plain(visitor), StringComparison.Ordinal);

        await visitor.GoAsync($"/figures/{figure}/scale?percent=90");
        Assert.Contains("On which printer?", visitor.Text, StringComparison.Ordinal);
        await visitor.GoAsync($"/figures/{figure}/scale?percent=tiny&{Small}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, visitor.Status);
        Assert.Contains("“tiny” is not a percentage", visitor.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await visitor.GoAsync("/figures/nobody/scale")).Status);
    }

    /// <summary>The page's words with plain spaces, tags leaving one at most.</summary>
    private static string Plain(Browser visitor) => string.Join(' ', visitor.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [Theory]
    [InlineData("percent=24", "percent-invalid")]
    [InlineData("percent=tiny", "percent-invalid")]
    [InlineData("", "printer-missing")]
    public async Task What_cannot_be_judged_is_refused(string words, string code)
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("mooring", 10, 10, 10);
        using var answer = await visitor.GetAsync($"/api/figures/{figure}/scale?{words}{(code == "printer-missing" ? "" : "&" + Small)}");
        await answer.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code);
    }
}

public sealed class ScaleOnSqliteTests(SqliteCatalogue catalogue) : ScaleTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class ScaleOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : ScaleTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
