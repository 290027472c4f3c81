using System.Net;

namespace Catalogue.Web.Tests.Guide;

/// <summary>The first visit says what is done already and shows each step on this range.</summary>
public abstract class FirstVisitTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task With_a_printer_it_counts_what_suits_and_names_a_figure()
    {
        using var designer = await Catalogue.DesignerAsync();
        await designer.PublishBoxAsync("first-visited", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        var without = WebUtility.HtmlDecode(await visitor.GetStringAsync("/first-visit"));
        Assert.Contains("there is no account", without, StringComparison.Ordinal);
        Assert.Contains("on which processes a figure prints at all", without, StringComparison.Ordinal);
        var with = WebUtility.HtmlDecode(await visitor.GetStringAsync("/first-visit?process=VPP-rigid&volume=64x114x152"));
        Assert.Contains("64\u00A0×\u00A0114\u00A0×\u00A0152\u00A0mm", with, StringComparison.Ordinal);
        Assert.Matches(@"Of \d+ figures, [1-9]\d* suit your printer", with);
        Assert.Contains("/report?", with, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_words_have_addresses_and_a_finding_explains_its_own()
    {
        using var visitor = Catalogue.CreateClient();
        var words = await visitor.GetStringAsync("/words");
        Assert.Contains("id=\"pool\"", words, StringComparison.Ordinal);
        Assert.DoesNotContain("popover", words, StringComparison.Ordinal);
        var guide = await visitor.GetStringAsync("/first-visit");
        Assert.Contains("popovertarget=\"term-pool-", guide, StringComparison.Ordinal);
        Assert.Contains("href=\"/words#pool\"", guide, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_part_explains_the_words_of_its_findings()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("thin-words", 20, 20, 0.4);
        using var visitor = Catalogue.CreateClient();
        var html = await visitor.GetStringAsync($"/figures/{figure}/parts/body?process=VPP-rigid&volume=64x114x152");
        Assert.Contains("popovertarget=\"term-wall-", html, StringComparison.Ordinal);
        Assert.DoesNotContain("popovertarget=\"term-pool-", html, StringComparison.Ordinal);
    }
}

public sealed class FirstVisitsOnSqliteTests(SqliteCatalogue catalogue) : FirstVisitTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class FirstVisitsOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : FirstVisitTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
