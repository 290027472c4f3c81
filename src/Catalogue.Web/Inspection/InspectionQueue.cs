using Catalogue.Data;
using Microsoft.EntityFrameworkCore;
using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Asks for inspections. An inspection that is already waiting or running is not asked for twice.</summary>
public sealed class InspectionQueue(ISchedulerFactory schedulers, IServiceScopeFactory scopes, TimeProvider time)
{
    /// <summary>Inspects a mesh again, from the beginning and whatever was found before. One that is waiting or running is left alone.</summary>
    public async Task RepeatAsync(Guid inspection, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        if (await db.Inspections.SingleOrDefaultAsync(i => i.Id == inspection, cancellation) is not { IsFinished: true } finished) return;
        finished.Requeue(time.GetUtcNow().UtcDateTime, forgetAttempts: true);
        await db.SaveChangesAsync(cancellation);
        await AddAsync(inspection, cancellation);
    }

    public async Task AddAsync(Guid inspection, CancellationToken cancellation)
    {
        var scheduler = await schedulers.GetScheduler(cancellation);
        var key = InspectMeshJob.KeyOf(inspection);
        if (await scheduler.Exists(key, cancellation)) return;
        var job = JobBuilder.Create<InspectMeshJob>().WithIdentity(key).RequestRecovery().Build();
        var trigger = TriggerBuilder.Create().WithIdentity(key.Name, key.Group).StartNow().Build();
        try
        {
            await scheduler.ScheduleJob(job, trigger, cancellationToken: cancellation);
        }
        catch (ObjectAlreadyExistsException)
        {
            // Another request was quicker: the inspection is in the queue, which is all that was wanted.
        }
    }
}
