using Catalogue.Data;
using Catalogue.Model.Inspections;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Inspection;

/// <summary>At start: removes cut-off uploads and puts back into the queue what was acknowledged but never got there.</summary>
internal sealed class UnfinishedInspections(IServiceScopeFactory scopes, InspectionQueue queue, IBlobStore blobs, ILogger<UnfinishedInspections> log)
    : IHostedService
{
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        if (blobs is FolderBlobStore folder && folder.RemoveLeftovers(TimeSpan.FromHours(6)) is > 0 and var removed)
            log.LogInformation("Removed {Count} uploads that were cut off", removed);
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var waiting = await db.Inspections.Where(i => i.State == InspectionState.Queued || i.State == InspectionState.Running)
            .OrderBy(i => i.QueuedAt).Select(i => i.Id).ToListAsync(cancellationToken);
        foreach (var inspection in waiting) await queue.AddAsync(inspection, cancellationToken);
        if (waiting.Count > 0) log.LogInformation("{Count} inspections were unfinished and go on", waiting.Count);
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
