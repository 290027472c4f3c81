using System.Collections.Concurrent;
using System.Diagnostics;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>The verdicts of many figures on some processes, for one volume or any: at once from the index, and settled from profiles and hulls where that cannot tell.</summary>
/// <remarks>
/// Ten thousand figures of ten parts on one process take a few milliseconds. Of an arbitrary volume about one in a hundred stays open then, because one of their parts
/// is within a millimetre or two of the limit; each takes a few milliseconds more to settle, and is remembered (<see cref="FitAnswers"/>). One object, one request.
/// </remarks>
internal sealed class RangeSweep
{
    private const int MostOnStack = 256;

    /// <summary>From here on all cores look together.</summary>
    private const int WorthSharing = 2_000;

    private readonly int[] _processes;
    private readonly int[] _columns;
    private readonly BuildVolume? _volume;
    private readonly OutlineRoom _room;
    private readonly FitAnswers _fits;
    private readonly DatabaseChoice _database;
    private readonly VerdictSpan[] _spans;

    /// <param name="processes">By their places in the snapshot.</param>
    /// <param name="volume">Null = whatever the volume: then nothing is open.</param>
    /// <param name="besides">More of them, whose verdicts are told but never settled and never the best.</param>
    public RangeSweep(IReadOnlyList<IndexedFigure> figures, int[] processes, BuildVolume? volume, FitAnswers fits, DatabaseChoice database, int[]? besides = null)
    {
        (Figures, _processes, _columns, _volume, _fits, _database) = (figures, processes, [.. processes, .. besides ?? []], volume, fits, database);
        if (volume is { } room) _room = new(room);
        _spans = new VerdictSpan[figures.Count * _columns.Length];
        if (figures.Count < WorthSharing)
        {
            for (var f = 0; f < figures.Count; f++) Look(f);
            return;
        }

        Parallel.ForEach(Partitioner.Create(0, figures.Count), part =>
        {
            for (var f = part.Item1; f < part.Item2; f++) Look(f);
        });
    }

    public IReadOnlyList<IndexedFigure> Figures { get; }

    /// <summary>The verdict of a figure on one of the processes, counted from 0; those besides come after the others.</summary>
    public VerdictSpan On(int figure, int column) => _spans[(figure * _columns.Length) + column];

    /// <summary>The verdict on the process that serves a figure best.</summary>
    public VerdictSpan Best(int figure)
    {
        var (best, worst) = (Verdict.Unsuited, Verdict.Unsuited);
        foreach (var span in Row(figure)) (best, worst) = (Min(best, span.Best), Min(worst, span.Worst));
        return new(best, worst);
    }

    /// <summary>The first process with that best verdict, counted from 0.</summary>
    public int BestColumn(int figure)
    {
        var row = Row(figure);
        var best = 0;
        for (var c = 1; c < row.Length; c++)
            if (row[c].Worst < row[best].Worst) best = c;
        return best;
    }

    /// <summary>True when the verdicts on all processes are known.</summary>
    public bool IsSettled(int figure)
    {
        foreach (var span in Row(figure))
            if (!span.IsSettled) return false;
        return true;
    }

    /// <summary>Settles figures in the order given until the time is up; never stops within one. Those open after that stay open.</summary>
    /// <param name="onlyBest">Enough that the best verdict over all processes is known.</param>
    public async Task SettleAsync(IEnumerable<int> figures, TimeSpan patience, bool onlyBest, CancellationToken cancellation)
    {
        if (_volume is not { } volume) return;
        var start = Stopwatch.GetTimestamp();
        CatalogueDb? db = null;
        try
        {
            foreach (var figure in figures)
            {
                if (Settled(figure)) continue;
                if (Stopwatch.GetElapsedTime(start) >= patience) return;
                var sketch = Figures[figure].Sketch;
                for (var v = 0; v < sketch.Variants && !Settled(figure); v++)
                {
                    var inspection = sketch.InspectionOf(v);
                    if (!Matters(sketch, v) || sketch.Ask(v, _room) != OutlineFit.Unclear || _fits.Known(inspection, volume) is not null) continue;
                    await _fits.DecideAsync(db ??= _database.Open(), inspection, volume, cancellation);
                    Look(figure);
                }
            }
        }
        finally
        {
            if (db is not null) await db.DisposeAsync();
        }

        bool Settled(int figure) => onlyBest ? Best(figure).IsSettled : IsSettled(figure);
    }

    /// <summary>A file that is unsuited whatever the volume, or made for none of the processes, need not be measured against one.</summary>
    private bool Matters(FigureSketch sketch, int variant)
    {
        foreach (var process in _processes)
            if (sketch.VerdictOf(variant, process) is not (null or Verdict.Unsuited)) return true;
        return false;
    }

    /// <summary>False for a figure that no process serves whatever the volume: none of its parts need be held against one.</summary>
    private bool MayHold(FigureSketch sketch)
    {
        foreach (var process in _columns)
            if (sketch.AtAnySize(process) != Verdict.Unsuited) return true;
        return false;
    }

    private void Look(int figure)
    {
        var sketch = Figures[figure].Sketch;
        var row = _spans.AsSpan(figure * _columns.Length, _columns.Length);
        var count = _volume is null || !MayHold(sketch) ? 0 : sketch.Variants;
        Span<OutlineFit> fits = count <= MostOnStack ? stackalloc OutlineFit[MostOnStack] : new OutlineFit[count];
        fits = fits[..count];
        for (var v = 0; v < count; v++)
        {
            fits[v] = sketch.Ask(v, _room);
            if (fits[v] == OutlineFit.Unclear && _fits.Known(sketch.InspectionOf(v), _volume!.Value) is { } known)
                fits[v] = known ? OutlineFit.Fits : OutlineFit.TooLarge;
        }

        for (var c = 0; c < row.Length; c++) row[c] = sketch.AtAnySize(_columns[c]) == Verdict.Unsuited ? Never : sketch.On(_columns[c], fits);
    }

    private static readonly VerdictSpan Never = new(Verdict.Unsuited, Verdict.Unsuited);

    private ReadOnlySpan<VerdictSpan> Row(int figure) => _spans.AsSpan(figure * _columns.Length, _processes.Length);

    private static Verdict Min(Verdict one, Verdict other) => one < other ? one : other;
}
