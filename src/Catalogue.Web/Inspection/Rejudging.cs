using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Asks for all verdicts to be drawn again, and tells whether that is still going on.</summary>
public sealed class Rejudging(ISchedulerFactory schedulers)
{
    private static readonly JobKey Key = new("rejudge", "verdicts");

    public async Task AskAsync(CancellationToken cancellation)
    {
        var scheduler = await schedulers.GetScheduler(cancellation);
        var job = JobBuilder.Create<RejudgeJob>().WithIdentity(Key).StoreDurably().RequestRecovery().Build();
        await scheduler.AddJob(job, AddJobOptions.Replacing, cancellation);
        await scheduler.ScheduleJob(TriggerBuilder.Create().WithIdentity(Guid.NewGuid().ToString("N"), Key.Group).ForJob(Key).StartNow().Build(), cancellationToken: cancellation);
    }

    public async Task<bool> IsGoingOnAsync(CancellationToken cancellation)
    {
        var scheduler = await schedulers.GetScheduler(cancellation);
        return (await scheduler.GetTriggersOfJob(Key, cancellation)).Count > 0;
    }
}
