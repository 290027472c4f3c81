using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>The designers' list: every figure with its state and what stands in the way of publishing.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class DraftsPage(CatalogueDb db) : PageModel
{
    private const int PageSize = 20;

    public IReadOnlyList<DraftSummary> Items { get; private set; } = [];
    public int Total { get; private set; }
    public int Number { get; private set; }
    public FigureStatus? Status { get; private set; }
    public bool HasEarlier => Number > 1;
    public bool HasLater => Number * PageSize < Total;

    public string Address(int number) => $"drafts?page={number}{(Status is { } status ? "&status=" + Words.Of(status) : "")}";

    /// <param name="page">Read from the query alone: the address of every Razor page carries a value of this name too, the page’s own.</param>
    public async Task OnGetAsync(string? status, [FromQuery] int? page, CancellationToken cancellation)
    {
        Status = Words.TryParse<FigureStatus>(status, out var known) ? known : null;
        Number = Math.Clamp(page ?? 1, 1, 100_000);
        (Items, Total) = await db.ListDraftsAsync(Status, Number, PageSize, cancellation);
    }
}
