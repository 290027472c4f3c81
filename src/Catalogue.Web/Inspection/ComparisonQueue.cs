using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Data.Storage;
using Catalogue.Model.Comparison;
using Microsoft.EntityFrameworkCore;
using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Asks for comparisons of revisions with the ones before them, each pair of meshes once. They wait until no inspection does.</summary>
public sealed class ComparisonQueue(ISchedulerFactory schedulers, IServiceScopeFactory scopes, TimeProvider time)
{
    private const int Batch = 200;

    /// <summary>Asks for what is missing in the variants that have a revision with this inspection.</summary>
    public Task AskForAsync(Guid inspection, CancellationToken cancellation) => AskAsync(inspection, cancellation);

    /// <summary>Asks for what is missing anywhere, and puts what waits since before a moment back into the queue.</summary>
    /// <returns>How many comparisons are in the queue because of it.</returns>
    public async Task<int> AskForAllAsync(DateTime before, CancellationToken cancellation)
    {
        var asked = 0;
        await using (var scope = scopes.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            var waiting = await db.Comparisons.AsNoTracking()
                .Where(c => (c.State == ComparisonState.Queued || c.State == ComparisonState.Running) && c.QueuedAt <= before)
                .OrderBy(c => c.QueuedAt).Select(c => new { c.BeforeId, c.AfterId }).ToListAsync(cancellation);
            foreach (var pair in waiting) await AddAsync(pair.BeforeId, pair.AfterId, cancellation);
            asked += waiting.Count;
        }

        while (await AskAsync(null, cancellation) is > 0 and var more)
        {
            asked += more;
            if (more < Batch) break;
        }

        return asked;
    }

    private async Task<int> AskAsync(Guid? inspection, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var missing = await db.MissingComparisonsAsync(inspection, Batch, cancellation);
        foreach (var (before, after) in missing)
        {
            var there = await db.Comparisons.SingleOrDefaultAsync(c => c.BeforeId == before && c.AfterId == after, cancellation);
            if (there is null) db.Comparisons.Add(new MeshComparison(before, after, Now));
            else there.Requeue(Now, forgetAttempts: true);
            try
            {
                await db.SaveChangesAsync(cancellation);
            }
            catch (DbUpdateException duplicate) when (DatabaseErrors.IsUniqueViolation(duplicate))
            {
                db.ChangeTracker.Clear(); // Another worker asked for the same pair at the same moment.
            }

            await AddAsync(before, after, cancellation);
        }

        return missing.Count;
    }

    private async Task AddAsync(Guid before, Guid after, CancellationToken cancellation)
    {
        var scheduler = await schedulers.GetScheduler(cancellation);
        var key = CompareMeshesJob.KeyOf(before, after);
        if (await scheduler.Exists(key, cancellation)) return;
        var job = JobBuilder.Create<CompareMeshesJob>().WithIdentity(key).RequestRecovery().Build();
        var trigger = TriggerBuilder.Create().WithIdentity(key.Name, key.Group).StartNow().WithPriority(TriggerConstants.DefaultPriority - 1).Build();
        try
        {
            await scheduler.ScheduleJob(job, trigger, cancellationToken: cancellation);
        }
        catch (ObjectAlreadyExistsException)
        {
            // Another process was quicker: the comparison is in the queue, which is all that was wanted.
        }
    }

    private DateTime Now => time.GetUtcNow().UtcDateTime;
}
