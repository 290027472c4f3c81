using System.Net;
using System.Text.RegularExpressions;
using Catalogue.Web.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Web.Tests.Accounts;

/// <summary>Accounts through the pages: who gets in, and who does not.</summary>
public abstract partial class AccountTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Password = "seven small lamps at sea";

    [Fact]
    public async Task A_designer_signs_in_and_out_and_a_wrong_word_tells_nothing()
    {
        var name = await NewNameAsync();
        using var browser = new Browser(Catalogue.Visitor());
        await browser.GoAsync("/account");
        Assert.StartsWith("/sign-in?return=", browser.Path, StringComparison.Ordinal);

        await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", "not the password"));
        var wrongPassword = browser.Text;
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        await browser.SubmitAsync("/sign-in", ("Form.Name", "nobody-" + name), ("Form.Password", "not the password"));
        Assert.Equal(wrongPassword, browser.Text);

        await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", Password));
        Assert.EndsWith("/account", browser.Path, StringComparison.Ordinal);
        Assert.Contains(name, browser.Text, StringComparison.Ordinal);
        await browser.SubmitAsync("/sign-out");
        await browser.GoAsync("/account");
        Assert.Contains("/sign-in", browser.Path, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Signing_in_never_leads_to_another_site()
    {
        var name = await NewNameAsync();
        foreach (var target in new[] { "https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere.example" })
        {
            using var browser = new Browser(Catalogue.Visitor());
            await browser.GoAsync("/sign-in?return=" + Uri.EscapeDataString(target));
            await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", Password));
            Assert.Equal("/drafts", browser.Path);
        }
    }

    [Fact]
    public async Task After_several_wrong_words_even_the_right_one_waits()
    {
        var name = await NewNameAsync();
        using var browser = new Browser(Catalogue.Visitor());
        await browser.GoAsync("/sign-in");
        for (var i = 0; i < 8; i++) await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", "wrong"));
        await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", Password));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
    }

    [Fact]
    public async Task A_token_is_shown_once_works_and_can_be_revoked()
    {
        using var browser = await SignedInAsync(await NewNameAsync());
        await browser.GoAsync("/account");
        await browser.SubmitAsync("?handler=Token", ("TokenName", "upload script"));
        var token = TokenText().Match(browser.Html).Value;
        Assert.NotEmpty(token);

        using var program = Catalogue.Visitor();
        program.DefaultRequestHeaders.Authorization = new("Bearer", token);
        await program.GetJsonAsync("/api/drafts");

        await browser.GoAsync("/account");
        Assert.DoesNotContain(token, browser.Html, StringComparison.Ordinal);
        Assert.Contains("upload script", browser.Text, StringComparison.Ordinal);
        await browser.SubmitAsync("?handler=Revoke");
        Assert.DoesNotContain("upload script", browser.Text, StringComparison.Ordinal);
        using var refused = await program.GetAsync("/api/drafts");
        await refused.ExpectProblemAsync(HttpStatusCode.Unauthorized, "token-missing");
    }

    [Fact]
    public async Task A_name_and_a_password_are_changed()
    {
        var name = await NewNameAsync();
        using var browser = await SignedInAsync(name);
        await browser.GoAsync("/account");
        await browser.SubmitAsync("?handler=Name", ("DisplayName", "Ada of the Pier"));
        Assert.Contains("Ada of the Pier", browser.Html, StringComparison.Ordinal);
        await browser.SubmitAsync("?handler=Password", ("Passwords.Present", "wrong"), ("Passwords.New", Password + "!"));
        Assert.Contains("not your present password", browser.Text, StringComparison.Ordinal);
        await browser.SubmitAsync("?handler=Password", ("Passwords.Present", Password), ("Passwords.New", Password + "!"));
        Assert.Contains("Your password was changed", browser.Text, StringComparison.Ordinal);
        using var again = await SignedInAsync(name, Password + "!");
    }

    [Fact]
    public async Task The_host_invites_a_designer_by_a_link_that_works_once()
    {
        using var host = await SignedInAsync(await NewNameAsync(host: true));
        await host.GoAsync("/account/designers");
        var name = "guest-" + Guid.NewGuid().ToString("N")[..8];
        await host.SubmitAsync("?handler=Invite", ("Form.Name", name));
        var link = WebUtility.HtmlDecode(LinkText().Match(host.Html).Groups[1].Value);
        Assert.NotEmpty(link);

        using var guest = new Browser(Catalogue.Visitor());
        await guest.GoAsync(link);
        await guest.SubmitAsync("/set-password", ("Password", Password));
        Assert.Equal("/drafts", guest.Path);
        await guest.GoAsync("/account/designers");
        Assert.Contains("/sign-in", guest.Path, StringComparison.Ordinal);

        using var late = new Browser(Catalogue.Visitor());
        await late.GoAsync(link);
        Assert.Contains("used already", late.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_closed_account_neither_signs_in_nor_publishes()
    {
        var name = await NewNameAsync();
        using var designer = await SignedInAsync(name);
        await designer.GoAsync("/account");
        await designer.SubmitAsync("?handler=Token", ("TokenName", "t"));
        using var program = Catalogue.Visitor();
        program.DefaultRequestHeaders.Authorization = new("Bearer", TokenText().Match(designer.Html).Value);
        await program.GetJsonAsync("/api/drafts");

        using var host = await SignedInAsync(await NewNameAsync(host: true));
        await host.GoAsync("/account/designers");
        var id = await Catalogue.WithDbAsync(db => Task.FromResult(db.Users.Single(u => u.UserName == name).Id));
        await host.SubmitAsync("?handler=Close", ("account", id.ToString()));
        Assert.Contains("is closed", host.Text, StringComparison.Ordinal);

        using var refused = await program.GetAsync("/api/drafts");
        await refused.ExpectProblemAsync(HttpStatusCode.Unauthorized, "token-missing");
        using var again = new Browser(Catalogue.Visitor());
        await again.GoAsync("/sign-in");
        await again.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", Password));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.Status);
    }

    [Fact]
    public async Task A_form_of_another_site_changes_nothing()
    {
        using var browser = await SignedInAsync(await NewNameAsync(host: true));
        foreach (var path in new[] { "/sign-out", "/account?handler=Name", "/account?handler=Token", "/account/designers?handler=Invite", "/sign-in" })
            Assert.Equal(HttpStatusCode.BadRequest, await browser.ForgeAsync(path, ("DisplayName", "x"), ("TokenName", "x"), ("Form.Name", "x"), ("Form.Password", Password)));
        await browser.GoAsync("/account");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
    }

    [Fact]
    public void Every_address_that_changes_something_of_the_figures_is_closed_to_strangers()
    {
        string[] open = ["/setup", "/sign-in", "/sign-out", "/set-password"];
        var endpoints = Catalogue.Services.GetServices<EndpointDataSource>().SelectMany(s => s.Endpoints).OfType<RouteEndpoint>().ToList();
        var own = endpoints.Where(e => e.Metadata.GetMetadata<PageActionDescriptor>()?.ViewEnginePath is { } page
            && (page.StartsWith("/Drafts/", StringComparison.Ordinal) || page.StartsWith("/Accounts/", StringComparison.Ordinal))).ToList();
        Assert.True(own.Count >= 6);
        Assert.All(own, e => Assert.True(e.Metadata.GetMetadata<IAuthorizeData>() is not null || open.Contains("/" + e.RoutePattern.RawText!.TrimStart('/')), e.RoutePattern.RawText));
        var writes = endpoints.Where(e => e.RoutePattern.RawText!.StartsWith("/api/figures", StringComparison.Ordinal)
            && e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Any(m => m is not ("GET" or "HEAD")) == true).ToList();
        Assert.True(writes.Count > 15);
        Assert.All(writes, e => Assert.Equal(AccountSetup.DesignerApi, e.Metadata.GetMetadata<IAuthorizeData>()?.Policy));
    }

    private async Task<string> NewNameAsync(bool host = false)
    {
        var name = "user-" + Guid.NewGuid().ToString("N")[..10];
        await Catalogue.AccountAsync(name, Password, host);
        return name;
    }

    private async Task<Browser> SignedInAsync(string name, string password = Password)
    {
        var browser = new Browser(Catalogue.Visitor());
        await browser.GoAsync("/sign-in");
        await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", password));
        Assert.Equal("/drafts", browser.Path);
        return browser;
    }

    [GeneratedRegex("figures_[0-9a-f]{64}")]
    private static partial Regex TokenText();

    [GeneratedRegex("value=\"(http[^\"]*set-password[^\"]*)\"")]
    private static partial Regex LinkText();
}

public sealed class AccountOnSqliteTests(SqliteCatalogue catalogue) : AccountTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class AccountOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : AccountTests(catalogue), IClassFixture<PostgreSqlCatalogue>;

/// <summary>The very first account; on catalogues of their own, where there is none yet.</summary>
public abstract class FirstAccountTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Password = "seven small lamps at sea";

    [Fact]
    public async Task Only_the_code_of_the_console_makes_the_first_account_and_only_one()
    {
        using var stranger = new Browser(Catalogue.Visitor());
        await stranger.GoAsync("/setup?code=guessed");
        Assert.DoesNotContain("<form method=\"post\"", stranger.Html, StringComparison.Ordinal);
        Assert.Contains("printed on the console", stranger.Text, StringComparison.Ordinal);

        var code = Catalogue.Services.GetRequiredService<FirstAccountCode>().Value;
        using var host = new Browser(Catalogue.Visitor());
        await host.GoAsync($"/setup?code={code}");
        await host.SubmitAsync("/setup", ("Form.Name", "keeper"), ("Form.Password", "short"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, host.Status);
        Assert.Contains("at least 12 characters", host.Text, StringComparison.Ordinal);
        await host.SubmitAsync("/setup", ("Form.Name", "keeper"), ("Form.Password", Password));
        Assert.Equal("/drafts", host.Path);

        await stranger.GoAsync($"/setup?code={code}");
        Assert.Equal("/sign-in", stranger.Path);
    }
}

public sealed class FirstAccountOnSqliteTests(SqliteCatalogue catalogue) : FirstAccountTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class FirstAccountOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : FirstAccountTests(catalogue), IClassFixture<PostgreSqlCatalogue>;

/// <summary>A catalogue under a path of a reverse proxy, where signing in is allowed three times a minute.</summary>
public sealed class StrictCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [("Catalogue:PathBase", "/puppets"), ("Catalogue:SignInsPerMinute", "3")];
}

public sealed class StrictTests(StrictCatalogue catalogue) : IClassFixture<StrictCatalogue>
{
    [Fact]
    public async Task Too_many_tries_from_one_address_are_turned_away_and_every_link_stays_below_the_path()
    {
        using var browser = new Browser(catalogue.Visitor());
        await browser.GoAsync("/puppets/account");
        Assert.Contains("/puppets/sign-in?return=%2Fpuppets%2Faccount", browser.Path, StringComparison.Ordinal);
        Assert.DoesNotMatch("(href|action|src)=\"/(?!puppets)", browser.Html);
        for (var i = 0; i < 3; i++)
        {
            await browser.SubmitAsync("/sign-in", ("Form.Name", "anna"), ("Form.Password", "guess"));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        }

        await browser.SubmitAsync("/sign-in", ("Form.Name", "anna"), ("Form.Password", "guess"));
        Assert.Equal(HttpStatusCode.TooManyRequests, browser.Status);
        await browser.GoAsync("/puppets/sign-in");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
    }
}
