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
        var cards = new List<RangeCard>(Found.Items.Count);
        foreach (var item in Found.Items) cards.Add(await CardOfAsync(item, cancellation));
        Cards = cards;
        if (Found.Total == 0 && Snapshot.Figures.Count > 0) Relaxed = await RelaxAsync(cancellation);
    }

    private async Task<RangeCard> CardOfAsync(RangeItem item, CancellationToken cancellation)
    {
        if (item.Verdict is not null)
        {
            var mixed = item.Verdict.Verdict == Verdict.Unsuited && visitor is { Printer.Process: not null, Also.Count: > 0 }
                ? await MixedAnswer.OfAsync(search, Snapshot, item.Figure, [visitor.Printer, .. visitor.Also], cancellation)
                : null;
            return new(item, VerdictSentence.Of(item.Verdict, visitor.Printer.Volume is not null), [])
            {
                Instead = mixed is null ? [] : [.. mixed.Build.Printers.Select(p => Snapshot.Process(mixed.Printers[p].Process!)!.SpokenName)],
            };
        }


        var suited = new List<(string Process, Verdict Verdict)>();
        foreach (var process in Snapshot.Processes)
        {
            var verdict = await search.JudgeAsync(Snapshot, item.Figure, process.Code, null, cancellation);
            if (verdict.Verdict != Verdict.Unsuited) suited.Add((process.SpokenName, verdict.Verdict));
        }

        return new(item, "", suited);
    }

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
