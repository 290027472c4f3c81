using System.Threading.RateLimiting;
using Catalogue.Model;
using Catalogue.Web.Storage;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Inspection;

/// <summary>Work on a mesh that somebody waits for: as much at once as there are workers, a few more wait, nobody longer than <see cref="Patience"/>.</summary>
internal sealed class InspectionTurns(IOptions<CatalogueOptions> options) : IDisposable
{
    /// <summary>Longer than this nobody waits; meshes under the cap take seconds.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    private const int Waiting = 16;

    /// <summary>There is no turn, for what changes something that is stored.</summary>
    public static Sentence BusyUnchanged => $"Many meshes are being worked on just now. Nothing was changed; try again in a minute.";

    /// <summary>There is no turn, for what visitors send.</summary>
    public static Sentence BusyUnkept => $"Many meshes are being worked on just now. Nothing was kept of yours; try again in a minute.";

    private readonly ConcurrencyLimiter _limiter = new(new()
    {
        PermitLimit = options.Value.EffectiveWorkers,
        QueueLimit = Waiting,
        QueueProcessingOrder = QueueProcessingOrder.OldestFirst,
    });

    /// <summary>Waits for a turn, then works, off the request's own thread.</summary>
    /// <param name="work">Stops when its token says so.</param>
    /// <param name="busy">What happens to what was sent when there is no turn.</param>
    /// <param name="tooLong">Thrown when patience ends.</param>
    /// <exception cref="RuleBrokenException"><c>busy</c>.</exception>
    public async Task<T> RunAsync<T>(Func<CancellationToken, T> work, Sentence busy, Func<RuleBrokenException> tooLong, CancellationToken cancellation)
    {
        using var turn = await _limiter.AcquireAsync(1, cancellation);
        if (!turn.IsAcquired) throw new RuleBrokenException("busy", busy);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(Patience);
        try
        {
            return await Task.Run(() => work(limit.Token), limit.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            throw tooLong();
        }
    }

    public void Dispose() => _limiter.Dispose();
}
