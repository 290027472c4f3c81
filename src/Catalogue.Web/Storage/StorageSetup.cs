using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Data.Storage;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Storage;

/// <summary>Database, blobs and keys, from the options.</summary>
internal static class StorageSetup
{
    public static CatalogueOptions AddStorage(this WebApplicationBuilder builder)
    {
        builder.Services.AddOptions<CatalogueOptions>().BindConfiguration(CatalogueOptions.Section).ValidateDataAnnotations().ValidateOnStart();
        var options = builder.Configuration.GetSection(CatalogueOptions.Section).Get<CatalogueOptions>() ?? new();
        var choice = ChoiceOf(options);
        builder.Services.AddSingleton(choice);
        if (choice.IsPostgreSql) AddContext<PostgreSqlCatalogueDb>(builder.Services, choice);
        else AddContext<SqliteCatalogueDb>(builder.Services, choice);
        builder.Services.AddSingleton<IBlobStore>(services => new FolderBlobStore(services.GetRequiredService<IOptions<CatalogueOptions>>().Value.BlobFolder));
        builder.Services.AddDataProtection().SetApplicationName("catalogue").PersistKeysToFileSystem(Directory.CreateDirectory(options.KeyFolder));
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton<RangeIndex>();
        builder.Services.AddSingleton<OwnChanges>();
        builder.Services.AddSingleton<FitAnswers>();
        builder.Services.AddSingleton<RangeSearch>();
        builder.Services.AddHostedService<RangeAtStart>();
        return options;
    }

    public static DatabaseChoice ChoiceOf(CatalogueOptions options) => options.PostgreSql.Length > 0
        ? DatabaseChoice.PostgreSql(options.PostgreSql)
        : DatabaseChoice.Sqlite(options.SqliteFile);

    /// <summary>Begins to read the range at start, so that the first visitor waits less for it.</summary>
    private sealed class RangeAtStart(RangeIndex index, ILogger<RangeIndex> log) : BackgroundService
    {
        protected override async Task ExecuteAsync(CancellationToken stoppingToken)
        {
            try
            {
                await index.CurrentAsync(stoppingToken);
            }
            catch (Exception exception) when (exception is not OperationCanceledException)
            {
                log.LogWarning(exception, "The range could not be read at start; it is tried again for the first visitor");
            }
        }
    }

    private static void AddContext<TContext>(IServiceCollection services, DatabaseChoice choice)
        where TContext : CatalogueDb
    {
        services.AddDbContext<TContext>((provider, options) => choice.Configure(options).AddInterceptors(provider.GetRequiredService<OwnChanges>()));
        services.AddScoped<CatalogueDb>(provider => provider.GetRequiredService<TContext>());
    }
}
