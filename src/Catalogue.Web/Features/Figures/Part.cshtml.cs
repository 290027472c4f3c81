using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Reports;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Figures;

/// <summary>A part: its measures, what every check found on every process, how it fits, its revisions and what others reported.</summary>
internal sealed class PartPageModel(CatalogueDb db, RangeSearch search, Visitor visitor) : PageModel
{
    public FigureAnswer Answer { get; private set; } = null!;
    public PartAnswer Part { get; private set; } = null!;
    public IReadOnlyList<Report> Reports { get; private set; } = [];

    public async Task OnGetAsync(string figure, string part, CancellationToken cancellation)
    {
        Answer = await FigureAnswer.LoadAsync(db, search, figure, visitor.Printer, cancellation, closely: part);
        Part = Answer.Parts.FirstOrDefault(p => p.Part.Slug == part)
            ?? throw new RuleBrokenException("not-found", $"“{Answer.Figure.Title}” has no published part “{part}”. Its page shows the parts there are.");
        Reports = [.. Answer.Details.Reports.Where(r => r.PartId == Part.Part.Id)];
    }

    /// <summary>“filament, revision 2” for a reported revision; null when it is not among those shown.</summary>
    public string? NameOf(Guid? revision)
    {
        foreach (var variant in Part.Variants)
        {
            if (Answer.Details.RevisionsOfVariant[variant.Variant.Id].FirstOrDefault(r => r.Id == revision) is { } found)
                return Part.Variants.Count == 1 ? $"revision {found.Number}" : $"{variant.Variant.Name}, revision {found.Number}";
        }

        return null;
    }

    /// <summary>“Part of Lamplighter; print two.”</summary>
    public string Lead
    {
        get
        {
            var role = Part.Part.Role switch
            {
                PartRole.Optional => "An accessory of",
                PartRole.ChoiceMember => $"One of the choice “{Part.Part.ChoiceName}” of",
                _ => "Part of",
            };
            return Part.Part.Quantity == 1 ? $"{role} {Answer.Figure.Title}." : $"{role} {Answer.Figure.Title}; print {Part.Part.Quantity}.";
        }
    }
}
