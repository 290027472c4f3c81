using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Figures;

/// <summary>A figure: does it suit my printer, which files, which extra bits, what to watch; then the rest.</summary>
internal sealed class FigurePageModel(CatalogueDb db, RangeSearch search, Visitor visitor) : PageModel
{
    public FigureAnswer Answer { get; private set; } = null!;

    public async Task OnGetAsync(string figure, CancellationToken cancellation) =>
        Answer = await FigureAnswer.LoadAsync(db, search, figure, visitor.Printer, cancellation, also: visitor.Also);

    /// <summary>What is said of a member of a choice beside its name.</summary>
    public string LabelOf(PartAnswer part, PartAnswer best) => (part == best && Answer.Asked is not null, part.Part.IsDefaultMember) switch
    {
        (true, true) => T($"best for you, and the usual one"),
        (true, false) => T($"best for you"),
        (false, true) => T($"the usual one"),
        _ => "",
    };
}
