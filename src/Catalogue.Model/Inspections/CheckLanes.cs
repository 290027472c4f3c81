using System.Runtime.ExceptionServices;

namespace Catalogue.Model.Inspections;

/// <summary>Runs independent checks side by side, begun in the order given, on as many lanes as there are cores.</summary>
/// <remarks>
/// Lanes are tasks of the common thread pool, so that several inspections at once share the cores instead of crowding them. Each check in progress holds memory of its own: there
/// are never more than <see cref="Most"/>, and the large ones use all cores themselves.
/// </remarks>
internal static class CheckLanes
{
    public const int Most = 4;

    /// <summary>Waits for all. When one fails or is cancelled the others are stopped, and what it threw is thrown.</summary>
    public static void Run(IReadOnlyList<Action<CancellationToken>> checks, CancellationToken cancellation)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var next = -1;
        Exception? failure = null;
        var lane = new Action(() =>
        {
            for (int i; failure is null && (i = Interlocked.Increment(ref next)) < checks.Count;)
            {
                try
                {
                    stop.Token.ThrowIfCancellationRequested();
                    checks[i](stop.Token);
                }
                catch (Exception thrown)
                {
                    Interlocked.CompareExchange(ref failure, thrown, null);
                    stop.Cancel();
                }
            }
        });
        Parallel.Invoke([.. Enumerable.Repeat(lane, Math.Min(Environment.ProcessorCount, Most))]);
        if (failure is not null) ExceptionDispatchInfo.Throw(failure);
    }
}
