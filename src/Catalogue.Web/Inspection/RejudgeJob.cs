using Catalogue.Data;
using Catalogue.Data.Queries;
using Microsoft.EntityFrameworkCore;
using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Draws the verdicts of all revisions again from their stored measurements, after a limit was changed. No mesh is read.</summary>
/// <remarks>One at a time; a change that comes while it runs makes it run once more. Begun again from the start after a restart: judging twice does no harm.</remarks>
[DisallowConcurrentExecution]
internal sealed class RejudgeJob(IServiceScopeFactory scopes, TimeProvider time, ILogger<RejudgeJob> log) : IJob
{
    private const int Batch = 100;
    private const int Tries = 5;

    public async ValueTask Execute(IJobExecutionContext context, CancellationToken cancellationToken)
    {
        var (last, count) = (Guid.Empty, 0);
        while (await JudgeAfterAsync(last, cancellationToken) is { Count: > 0 } judged)
        {
            last = judged[^1];
            count += judged.Count;
        }

        log.LogInformation("Judged {Count} revisions by the limits as they are now", count);
    }

    private async Task<List<Guid>> JudgeAfterAsync(Guid last, CancellationToken cancellation)
    {
        for (var attempt = 1; ; attempt++)
        {
            await using var scope = scopes.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            var revisions = await db.Revisions.Include(r => r.Inspection).Where(r => r.Id.CompareTo(last) > 0).OrderBy(r => r.Id).Take(Batch).ToListAsync(cancellation);
            await RevisionVerdicts.JudgeAsync(db, revisions, time.GetUtcNow().UtcDateTime, cancellation);
            try
            {
                await db.SaveChangesAsync(cancellation);
                return [.. revisions.Select(r => r.Id)];
            }
            catch (DbUpdateException) when (attempt < Tries)
            {
                // An inspection judged one of them at the same moment: read again.
            }
        }
    }
}
