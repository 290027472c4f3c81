using System.CommandLine;
using Catalogue.Data.Accounts;
using Catalogue.Data.Storage;
using Catalogue.Web.Accounts;
using Microsoft.AspNetCore.Identity;

namespace Catalogue.Web.Commands;

/// <summary><c>password-link NAME</c>: for a host who forgot the password. Whoever may run this has the catalogue's data anyway.</summary>
internal static class PasswordLinkCommand
{
    public static Command Create()
    {
        var name = new Argument<string>("NAME") { Description = "The name the account signs in with." };
        var command = new Command("password-link", "Print a link that sets a new password for an account. Takes the same settings as serving, such as --Catalogue:DataFolder.")
        {
            name,
        };
        command.TreatUnmatchedTokensAsErrors = false;
        command.SetAction((parsed, cancellation) => RunAsync(parsed.GetValue(name)!, [.. parsed.UnmatchedTokens], cancellation));
        return command;
    }

    private static async Task<int> RunAsync(string name, string[] args, CancellationToken cancellation)
    {
        await using var app = CatalogueApp.Build(args, builder => builder.Logging.ClearProviders());
        await Schema.ApplyAsync(app.Services.GetRequiredService<DatabaseChoice>(), cancellation);
        await using var scope = app.Services.CreateAsyncScope();
        var account = await scope.ServiceProvider.GetRequiredService<UserManager<Account>>().FindByNameAsync(name);
        if (account is null || PasswordLinks.IsClosed(account))
        {
            await Console.Error.WriteLineAsync($"There is no open account “{name}”. Nothing was changed.");
            return 1;
        }

        await Console.Out.WriteLineAsync("Open this below the catalogue's own address, within three days; it works once:");
        await Console.Out.WriteLineAsync(await scope.ServiceProvider.GetRequiredService<PasswordLinks>().MakeAsync(account));
        return 0;
    }
}
