using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.WebUtilities;
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

    /// <summary>What is filtered by.</summary>
    public IReadOnlyList<FilterChip> Chips => FilterWords.Chips(Filters, verdicts: !visitor.Printer.IsUnknown, times: visitor.Printer.Process is not null, visitor.Lengths);

    /// <summary>What each filter does, for when nothing is found.</summary>
    public IReadOnlyList<FilterEffect> Effects { get; private set; } = [];

    /// <summary>What the link says of the printer besides its process and volume, which have fields.</summary>
    public IEnumerable<(string Name, string Value)> PrinterDetails => QueryHelpers.ParseQuery(Visitor.WithAlso(visitor.Printer, visitor.Also))
        .Where(p => p.Key is not ("process" or "volume" or "round")).SelectMany(p => p.Value.Select(v => (p.Key, v ?? "")));

    public static IReadOnlyList<RangeOrder> Orders { get; } = [RangeOrder.Verdict, RangeOrder.Title, RangeOrder.Newest, RangeOrder.Height, RangeOrder.Time];

    /// <summary>How many of the figures found suit, with or without care, on a process.</summary>
    public int Suiting(string process) => Found.Facets.Processes.First(p => p.Value == process).Figures;

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
        if (Found.Total == 0 && Snapshot.Figures.Count > 0)
        {
            Effects = [.. (await search.SharesAsync(Filters.For(visitor.Printer), cancellation))
                .Select(s => new FilterEffect(FilterWords.Of(s.Filter, Filters, visitor.Lengths), s, Filters.Without(s.Filter)))];
        }
    }

    private async Task<IReadOnlyList<RangeCard>> CardsAsync(CancellationToken cancellation)
    {
        if (visitor.Printer.IsUnknown) return [.. Found.Items.Select(i => new RangeCard(i, Sentence.Empty, SuitedOn(i.Figure)))];
        IReadOnlyList<IndexedFigure> unsuited = visitor is { Printer.Process: not null, Also.Count: > 0 }
            ? [.. Found.Items.Where(i => i.Verdict is { Verdict: Verdict.Unsuited }).Select(i => i.Figure)]
            : [];
        var mixed = unsuited.Zip(await search.MixedAsync(Snapshot, unsuited, [visitor.Printer, .. visitor.Also], cancellation)).ToDictionary(m => m.First.Id, m => m.Second);
        return
        [
            .. Found.Items.Select(item => new RangeCard(item, VerdictSentence.Of(item.Verdict!, visitor.Printer.Volume is not null), [])
            {
                Instead = mixed.GetValueOrDefault(item.Figure.Id) is { } build ? [.. build.Build.Printers.Select(p => Snapshot.SpokenOf(build.Printers[p].Process!))] : [],
            }),
        ];
    }

    private List<(string Process, Verdict Verdict)> SuitedOn(IndexedFigure figure) =>
        [.. Snapshot.Processes.Zip(RangeSearch.OnEvery(Snapshot, figure)).Where(p => p.Second != Verdict.Unsuited).Select(p => (p.First.Spoken(), p.Second))];
}

/// <summary>A figure on the shelf.</summary>
/// <param name="Why">Why the verdict is what it is; empty without a printer.</param>
/// <param name="Suited">Without a printer: the processes it can be printed on.</param>
internal sealed record RangeCard(RangeItem Item, Sentence Why, IReadOnlyList<(string Process, Verdict Verdict)> Suited)
{
    /// <summary>The visitor's processes that it can be built from although it does not suit the first one alone; empty when it cannot.</summary>
    public IReadOnlyList<string> Instead { get; init; } = [];
}
