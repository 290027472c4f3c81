namespace Catalogue.Web.Inspection;

/// <summary>
/// Once a minute, and at start: asks for comparisons that nobody has asked for yet (revisions discarded, taken back or published side by side,
/// a crash in between, a new version) and for those that never ended.
/// </summary>
internal sealed class UnfinishedComparisons(ComparisonQueue queue, TimeProvider time, ILogger<UnfinishedComparisons> log) : BackgroundService
{
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Period, time);
        var age = TimeSpan.Zero;
        do
        {
            try
            {
                if (await queue.AskForAllAsync(time.GetUtcNow().UtcDateTime - age, stoppingToken) is > 0 and var asked)
                    log.LogInformation("{Count} comparisons of revisions are waiting", asked);
                age = Period;
            }
            catch (Exception exception) when (exception is not OperationCanceledException)
            {
                log.LogWarning(exception, "Could not look for comparisons of revisions to make; will try again in a minute");
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
