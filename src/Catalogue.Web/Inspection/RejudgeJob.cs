using System.Data.Common;
using Catalogue.Data.Judging;
using Microsoft.EntityFrameworkCore;
using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Brings changed limits or rules into effect: every revision is judged by them from its stored measurements, then all verdicts become the new ones at once. No mesh is read.</summary>
/// <remarks>One at a time, whatever the number of machines. After a crash it goes on where it stopped.</remarks>
[DisallowConcurrentExecution]
internal sealed class RejudgeJob(Rejudger rejudger, ILogger<RejudgeJob> log) : IJob
{
    private const int Tries = 5;

    public async ValueTask Execute(IJobExecutionContext context, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                if (await rejudger.RunAsync(cancellationToken) is > 0 and var count) log.LogInformation("Judged {Count} revisions anew; changed limits and rules are in effect now", count);
                return;
            }
            catch (Exception exception) when (exception is DbException or DbUpdateException && attempt < Tries)
            {
                // The database was busy with somebody else's change of the same rows: what was done so far is kept.
                log.LogWarning(exception, "Judging anew was interrupted and goes on");
                await Task.Delay(TimeSpan.FromSeconds(attempt), cancellationToken);
            }
        }
    }
}
