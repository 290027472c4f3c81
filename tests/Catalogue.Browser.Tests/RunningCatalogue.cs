using Catalogue.Data.Storage;
using Catalogue.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Xunit;

[assembly: AssemblyFixture(typeof(Catalogue.Browser.Tests.RunningCatalogue))]
[assembly: AssemblyFixture(typeof(Catalogue.Browser.Tests.Chromium))]

namespace Catalogue.Browser.Tests;

/// <summary>The whole program on a port of its own, with a folder of its own.</summary>
public sealed class RunningCatalogue : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-browser-").FullName;
    private WebApplication? _app;

    public string Address { get; private set; } = "";

    public IServiceProvider Services => _app!.Services;

    public async ValueTask InitializeAsync()
    {
        _app = CatalogueApp.Build(["--urls", "http://127.0.0.1:0"], builder =>
        {
            builder.Configuration["Catalogue:DataFolder"] = _folder;
            builder.Logging.SetMinimumLevel(LogLevel.Warning);
        });
        await Schema.ApplyAsync(Services.GetRequiredService<DatabaseChoice>(), CancellationToken.None);
        await _app.StartAsync();
        await HarbourRange.PublishAsync(Services);
        Address = Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
    }

    public async ValueTask DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
        }

        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }
}
