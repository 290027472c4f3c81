using System.Runtime.InteropServices;
using Catalogue.Model.Figures;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>What each filter of a question says of each figure, a bit each: what is listed, counted and offered is read off the same bits.</summary>
internal sealed class RangeSelection
{
    private const byte All = 0b1111111;

    private readonly RangeSnapshot _snapshot;
    private readonly RangeQuery _query;
    private readonly RangeSweep? _sweep;
    private readonly int? _process;
    private readonly float[]? _hours;
    private readonly byte[] _passed;

    /// <param name="words">Null = the figures are those found by words already.</param>
    /// <param name="hours">How long each keeps the printer busy; null without a process.</param>
    /// <param name="sweep">Null without a printer: then there are no verdicts to filter by.</param>
    public RangeSelection(RangeSnapshot snapshot, RangeQuery query, IReadOnlyList<IndexedFigure> figures, RangeSweep? sweep, float[]? hours, WordSearch? words = null)
    {
        (_snapshot, _query, _sweep, _hours, Figures) = (snapshot, query, sweep, hours, figures);
        _process = query.Printer.Process is { } code ? snapshot.PlaceOf(code) : null;
        _passed = new byte[figures.Count];
        for (var f = 0; f < figures.Count; f++)
        {
            var figure = figures[f];
            _passed[f] = (byte)(Bit(RangeFilter.Words, words is null || words.Finds(f))
                | Bit(RangeFilter.Height, query.Heights.Count == 0 || Any(query.Heights, figure.HeightMm))
                | Bit(RangeFilter.Time, hours is null || query.Times.Count == 0 || Any(query.Times, hours[f]))
                | Bit(RangeFilter.Needs, query.Needs.Count == 0 || Any(query.Needs, figure.Needs))
                | Bit(RangeFilter.Licence, query.Licences.Count == 0 || query.Licences.Contains(figure.Licence))
                | Bit(RangeFilter.Tag, query.Tags.Count == 0 || query.Tags.Any(t => Array.IndexOf(figure.Tags, t) >= 0))
                | Bit(RangeFilter.Verdict, true));
        }

        LookAtVerdicts();
    }

    public IReadOnlyList<IndexedFigure> Figures { get; }

    /// <summary>Takes over what has been settled.</summary>
    public void LookAtVerdicts()
    {
        if (_sweep is null || _query.Verdicts.Count == 0) return;
        for (var f = 0; f < _passed.Length; f++)
        {
            var has = _sweep.Best(f) is { IsSettled: true } span && _query.Verdicts.Contains(span.Best);
            _passed[f] = (byte)((_passed[f] & ~Bit(RangeFilter.Verdict, true)) | Bit(RangeFilter.Verdict, has));
        }
    }

    /// <summary>Passes every filter.</summary>
    public bool IsListed(int figure) => _passed[figure] == All;

    /// <summary>Passes every filter but one, whatever that one says.</summary>
    public bool Passes(int figure, RangeFilter except) => (_passed[figure] | Bit(except, true)) == All;

    public IEnumerable<int> Listed => Enumerable.Range(0, _passed.Length).Where(IsListed);

    /// <summary>Per filter of the question, what it leaves by itself and what there is without it.</summary>
    public IReadOnlyList<FilterShare> Shares()
    {
        var shares = new List<FilterShare>();
        foreach (var filter in Enum.GetValues<RangeFilter>())
        {
            if (!IsAsked(filter)) continue;
            var (alone, without) = (0, 0);
            for (var f = 0; f < _passed.Length; f++)
            {
                if ((_passed[f] & Bit(filter, true)) != 0) alone++;
                if (Passes(f, filter)) without++;
            }

            shares.Add(new(filter, alone, without));
        }

        return shares;
    }

    private bool IsAsked(RangeFilter filter) => filter switch
    {
        RangeFilter.Words => !string.IsNullOrWhiteSpace(_query.Words),
        RangeFilter.Height => _query.Heights.Count > 0,
        RangeFilter.Time => _hours is not null && _query.Times.Count > 0,
        RangeFilter.Needs => _query.Needs.Count > 0,
        RangeFilter.Licence => _query.Licences.Count > 0,
        RangeFilter.Tag => _query.Tags.Count > 0,
        _ => _sweep is not null && _query.Verdicts.Count > 0,
    };

    /// <param name="firstProcess">The column of the sweep where the processes of the snapshot begin.</param>
    public RangeFacets Facets(int firstProcess)
    {
        List<HeightBand> bands = [.. HeightBand.Usual.Union(_query.Heights)];
        List<TimeBand> times = _hours is null ? [] : [.. TimeBand.Usual.Union(_query.Times)];
        List<HardwareKind?> kinds = [null, .. Enum.GetValues<HardwareKind>().Cast<HardwareKind?>()];
        var (heights, busy, needs, processes) = (new int[bands.Count], new int[times.Count], new int[kinds.Count], new int[_snapshot.Processes.Count]);
        var tags = _query.Tags.Distinct(StringComparer.Ordinal).ToDictionary(t => t, _ => 0, StringComparer.Ordinal);
        var licences = _query.Licences.Distinct(StringComparer.Ordinal).ToDictionary(l => l, _ => 0, StringComparer.Ordinal);
        for (var f = 0; f < _passed.Length; f++)
        {
            var figure = Figures[f];
            if (Passes(f, RangeFilter.Height))
            {
                for (var b = 0; b < heights.Length; b++)
                    if (bands[b].Holds(figure.HeightMm)) heights[b]++;
            }

            if (_hours is not null && Passes(f, RangeFilter.Time))
            {
                for (var t = 0; t < busy.Length; t++)
                    if (times[t].Holds(_hours[f])) busy[t]++;
            }

            if (Passes(f, RangeFilter.Needs))
            {
                for (var k = 0; k < needs.Length; k++)
                    if (figure.Needs.Has(kinds[k], _process)) needs[k]++;
            }

            if (Passes(f, RangeFilter.Licence)) CollectionsMarshal.GetValueRefOrAddDefault(licences, figure.Licence, out _)++;
            if (Passes(f, RangeFilter.Tag))
            {
                foreach (var tag in figure.Tags) CollectionsMarshal.GetValueRefOrAddDefault(tags, tag, out _)++;
            }

            if (!Passes(f, RangeFilter.Verdict)) continue;
            for (var p = 0; p < processes.Length; p++)
                if ((_sweep?.On(f, firstProcess + p).Worst ?? figure.Sketch.AtAnySize(p)) <= Verdict.Care) processes[p]++;
        }

        return new(
            [.. bands.Zip(heights, (b, n) => new FacetCount<HeightBand>(b, n)).Where(c => c.Figures > 0 || _query.Heights.Contains(c.Value)).OrderBy(c => c.Value.FromMm).ThenBy(c => c.Value.ToMm)],
            [.. times.Zip(busy, (t, n) => new FacetCount<TimeBand>(t, n)).Where(c => c.Figures > 0 || _query.Times.Contains(c.Value)).OrderBy(c => c.Value.FromHours).ThenBy(c => c.Value.ToHours)],
            [.. kinds.Zip(needs, (k, n) => new FacetCount<HardwareKind?>(k, n)).Where(c => c.Figures > 0 || _query.Needs.Contains(c.Value))],
            Ordered(licences),
            Ordered(tags),
            [.. _snapshot.Processes.Zip(processes, (p, n) => new FacetCount<string>(p.Code, n))]);
    }

    private static List<FacetCount<string>> Ordered(Dictionary<string, int> counts) =>
        [.. counts.Select(c => new FacetCount<string>(c.Key, c.Value)).OrderByDescending(c => c.Figures).ThenBy(c => c.Value, StringComparer.Ordinal)];

    private static bool Any(IReadOnlyList<HeightBand> bands, double heightMm)
    {
        foreach (var band in bands)
            if (band.Holds(heightMm)) return true;
        return false;
    }

    private static bool Any(IReadOnlyList<TimeBand> bands, double hours)
    {
        foreach (var band in bands)
            if (band.Holds(hours)) return true;
        return false;
    }

    private bool Any(IReadOnlyList<HardwareKind?> kinds, NeededHardware needs)
    {
        foreach (var kind in kinds)
            if (needs.Has(kind, _process)) return true;
        return false;
    }

    private static byte Bit(RangeFilter filter, bool set) => set ? (byte)(1 << (int)filter) : (byte)0;
}
