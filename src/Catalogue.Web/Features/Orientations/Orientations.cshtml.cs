using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Catalogue.Web.Features.Orientations;

/// <summary>A handful of ways to lay one part down on the visitor's printer, each with its numbers and a picture.</summary>
[EnableRateLimiting(RateLimits.Orientations)]
internal sealed class OrientationsPage(CatalogueDb db, RangeSearch search, OrientationDesk desk, Visitor visitor) : PageModel
{
    public FigureAnswer Answer { get; private set; } = null!;
    public PartAnswer Part { get; private set; } = null!;

    /// <summary>Null while the visitor has not said what they print with.</summary>
    public LaidPart? Laid { get; private set; }

    /// <summary>Null when it is not clear what is inside the mesh.</summary>
    public OrientationsReport? Report { get; private set; }

    public async Task OnGetAsync(string figure, string part, string? variant, CancellationToken cancellation)
    {
        Answer = await FigureAnswer.LoadAsync(db, search, figure, visitor.Printer, cancellation);
        Part = Answer.Parts.FirstOrDefault(p => p.Part.Slug == part)
            ?? throw new RuleBrokenException("not-found", $"“{Answer.Figure.Title}” has no published part “{part}”. Its page shows the parts there are.");
        if (Answer.Asked is null || visitor.Printer.Volume is null) return;
        Laid = LaidPart.Of(Answer, Part, variant, visitor.Printer);
        Report = await desk.AdviceAsync(Laid.Question, cancellation);
    }
}
