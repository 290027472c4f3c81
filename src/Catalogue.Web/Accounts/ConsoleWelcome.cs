using System.Security.Cryptography;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Accounts;

/// <summary>What the program says on its console once it serves: where it is, and how to get the first account.</summary>
internal static class ConsoleWelcome
{
    /// <summary>The address, and the link that makes the first account while there is none.</summary>
    public static async Task PrintAsync(WebApplication app, TextWriter console)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var address = AddressOf(app);
        await console.WriteLineAsync($"The catalogue is at {address}/");
        if (await scope.ServiceProvider.GetRequiredService<CatalogueDb>().Users.AnyAsync()) return;
        var code = scope.ServiceProvider.GetRequiredService<FirstAccountCode>();
        await console.WriteLineAsync($"There is no account yet. Make the first one, the host's, at {address}/setup?code={code.Value}");
    }

    /// <summary>Makes the account of a throw-away catalogue, with a password nobody else knows, and tells it.</summary>
    public static async Task PrintWithNewAccountAsync(WebApplication app, TextWriter console)
    {
        await using var scope = app.Services.CreateAsyncScope();
        var password = RandomNumberGenerator.GetString("abcdefghjkmnpqrstuvwxyz23456789", 14);
        var account = new Account { UserName = "host", DisplayName = "The host", IsHost = true };
        var made = await scope.ServiceProvider.GetRequiredService<UserManager<Account>>().CreateAsync(account, password);
        if (!made.Succeeded) throw new InvalidOperationException(string.Join(" ", made.Errors.Select(e => e.Description)));
        await console.WriteLineAsync($"The catalogue is at {AddressOf(app)}/");
        await console.WriteLineAsync($"To try the designers' side, sign in at {AddressOf(app)}/sign-in as “host” with the password {password}");
    }

    private static string AddressOf(WebApplication app)
    {
        var bound = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() ?? "";
        var reachable = bound.Replace("//0.0.0.0:", "//localhost:", StringComparison.Ordinal).Replace("//[::]:", "//localhost:", StringComparison.Ordinal)
            .Replace("//+:", "//localhost:", StringComparison.Ordinal).Replace("//*:", "//localhost:", StringComparison.Ordinal);
        return reachable.TrimEnd('/') + app.Services.GetRequiredService<IOptions<CatalogueOptions>>().Value.PathBase;
    }
}
