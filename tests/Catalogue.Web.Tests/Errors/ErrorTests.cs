using System.Net;

namespace Catalogue.Web.Tests.Errors;

/// <summary>What people and programs are told when something is not there or goes wrong.</summary>
public sealed class ErrorTests(SqliteCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<SqliteCatalogue>
{
    [Theory]
    [InlineData("/nowhere", HttpStatusCode.NotFound, "There is nothing at this address")]
    [InlineData("/figures/nobody", HttpStatusCode.NotFound, "There is no published figure “nobody”.")]
    [InlineData("/figures/nobody/parts/body/report", HttpStatusCode.NotFound, "There is no published figure “nobody”.")]
    [InlineData("/?process=XYZ-odd", HttpStatusCode.UnprocessableEntity, "This catalogue has no process “XYZ-odd”.")]
    [InlineData("/?page=-1", HttpStatusCode.UnprocessableEntity, "“-1” is not a number for “page”")]
    public async Task A_page_that_cannot_be_shown_says_why_and_where_to_go(string path, HttpStatusCode status, string sentence)
    {
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync(path);
        Assert.Equal(status, browser.Status);
        Assert.Contains(sentence, browser.Text, StringComparison.Ordinal);
        Assert.Contains("To the range", browser.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/nowhere")]
    [InlineData("/api/figures/nobody")]
    [InlineData("/api/figures/nobody/parts/body")]
    [InlineData("/api/figures/nobody/hardware")]
    [InlineData("/api/figures/nobody/reports")]
    public async Task A_program_gets_problem_details(string path)
    {
        using var visitor = Catalogue.Visitor();
        using var response = await visitor.GetAsync(path);
        await response.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        Assert.Null(response.Headers.ETag);
    }

    [Fact]
    public async Task Every_answer_forbids_foreign_scripts_and_frames()
    {
        using var visitor = Catalogue.Visitor();
        foreach (var path in new[] { "/", "/printer", "/nowhere", "/api/figures", "/css/base.css" })
        {
            using var response = await visitor.GetAsync(path);
            var policy = Assert.Single(response.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("default-src 'self'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", Assert.Single(response.Headers.GetValues("X-Content-Type-Options")));
        }
    }

    [Fact]
    public async Task The_process_is_alive_and_ready()
    {
        using var visitor = Catalogue.Visitor();
        Assert.Equal("alive", (string?)(await visitor.GetJsonAsync("/healthz"))["status"]);
        Assert.Equal("ready", (string?)(await visitor.GetJsonAsync("/readyz"))["status"]);
    }
}

/// <summary>A catalogue served under a path.</summary>
public sealed class CatalogueOnSubPath : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [.. base.Settings(), ("Catalogue:PathBase", "/puppets")];
}

public sealed class SubPathTests(CatalogueOnSubPath catalogue) : CatalogueTests(catalogue), IClassFixture<CatalogueOnSubPath>
{
    [Fact]
    public async Task Every_address_on_a_page_stays_below_the_path()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("guest", 10, 10, 10);
        using var browser = new Browser(Catalogue.CreateClient());
        foreach (var path in new[] { "/", "/matrix", "/printer", "/cautions", "/nowhere", $"/figures/{figure}", $"/figures/{figure}/parts/body", $"/figures/{figure}/parts/body/report" })
        {
            await browser.GoAsync("/puppets" + path + "?process=MEX-rigid");
            Assert.DoesNotMatch("(href|src|action)=\"/(?!puppets)", browser.Html);
            Assert.Matches("href=\"/puppets/css/base.css", browser.Html);
        }

        await browser.SubmitAsync("report?process=MEX-rigid", ("Outcome", "worked"), ("Process", "MEX-rigid"));
        Assert.StartsWith($"/puppets/figures/{figure}/parts/body/report?thanks=true", browser.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_proxy_that_strips_the_path_says_so_and_the_links_follow()
    {
        using var visitor = Catalogue.Visitor();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Add("X-Forwarded-Prefix", "/theatre");
        request.Headers.Add("X-Forwarded-Proto", "https");
        using var response = await visitor.SendAsync(request);
        var html = await response.Content.ReadAsStringAsync();
        Assert.DoesNotMatch("(href|src|action)=\"/(?!theatre)", html);
        Assert.Matches("href=\"/theatre/css/base.css", html);
    }
}
