using Catalogue.Data;
using Catalogue.Model.Inspections;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Inspection;

/// <summary>
/// At start: removes cut-off uploads and puts back into the queue what was acknowledged but never got there. Then looks again every
/// minute, so that nothing waits for a restart.
/// </summary>
internal sealed class UnfinishedInspections(
    IServiceScopeFactory scopes, InspectionQueue queue, IBlobStore blobs, TimeProvider time, ILogger<UnfinishedInspections> log)
    : BackgroundService
{
    public override async Task StartAsync(CancellationToken cancellationToken)
    {
        if (blobs is FolderBlobStore folder && folder.RemoveLeftovers(TimeSpan.FromHours(6)) is > 0 and var removed)
            log.LogInformation("Removed {Count} uploads that were cut off", removed);
        if (await QueueAsync(time.GetUtcNow().UtcDateTime, cancellationToken) is > 0 and var waiting)
            log.LogInformation("{Count} inspections were unfinished and go on", waiting);
        await base.StartAsync(cancellationToken);
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromMinutes(1), time);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await QueueAsync(time.GetUtcNow().UtcDateTime.AddMinutes(-1), stoppingToken);
            }
            catch (Exception exception) when (exception is not OperationCanceledException)
            {
                log.LogWarning(exception, "Could not look for unfinished inspections; will try again in a minute");
            }
        }
    }

    /// <summary>Asks for every inspection that waits since before <paramref name="before"/>; those already in the queue stay as they are.</summary>
    private async Task<int> QueueAsync(DateTime before, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var waiting = await db.Inspections
            .Where(i => (i.State == InspectionState.Queued || i.State == InspectionState.Running) && i.QueuedAt <= before)
            .OrderBy(i => i.QueuedAt).Select(i => i.Id).ToListAsync(cancellation);
        foreach (var inspection in waiting) await queue.AddAsync(inspection, cancellation);
        return waiting.Count;
    }
}
