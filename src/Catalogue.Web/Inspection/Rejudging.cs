using Catalogue.Data;
using Microsoft.EntityFrameworkCore;
using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Asks for changed limits or rules to be brought into effect.</summary>
public sealed class Rejudging(ISchedulerFactory schedulers)
{
    private static readonly JobKey Key = new("rejudge", "verdicts");

    /// <summary>After a change of a limit was saved.</summary>
    public async Task AskAsync(CancellationToken cancellation)
    {
        var scheduler = await schedulers.GetScheduler(cancellation);
        var job = JobBuilder.Create<RejudgeJob>().WithIdentity(Key).StoreDurably().RequestRecovery().Build();
        await scheduler.AddJob(job, AddJobOptions.Replacing, cancellation);
        await scheduler.ScheduleJob(TriggerBuilder.Create().WithIdentity(Guid.NewGuid().ToString("N"), Key.Group).ForJob(Key).StartNow().Build(), cancellationToken: cancellation);
    }

    /// <summary>Asks when a change is waiting and nobody was asked to bring it into effect: the program ended between the two, or has other rules since it was started.</summary>
    public async Task<bool> ResumeAsync(CatalogueDb db, CancellationToken cancellation)
    {
        if (await db.Rejudgements.AsNoTracking().SingleOrDefaultAsync(cancellation) is not { IsGoingOn: true }) return false;
        var scheduler = await schedulers.GetScheduler(cancellation);
        if ((await scheduler.GetTriggersOfJob(Key, cancellation)).Count > 0) return false;
        await AskAsync(cancellation);
        return true;
    }
}

/// <summary>At start and once a minute: changed limits or rules that nobody is bringing into effect.</summary>
internal sealed class UnfinishedRejudging(Rejudging rejudging, IServiceScopeFactory scopes, TimeProvider time, ILogger<UnfinishedRejudging> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromMinutes(1), time);
        do
        {
            try
            {
                await using var scope = scopes.CreateAsyncScope();
                if (await rejudging.ResumeAsync(scope.ServiceProvider.GetRequiredService<CatalogueDb>(), stoppingToken))
                    log.LogInformation("Changed limits or rules are not in effect yet; every revision is judged by them in the background");
            }
            catch (Exception exception) when (exception is not OperationCanceledException)
            {
                log.LogWarning(exception, "Could not look for changed limits or rules; will try again in a minute");
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
