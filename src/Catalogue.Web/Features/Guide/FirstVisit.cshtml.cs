using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Guide;

/// <summary>The first visit, for each of those who come: who wants to print, who designs, who wants to say what broke. Each step says what is done already and shows it on this very range.</summary>
internal sealed class FirstVisitPage(RangeSearch search, CatalogueDb db, Visitor visitor) : PageModel
{
    public RangeSnapshot Snapshot { get; private set; } = null!;

    /// <summary>How many figures come to each verdict on the visitor's printer; null = no printer is known.</summary>
    public IReadOnlyDictionary<Verdict, int>? Counts { get; private set; }

    /// <summary>A figure to look at first: what suits the visitor's printer best, else the first of the shelf.</summary>
    public IndexedFigure? Example { get; private set; }

    /// <summary>A part of it, to see what the checks say of one and where to report.</summary>
    public IndexedPart? ExamplePart { get; private set; }

    public bool IsDesigner { get; private set; }
    public int Drafts { get; private set; }
    public int Files { get; private set; }
    public int Published { get; private set; }

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        Snapshot = await search.SnapshotAsync(cancellation);
        Snapshot.CheckKnown(visitor.Printer);
        var found = await search.FindAsync(new() { Printer = visitor.Printer, Order = visitor.Printer.IsUnknown ? RangeOrder.Title : RangeOrder.Verdict, Size = 1 }, cancellation);
        if (!visitor.Printer.IsUnknown) Counts = found.Counts;
        Example = found.Items.Select(i => i.Figure).FirstOrDefault();
        ExamplePart = Example?.Parts.FirstOrDefault(p => p.Variants.Count > 0);
        IsDesigner = User.Identity?.IsAuthenticated is true;
        if (!IsDesigner) return;
        Drafts = await db.Figures.CountAsync(cancellation);
        Files = await db.Inspections.CountAsync(i => i.State == InspectionState.Done, cancellation);
        Published = Snapshot.Figures.Count;
    }
}
