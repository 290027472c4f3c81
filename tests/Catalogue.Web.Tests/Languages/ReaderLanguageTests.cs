using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Model.Languages;

namespace Catalogue.Web.Tests.Languages;

/// <summary>Pages speak the reader's language; programs get English unless their address asks for another.</summary>
public abstract class ReaderLanguageTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string German = "Zum Inhalt springen";
    private const string English = "Skip to the content";

    [Theory]
    [InlineData(null, "en")]
    [InlineData("de", "de")]
    [InlineData("de-CH, en;q=0.8", "de")]
    [InlineData("fr, de;q=0.7, en;q=0.5", "de")]
    [InlineData("en, de;q=0.7", "en")]
    [InlineData("qps-ploc", "en")]
    [InlineData(";;;", "en")]
    public async Task A_page_is_in_the_language_the_browser_prefers(string? preferred, string code)
    {
        using var visitor = Catalogue.CreateClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/processes");
        if (preferred is not null) request.Headers.TryAddWithoutValidation("Accept-Language", preferred);
        using var response = await visitor.SendAsync(request);
        var html = await response.Content.ReadAsStringAsync();
        Assert.Contains($"<html lang=\"{code}\">", html, StringComparison.Ordinal);
        Assert.Contains(code == "de" ? German : English, html, StringComparison.Ordinal);
        Assert.Contains("Accept-Language", response.Headers.Vary);
    }

    [Fact]
    public async Task What_the_address_asks_for_goes_first_and_is_kept_by_the_browser()
    {
        using var visitor = Catalogue.CreateClient();
        using var asked = await visitor.GetAsync("/processes?language=de");
        Assert.Contains(German, await asked.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains(German, await visitor.GetStringAsync("/processes"), StringComparison.Ordinal);
        Assert.Contains(English, await visitor.GetStringAsync("/processes?language=en"), StringComparison.Ordinal);
        Assert.Contains(English, await visitor.GetStringAsync("/processes"), StringComparison.Ordinal);
        Assert.Contains(English, await visitor.GetStringAsync("/processes?language=tlh"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_page_links_to_itself_in_the_other_languages()
    {
        using var visitor = Catalogue.CreateClient();
        var html = WebUtility.HtmlDecode(await visitor.GetStringAsync("/?process=VPP-rigid&volume=64x114x152"));
        Assert.Contains("href=\"/?process=VPP-rigid&volume=64x114x152&language=de\" lang=\"de\"", html, StringComparison.Ordinal);
    }

    // How a page names its other languages: HTML Living Standard, link type “alternate”, and RFC 5646 for the tags (both from memory); x-default is common practice of search engines.
    [Fact]
    public async Task A_page_has_one_address_and_names_it_in_every_language()
    {
        using var visitor = Catalogue.CreateClient();
        var address = new Uri(visitor.BaseAddress!, "/matrix");
        var html = WebUtility.HtmlDecode(await visitor.GetStringAsync("/matrix?volume=64x114x152&language=de"));
        Assert.Contains($"<link rel=\"canonical\" href=\"{address}\">", html, StringComparison.Ordinal);
        Assert.All(Language.All, l => Assert.Contains($"<link rel=\"alternate\" hreflang=\"{l.Code}\" href=\"{address}?language={l.Code}\">", html, StringComparison.Ordinal));
        Assert.Contains($"<link rel=\"alternate\" hreflang=\"x-default\" href=\"{address}\">", html, StringComparison.Ordinal);
        Assert.Contains("<meta property=\"og:description\" content=\"Welche Figur sich mit welchem Verfahren drucken lässt, in 64 × 114 × 152 mm.\">", html.Replace('\u00A0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_error_page_speaks_the_reader_s_language_too()
    {
        using var visitor = Catalogue.CreateClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/figures/nobody-drew-this");
        request.Headers.TryAddWithoutValidation("Accept-Language", "de");
        using var response = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Contains("<html lang=\"de\">", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Programs_get_English_whatever_their_headers_say()
    {
        using var program = Catalogue.CreateClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/rules");
        request.Headers.TryAddWithoutValidation("Accept-Language", "de");
        request.Headers.TryAddWithoutValidation("Cookie", "catalogue.language=de");
        using var response = await program.SendAsync(request);
        var rules = JsonNode.Parse(await response.Content.ReadAsStringAsync())!["items"]!.AsArray();
        Assert.Contains(rules, r => (string?)r!["measures"] == "Edges with a triangle on one side only");
    }
}

public sealed class ReaderLanguagesOnSqliteTests(SqliteCatalogue catalogue) : ReaderLanguageTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class ReaderLanguagesOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : ReaderLanguageTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
