using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests.Accounts;

/// <summary>What the program, really started, says on its console about accounts.</summary>
public sealed partial class ConsoleTests(SqliteCatalogue catalogue) : IClassFixture<SqliteCatalogue>
{
    private static readonly string Program = Path.Combine(AppContext.BaseDirectory, "Catalogue.Web.dll");

    [Fact]
    public async Task The_first_start_prints_the_link_that_makes_the_first_account()
    {
        var folder = Directory.CreateTempSubdirectory("catalogue-console-").FullName;
        using var program = Start("--urls", "http://127.0.0.1:0", "--Catalogue:DataFolder", folder);
        try
        {
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
            Match link;
            do
            {
                var line = await program.StandardOutput.ReadLineAsync(patience.Token);
                Assert.NotNull(line);
                link = SetUpLink().Match(line);
            }
            while (!link.Success);
            using var client = new HttpClient();
            using var browser = new Browser(client);
            await browser.GoAsync(link.Value);
            Assert.Equal(HttpStatusCode.OK, browser.Status);
            Assert.Contains("Name to sign in with", browser.Text, StringComparison.Ordinal);
        }
        finally
        {
            program.Kill();
            await program.WaitForExitAsync();
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task A_host_who_forgot_the_password_prints_a_link_and_sets_a_new_one()
    {
        await catalogue.AccountAsync("forgetful", "the old long password", host: true);
        using var program = Start("password-link", "forgetful", "--Catalogue:DataFolder", catalogue.DataFolder);
        var said = await program.StandardOutput.ReadToEndAsync();
        await program.WaitForExitAsync();
        Assert.Equal(0, program.ExitCode);

        using var browser = new Browser(catalogue.Visitor());
        await browser.GoAsync(PasswordLink().Match(said).Value);
        Assert.Contains("forgetful", browser.Text, StringComparison.Ordinal);
        await browser.SubmitAsync("/set-password", ("Password", "a new and longer password"));
        Assert.Equal("/drafts", browser.Path);

        using var nobody = Start("password-link", "nobody", "--Catalogue:DataFolder", catalogue.DataFolder);
        await nobody.WaitForExitAsync();
        Assert.Equal(1, nobody.ExitCode);
    }

    private static Process Start(params string[] arguments) => Process.Start(new ProcessStartInfo("dotnet", [Program, .. arguments])
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        UseShellExecute = false,
    })!;

    [GeneratedRegex("http://\\S+/setup\\?code=\\S+")]
    private static partial Regex SetUpLink();

    [GeneratedRegex("/set-password\\?\\S+")]
    private static partial Regex PasswordLink();
}
