using Catalogue.Model.Figures;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>What each filter of a question says of each figure, a bit each: what is listed, counted and offered is read off the same bits.</summary>
internal sealed class RangeSelection
{
    private const byte All = 0b11111;

    private readonly RangeSnapshot _snapshot;
    private readonly RangeQuery _query;
    private readonly RangeSweep? _sweep;
    private readonly int? _process;
    private readonly byte[] _passed;

    /// <param name="words">Null = the figures are those found by words already.</param>
    /// <param name="sweep">Null without a printer: then there are no verdicts to filter by.</param>
    public RangeSelection(RangeSnapshot snapshot, RangeQuery query, IReadOnlyList<IndexedFigure> figures, RangeSweep? sweep, WordSearch? words = null)
    {
        (_snapshot, _query, _sweep, Figures) = (snapshot, query, sweep, figures);
        _process = query.Printer.Process is { } code ? snapshot.PlaceOf(code) : null;
        _passed = new byte[figures.Count];
        for (var f = 0; f < figures.Count; f++)
        {
            var figure = figures[f];
            _passed[f] = (byte)(Bit(RangeFilter.Words, words is null || words.Finds(f))
                | Bit(RangeFilter.Height, query.Heights.Count == 0 || Any(query.Heights, figure.HeightMm))
                | Bit(RangeFilter.Needs, query.Needs.Count == 0 || Any(query.Needs, figure.Needs))
                | Bit(RangeFilter.Licence, query.Licences.Count == 0 || query.Licences.Contains(figure.Licence))
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
        RangeFilter.Needs => _query.Needs.Count > 0,
        RangeFilter.Licence => _query.Licences.Count > 0,
        _ => _sweep is not null && _query.Verdicts.Count > 0,
    };

    /// <param name="firstProcess">The column of the sweep where the processes of the snapshot begin.</param>
    public RangeFacets Facets(int firstProcess)
    {
        List<HeightBand> bands = [.. HeightBand.Usual.Union(_query.Heights)];
        List<HardwareKind?> kinds = [null, .. Enum.GetValues<HardwareKind>().Cast<HardwareKind?>()];
        var (heights, needs, processes) = (new int[bands.Count], new int[kinds.Count], new int[_snapshot.Processes.Count]);
        var licences = _query.Licences.Distinct(StringComparer.Ordinal).ToDictionary(l => l, _ => 0, StringComparer.Ordinal);
        for (var f = 0; f < _passed.Length; f++)
        {
            var figure = Figures[f];
            if (Passes(f, RangeFilter.Height))
            {
                for (var b = 0; b < heights.Length; b++)
                    if (bands[b].Holds(figure.HeightMm)) heights[b]++;
            }

            if (Passes(f, RangeFilter.Needs))
            {
                for (var k = 0; k < needs.Length; k++)
                    if (figure.Needs.Has(kinds[k], _process)) needs[k]++;
            }

            if (Passes(f, RangeFilter.Licence)) licences[figure.Licence] = licences.GetValueOrDefault(figure.Licence) + 1;
            if (!Passes(f, RangeFilter.Verdict)) continue;
            for (var p = 0; p < processes.Length; p++)
                if ((_sweep?.On(f, firstProcess + p).Worst ?? figure.Sketch.AtAnySize(p)) <= Verdict.Care) processes[p]++;
        }

        return new(
            [.. bands.Zip(heights, (b, n) => new FacetCount<HeightBand>(b, n)).Where(c => c.Figures > 0 || _query.Heights.Contains(c.Value)).OrderBy(c => c.Value.FromMm).ThenBy(c => c.Value.ToMm)],
            [.. kinds.Zip(needs, (k, n) => new FacetCount<HardwareKind?>(k, n)).Where(c => c.Figures > 0 || _query.Needs.Contains(c.Value))],
            [.. licences.Select(l => new FacetCount<string>(l.Key, l.Value)).OrderByDescending(c => c.Figures).ThenBy(c => c.Value, StringComparer.Ordinal)],
            [.. _snapshot.Processes.Zip(processes, (p, n) => new FacetCount<string>(p.Code, n))]);
    }

    private static bool Any(IReadOnlyList<HeightBand> bands, double heightMm)
    {
        foreach (var band in bands)
            if (band.Holds(heightMm)) return true;
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
