using Catalogue.Data.Storage;
using Catalogue.Model.Figures;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>
/// The published range in memory, so that any question about any printer is answered without touching meshes. Follows the
/// database by its counters: figures that changed or were judged anew are read again, and all of them when processes or limits have changed.
/// </summary>
/// <remarks>
/// Asks the database for the counters at most every <see cref="Patience"/>, so that every instance follows a publish made by any other
/// within that time and one request. Reading is one query per table for the figures that changed, at one moment of the database, so that no figure is ever
/// seen half old and half new. A figure of ten parts holds some 13 kB. Thread-safe.
/// </remarks>
public sealed class RangeIndex(DatabaseChoice database, TimeProvider time)
{
    public static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(200);

    /// <summary>Who has a range already is not kept waiting for a newer one longer than this: after a change of limits all figures may have to be read.</summary>
    public static readonly TimeSpan MostWaiting = TimeSpan.FromSeconds(1);

    /// <summary>While only a few figures are read, it is for a machine that is busy with something else: whoever changed one of them has to see it.</summary>
    public static readonly TimeSpan MostWaitingForFew = TimeSpan.FromSeconds(15);

    private const int Few = 200;

    private readonly Lock _starting = new();
    private Task _refreshing = Task.CompletedTask;
    private volatile Held? _held;
    private volatile bool _readsMuch;
    private long _generation;

    /// <summary>True when the range has been read: questions are answered at once from then on.</summary>
    public bool IsThere => _held is not null;

    /// <summary>The range as it is now, at most <see cref="Patience"/> late; while much is being read, as it was before.</summary>
    public async ValueTask<RangeSnapshot> CurrentAsync(CancellationToken cancellation)
    {
        if (_held is { } fresh && IsFresh(fresh)) return fresh.Snapshot;
        var asked = time.GetTimestamp();
        while (true)
        {
            var refresh = Refreshing();
            while (_held is { } old && !refresh.IsCompleted)
            {
                if (time.GetElapsedTime(asked) >= (_readsMuch ? MostWaiting : MostWaitingForFew)) return old.Snapshot;
                await Task.WhenAny(refresh, Task.Delay(Patience, time, cancellation));
                cancellation.ThrowIfCancellationRequested();
            }

            // One that was begun before the question may have missed what was changed just before it.
            await refresh.WaitAsync(cancellation);
            if (_held is { } renewed && (IsFresh(renewed) || renewed.AskedAt >= asked)) return renewed.Snapshot;
        }
    }

    /// <summary>The reading that is going on, or a new one: for all who ask.</summary>
    private Task Refreshing()
    {
        lock (_starting)
        {
            if (_refreshing.IsCompleted && !(_held is { } held && IsFresh(held))) _refreshing = Task.Run(RenewAsync);
            return _refreshing;
        }
    }

    private async Task RenewAsync()
    {
        // Both are read before the database is asked: what changes meanwhile makes this answer old at once.
        var (generation, asked) = (Interlocked.Read(ref _generation), time.GetTimestamp());
        var snapshot = await RefreshAsync(_held?.Snapshot, CancellationToken.None);
        _held = new(snapshot, asked, generation);
    }

    /// <summary>Makes the next question ask the database at once: called after every change of this process's own.</summary>
    public void Forget() => Interlocked.Increment(ref _generation);

    private bool IsFresh(Held held) => held.Generation == Interlocked.Read(ref _generation) && time.GetElapsedTime(held.AskedAt) < Patience;

    /// <summary>Reads the counters, then what they say has changed, all of one moment.</summary>
    private async Task<RangeSnapshot> RefreshAsync(RangeSnapshot? old, CancellationToken cancellation)
    {
        _readsMuch = false;
        await using var db = database.Open();
        if (old is not null && await db.Ranges.AsNoTracking().Select(r => r.Revision).SingleAsync(cancellation) == old.Revision) return old;
        await using var moment = await database.BeginReadingAsync(db, cancellation);
        var counters = await db.Ranges.AsNoTracking().Select(r => new { r.Revision, r.JudgementRevision, r.Currency }).SingleAsync(cancellation);
        var versions = await db.Figures.AsNoTracking()
            .Where(f => f.Status == FigureStatus.Published && f.CurrentEditionId != null)
            .Select(f => new { f.Id, f.Version, f.Judgements }).ToDictionaryAsync(f => f.Id, f => (f.Version, f.Judgements), cancellation);

        // With other limits joints are judged anew, and with other processes every figure.
        var others = old?.JudgementRevision != counters.JudgementRevision;
        var processes = await db.Processes.AsNoTracking().Include(p => p.Limits).Include(p => p.Rates).AsSplitQuery().OrderBy(p => p.Position).ToListAsync(cancellation);
        if (old is not null && !old.Processes.Select(p => p.Code).SequenceEqual(processes.Select(p => p.Code))) old = null;
        var kept = (old?.Figures ?? []).Where(f => versions.TryGetValue(f.Id, out var fresh) && f.Freshness == fresh).ToList();
        if (others) kept = kept.ConvertAll(f => f.JudgedBy(processes));
        foreach (var figure in kept) versions.Remove(figure.Id);
        _readsMuch = versions.Count + (others ? kept.Count : 0) > Few;
        var vocabulary = old?.Vocabulary ?? new Vocabulary();
        var read = await new IndexReading(db, vocabulary, processes).ReadAsync([.. versions.Keys], cancellation);
        var figures = Merged(kept, read);
        return new(counters.Revision, counters.JudgementRevision, figures, figures.ToDictionary(f => f.Slug, StringComparer.Ordinal), processes) { Vocabulary = vocabulary, Currency = counters.Currency };
    }

    /// <summary>Both together by title. Those kept are in order already, so that a few new ones cost no sorting of all.</summary>
    private static IndexedFigure[] Merged(List<IndexedFigure> kept, List<IndexedFigure> read)
    {
        read.Sort(ByTitle);
        var merged = new IndexedFigure[kept.Count + read.Count];
        for (int k = 0, r = 0, at = 0; at < merged.Length; at++)
            merged[at] = r == read.Count || (k < kept.Count && ByTitle(kept[k], read[r]) <= 0) ? kept[k++] : read[r++];
        return merged;
    }

    private static int ByTitle(IndexedFigure one, IndexedFigure other) =>
        StringComparer.OrdinalIgnoreCase.Compare(one.Title, other.Title) is not 0 and var order ? order : StringComparer.Ordinal.Compare(one.Slug, other.Slug);

    /// <summary>A snapshot, when the database was asked for it, and after how many changes of our own.</summary>
    private sealed record Held(RangeSnapshot Snapshot, long AskedAt, long Generation);
}
