using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Tests.Processes;

/// <summary>The decision table, as a page and for programs.</summary>
public abstract class RuleTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task Every_rule_is_on_the_page_and_in_the_api_with_its_limits_as_they_are_now()
    {
        using var visitor = Catalogue.Visitor();
        var rules = await visitor.GetJsonAsync("/api/rules");
        Assert.Equal(Rules.All.Select(r => r.Code), rules["items"]!.AsArray().Select(r => (string?)r!["code"]));
        using var host = Catalogue.Visitor();
        host.DefaultRequestHeaders.Authorization = new("Bearer", await Catalogue.TokenAsync("host", host: true));
        await host.SendAsync(HttpMethod.Put, "/api/processes/PBF-rigid/limits/wall-supported", new { value = 0.9, origin = "our workshop" }, System.Net.HttpStatusCode.OK);

        // A new limit comes into effect when everything has been judged by it.
        var powder = await PowderAsync(visitor);
        for (var tries = 0; tries < 600 && (double)powder["value"]! != 0.9; tries++)
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
            powder = await PowderAsync(visitor);
        }

        // Built in: 0.7 mm, common practice.
        Assert.Equal((0.9, 0.7, "our workshop"), ((double)powder["value"]!, (double)powder["builtIn"]!, (string?)powder["origin"]));
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync("/rules");
        Assert.All(Rules.All, r => Assert.Contains($"id=\"{r.Code}\"", browser.Html, StringComparison.Ordinal));
        Assert.Contains("0.9 mm for Powder, rigid (our workshop; built in: 0.7)", browser.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        await browser.GoAsync("/processes");
        Assert.Contains("href=\"/rules\"", browser.Html, StringComparison.Ordinal);
    }

    private static async Task<System.Text.Json.Nodes.JsonNode> PowderAsync(HttpClient visitor) =>
        (await visitor.GetJsonAsync("/api/rules"))["items"]!.AsArray().Single(r => (string?)r!["code"] == "wall.thin")!["limits"]![0]!["values"]!.AsArray()
            .Single(v => (string?)v!["process"] == "PBF-rigid")!;
}

public sealed class RulesOnSqliteTests(SqliteCatalogue catalogue) : RuleTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class RulesOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : RuleTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
