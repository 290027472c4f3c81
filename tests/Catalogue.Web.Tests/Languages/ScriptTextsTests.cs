using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests.Languages;

/// <summary>What scripts say reaches the browser in the language of the page; no database has to do with it.</summary>
public sealed partial class ScriptTextsTests(SqliteCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<SqliteCatalogue>
{
    [Fact]
    public async Task A_page_tells_where_the_texts_of_its_language_are_and_they_may_be_kept_for_ever()
    {
        using var visitor = Catalogue.CreateClient();
        var address = Address().Match(await visitor.GetStringAsync("/cautions?language=de")).Groups[1].Value;
        using var answer = await visitor.GetAsync(address);
        Assert.Equal("text/javascript", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("immutable", answer.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        var module = await answer.Content.ReadAsStringAsync();
        var texts = JsonSerializer.Deserialize<Dictionary<string, string>>(module["export default ".Length..].TrimEnd('\n', ';'))!;
        Assert.Equal("Wieder ganz", texts["Whole again"]);

        using var otherVersion = await visitor.GetAsync("/texts/de.js?v=0");
        Assert.DoesNotContain("immutable", otherVersion.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task English_needs_no_texts_and_a_language_that_is_not_spoken_has_none()
    {
        using var visitor = Catalogue.CreateClient();
        Assert.DoesNotContain("name=\"texts\"", await visitor.GetStringAsync("/cautions"), StringComparison.Ordinal);
        using var answer = await visitor.GetAsync("/texts/tlh.js");
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [GeneratedRegex("name=\"texts\" content=\"([^\"]+)\"")]
    private static partial Regex Address();
}
