using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Ranges;

/// <summary>The shelf: every published figure, and whether it suits the visitor's printer.</summary>
internal sealed class RangePageModel(RangeSearch search, CatalogueDb db, Masthead masthead, Visitor visitor) : PageModel
{
    public RangeFilters Filters { get; private set; } = null!;
    public RangePage Found { get; private set; } = null!;
    public IReadOnlyList<RangeCard> Cards { get; private set; } = [];
    public Model.Ranges.RangePromise Range { get; private set; } = null!;
    public RangeSnapshot Snapshot { get; private set; } = null!;

    /// <summary>Files that wait for their checks, of figures not on the shelf yet or of their next revisions.</summary>
    public int Waiting { get; private set; }

    /// <summary>Files that have been checked.</summary>
    public int Checked { get; private set; }

    /// <summary>The top of the ruler beside the figures, in mm.</summary>
    public double RulerMm { get; private set; }

    /// <summary>What would be found without one of the filters, for when nothing is.</summary>
    public IReadOnlyList<(string Drop, RangeFilters Filters, int Total)> Relaxed { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        Filters = RangeFilters.Read(Request.Query);
        Range = await masthead.RangeAsync();
        Snapshot = await search.SnapshotAsync(cancellation);
        Snapshot.CheckKnown(visitor.Printer);
        Found = await search.FindAsync(Filters.For(visitor.Printer), cancellation);
        Waiting = await db.Inspections.CountAsync(i => i.State == InspectionState.Queued || i.State == InspectionState.Running, cancellation);
        if (Waiting > 0) Checked = await db.Inspections.CountAsync(i => i.State == InspectionState.Done, cancellation);
        RulerMm = Math.Ceiling(Math.Max(100, Found.Items.Select(i => i.Figure.HeightMm).DefaultIfEmpty(0).Max()) / 20) * 20;
        Cards = await CardsAsync(cancellation);
        if (Found.Total == 0 && Snapshot.Figures.Count > 0) Relaxed = await RelaxAsync(cancellation);
    }

    private async Task<IReadOnlyList<RangeCard>> CardsAsync(CancellationToken cancellation)
    {
        if (visitor.Printer.IsUnknown) return [.. Found.Items.Select(i => new RangeCard(i, "", SuitedOn(i.Figure)))];
        IReadOnlyList<IndexedFigure> unsuited = visitor is { Printer.Process: not null, Also.Count: > 0 }
            ? [.. Found.Items.Where(i => i.Verdict is { Verdict: Verdict.Unsuited }).Select(i => i.Figure)]
            : [];
        var mixed = unsuited.Zip(await search.MixedAsync(Snapshot, unsuited, [visitor.Printer, .. visitor.Also], cancellation)).ToDictionary(m => m.First.Id, m => m.Second);
        return
        [
            .. Found.Items.Select(item => new RangeCard(item, VerdictSentence.Of(item.Verdict!, visitor.Printer.Volume is not null), [])
            {
                Instead = mixed.GetValueOrDefault(item.Figure.Id) is { } build ? [.. build.Build.Printers.Select(p => Snapshot.Process(build.Printers[p].Process!)!.SpokenName)] : [],
            }),
        ];
    }

    private List<(string Process, Verdict Verdict)> SuitedOn(IndexedFigure figure) =>
        [.. Snapshot.Processes.Zip(RangeSearch.OnEvery(Snapshot, figure)).Where(p => p.Second != Verdict.Unsuited).Select(p => (p.First.SpokenName, p.Second))];

    private async Task<IReadOnlyList<(string, RangeFilters, int)>> RelaxAsync(CancellationToken cancellation)
    {
        var relaxed = new List<(string, RangeFilters, int)>();
        async Task TryAsync(string drop, RangeFilters filters)
        {
            var found = await search.FindAsync(filters.For(visitor.Printer) with { Page = 1, Size = 1 }, cancellation);
            if (found.Total > 0) relaxed.Add((drop, filters, found.Total));
        }

        if (Filters.Verdicts.Count > 0) await TryAsync("Show every verdict", Filters with { Verdicts = new HashSet<Verdict>(), Page = 1 });
        if (Filters.Words.Length > 0) await TryAsync($"Leave out “{Filters.Words}”", Filters with { Words = "", Page = 1 });
        if (relaxed.Count == 0) await TryAsync("Show the whole range", new RangeFilters());
        return relaxed;
    }
}

/// <summary>A figure on the shelf.</summary>
/// <param name="Sentence">Why the verdict is what it is; empty without a printer.</param>
/// <param name="Suited">Without a printer: the processes it can be printed on.</param>
internal sealed record RangeCard(RangeItem Item, string Sentence, IReadOnlyList<(string Process, Verdict Verdict)> Suited)
{
    /// <summary>The visitor's processes that it can be built from although it does not suit the first one alone; empty when it cannot.</summary>
    public IReadOnlyList<string> Instead { get; init; } = [];
}
