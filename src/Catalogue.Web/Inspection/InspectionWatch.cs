using System.Threading.Channels;
using Catalogue.Data;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Inspection;

/// <summary>Where an inspection stands at a moment.</summary>
internal sealed record InspectionStand(Guid Id, InspectionState State, int Percent, string Stage)
{
    public bool IsFinished => State is InspectionState.Done or InspectionState.Rejected or InspectionState.Failed;
}

/// <summary>
/// Looks after inspections for everybody who waits for one: a single query a second for all of them, whoever works on them and however many
/// watch, and none while nobody does. The row is all that processes share, so it is asked and not the worker.
/// </summary>
internal sealed class InspectionWatch(IServiceScopeFactory scopes, TimeProvider time, ILogger<InspectionWatch> log)
{
    /// <summary>How many may watch at once in this process; each holds a connection open.</summary>
    public const int MostWatchers = 200;

    /// <summary>How many inspections one of them may watch.</summary>
    public const int MostInspections = 50;

    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private readonly Dictionary<Watcher, Guid[]> _watchers = [];
    private bool _looking;

    /// <summary>How many watch now.</summary>
    public int Watchers
    {
        get
        {
            lock (_lock) return _watchers.Count;
        }
    }

    /// <summary>Begins to watch; the first answer comes at once or within a second. Dispose it to stop.</summary>
    /// <exception cref="RuleBrokenException">Too many watch already.</exception>
    public Watcher Join(Guid[] inspections)
    {
        var watcher = new Watcher(this);
        lock (_lock)
        {
            if (_watchers.Count >= MostWatchers) throw new RuleBrokenException("busy", $"Too many pages are waiting for inspections at the moment. Nothing is lost; ask again in a minute, or load the page again.");
            _watchers.Add(watcher, inspections);
            if (_looking) return watcher;
            _looking = true;
        }

        _ = Task.Run(LookAsync);
        return watcher;
    }

    private async Task LookAsync()
    {
        while (true)
        {
            Guid[] wanted;
            lock (_lock)
            {
                if (_watchers.Count == 0)
                {
                    _looking = false;
                    return;
                }

                wanted = [.. _watchers.Values.SelectMany(ids => ids).Distinct()];
            }

            var stands = await ReadAsync(wanted);
            lock (_lock)
            {
                foreach (var (watcher, ids) in _watchers) watcher.Tell([.. ids.Where(stands.ContainsKey).Select(id => stands[id])]);
            }

            await Task.Delay(Pace, time);
        }
    }

    /// <summary>The stands of these; none when the database does not answer, which the next second may bring back.</summary>
    private async Task<Dictionary<Guid, InspectionStand>> ReadAsync(Guid[] wanted)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            return await scope.ServiceProvider.GetRequiredService<CatalogueDb>().Inspections.AsNoTracking().Where(i => wanted.Contains(i.Id))
                .Select(i => new InspectionStand(i.Id, i.State, i.ProgressPercent, i.Stage)).ToDictionaryAsync(i => i.Id);
        }
        catch (Exception exception) when (exception is not OutOfMemoryException)
        {
            log.LogWarning(exception, "Could not look after inspections; will look again in a second");
            return [];
        }
    }

    private void Leave(Watcher watcher)
    {
        lock (_lock) _watchers.Remove(watcher);
    }

    /// <summary>One who waits. Whoever is slow misses stands, never the last one.</summary>
    internal sealed class Watcher(InspectionWatch watch) : IDisposable
    {
        private readonly Channel<IReadOnlyList<InspectionStand>> _stands = Channel.CreateBounded<IReadOnlyList<InspectionStand>>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest });

        /// <summary>What is known of the inspections, once a second.</summary>
        public IAsyncEnumerable<IReadOnlyList<InspectionStand>> StandsAsync(CancellationToken cancellation) => _stands.Reader.ReadAllAsync(cancellation);

        public void Tell(IReadOnlyList<InspectionStand> stands) => _stands.Writer.TryWrite(stands);

        public void Dispose() => watch.Leave(this);
    }
}
