using System.CommandLine;
using Catalogue.Data.Storage;
using Catalogue.Web.Accounts;
using Catalogue.Web.Demo;

namespace Catalogue.Web.Commands;

/// <summary><c>demo</c>: the catalogue on a throw-away folder, filled with the demo range while it is already served.</summary>
internal static class DemoCommand
{
    public static Command Create()
    {
        var command = new Command("demo", "Serve a throw-away catalogue filled with the demo range.") { TreatUnmatchedTokensAsErrors = false };
        command.SetAction((parsed, cancellation) => RunAsync([.. parsed.UnmatchedTokens], cancellation));
        return command;
    }

    private static async Task<int> RunAsync(string[] args, CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("catalogue-demo-").FullName;
        try
        {
            var app = CatalogueApp.Build(args, builder =>
            {
                builder.Configuration["Catalogue:DataFolder"] = folder;
                builder.Services.AddHostedService<DemoPublisher>();
            });
            await Schema.ApplyAsync(app.Services.GetRequiredService<DatabaseChoice>(), cancellation);
            await app.StartAsync(cancellation);
            await ConsoleWelcome.PrintWithNewAccountAsync(app, Console.Out);
            await app.WaitForShutdownAsync(cancellation);
            return 0;
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }
}
