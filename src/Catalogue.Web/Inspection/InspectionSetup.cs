using Catalogue.Data.Judging;
using Catalogue.Web.Storage;
using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>The job queue: Quartz, its jobs stored in the catalogue's own database, so that a restart goes on where it stopped.</summary>
internal static class InspectionSetup
{
    public static void AddInspection(this WebApplicationBuilder builder, CatalogueOptions options)
    {
        var services = builder.Services;
        var choice = StorageSetup.ChoiceOf(options);
        services.AddQuartz(quartz =>
        {
            quartz.UseDefaultThreadPool(pool => pool.MaxConcurrency = options.EffectiveWorkers);
            quartz.UsePersistentStore(store =>
            {
                if (choice.IsPostgreSql)
                {
                    store.UsePostgres(choice.ConnectionString);
                    store.UseClustering();
                }
                else
                {
                    store.UseSqlite(choice.ConnectionString);
                }

                store.ProvisionSchema();
            });
        });
        services.AddSingleton<InspectionQueue>();
        services.AddSingleton<InspectionWatch>();
        services.AddSingleton<ComparisonQueue>();
        services.AddSingleton<MeshComparer>();
        services.AddSingleton<InspectionTurns>();
        services.AddSingleton<Rejudging>();
        services.AddSingleton<Rejudger>();
        services.AddSingleton<Inspector>();
        services.AddScoped<MeshUpload>();
        services.AddHostedService<UnfinishedInspections>();
        services.AddHostedService<UnfinishedComparisons>();
        services.AddHostedService<UnfinishedRejudging>();
        if (!options.ServeOnly) services.AddQuartzHostedService(hosted => hosted.WaitForJobsToComplete = false);
    }
}
