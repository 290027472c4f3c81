using Catalogue.Data.Storage;
using Catalogue.Web.Accounts;

namespace Catalogue.Web.Commands;

/// <summary>Serves the catalogue until it is stopped.</summary>
internal static class ServeCommand
{
    public const string DefaultUrl = "http://127.0.0.1:5080";

    public static async Task<int> RunAsync(string[] args)
    {
        var app = CatalogueApp.Build(args);
        await Schema.ApplyAsync(app.Services.GetRequiredService<DatabaseChoice>(), CancellationToken.None);
        await app.StartAsync();
        await ConsoleWelcome.PrintAsync(app, Console.Out);
        await app.WaitForShutdownAsync();
        return 0;
    }
}
