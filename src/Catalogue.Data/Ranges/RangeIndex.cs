using System.Collections.Frozen;
using Catalogue.Data.Storage;
using Catalogue.Model.Figures;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>
/// The published range in memory, so that any question about any printer is answered without touching meshes. Follows the
/// database by its two counters: figures that changed are read again, and all of them when verdicts were judged anew.
/// </summary>
/// <remarks>
/// Asks the database for the counters at most every <see cref="Patience"/>, so that every instance follows a publish made by any other
/// within that time and one request. Reading is one query per table for the figures that changed. Thread-safe.
/// </remarks>
public sealed class RangeIndex(DatabaseChoice database, TimeProvider time) : IDisposable
{
    public static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(200);

    private readonly SemaphoreSlim _refreshing = new(1, 1);
    private volatile Held? _held;
    private long _generation;

    /// <summary>The range as it is now, at most <see cref="Patience"/> late.</summary>
    public async ValueTask<RangeSnapshot> CurrentAsync(CancellationToken cancellation)
    {
        if (_held is { } fresh && IsFresh(fresh)) return fresh.Snapshot;
        await _refreshing.WaitAsync(cancellation);
        try
        {
            if (_held is { } renewed && IsFresh(renewed)) return renewed.Snapshot;

            // Both are read before the database is asked: what changes meanwhile makes this answer old at once.
            var (generation, asked) = (Interlocked.Read(ref _generation), time.GetTimestamp());
            _held = new(await RefreshAsync(_held?.Snapshot, cancellation), asked, generation);
            return _held.Snapshot;
        }
        finally
        {
            _refreshing.Release();
        }
    }

    /// <summary>Makes the next question ask the database at once: called after every change of this process's own.</summary>
    public void Forget() => Interlocked.Increment(ref _generation);

    public void Dispose() => _refreshing.Dispose();

    private bool IsFresh(Held held) => held.Generation == Interlocked.Read(ref _generation) && time.GetElapsedTime(held.AskedAt) < Patience;

    private async Task<RangeSnapshot> RefreshAsync(RangeSnapshot? old, CancellationToken cancellation)
    {
        await using var db = database.Open();
        var counters = await db.Ranges.AsNoTracking().Select(r => new { r.Revision, r.JudgementRevision, r.Currency }).SingleAsync(cancellation);
        if (old is not null && old.Revision == counters.Revision) return old;

        // The counters were read first: what changes while the rows are read is read again next time.
        var keepJudgements = old is not null && old.JudgementRevision == counters.JudgementRevision;
        var versions = await db.Figures.AsNoTracking()
            .Where(f => f.Status == FigureStatus.Published && f.CurrentEditionId != null)
            .Select(f => new { f.Id, f.Version }).ToListAsync(cancellation);
        var known = keepJudgements ? old!.Figures.ToDictionary(f => f.Id) : [];
        var kept = versions.Where(v => known.TryGetValue(v.Id, out var f) && f.Version == v.Version).Select(v => known[v.Id]).ToList();
        var wanted = versions.Where(v => !known.TryGetValue(v.Id, out var f) || f.Version != v.Version).Select(v => v.Id).ToList();
        var processes = await db.Processes.AsNoTracking().Include(p => p.Limits).Include(p => p.Rates).AsSplitQuery().OrderBy(p => p.Position).ToListAsync(cancellation);
        var read = await IndexReading.ReadAsync(db, wanted, processes, cancellation);
        IndexedFigure[] figures = [.. kept.Concat(read).OrderBy(f => f.Title, StringComparer.OrdinalIgnoreCase).ThenBy(f => f.Slug, StringComparer.Ordinal)];
        return new(counters.Revision, counters.JudgementRevision, figures, figures.ToFrozenDictionary(f => f.Slug), processes) { Currency = counters.Currency };
    }

    /// <summary>A snapshot, when the database was asked for it, and after how many changes of our own.</summary>
    private sealed record Held(RangeSnapshot Snapshot, long AskedAt, long Generation);
}
