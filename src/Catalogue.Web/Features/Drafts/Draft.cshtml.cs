using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>A figure's workbench: what there is of it, how the inspections stand, what stands in the way.</summary>
/// <remarks>Nothing is typed here, so that the page may load itself again while something is being inspected.</remarks>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class DraftPage(CatalogueDb db, TimeProvider time) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    public DraftView Draft { get; private set; } = null!;

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostWithdrawAsync(CancellationToken cancellation) =>
        await this.TryAsync(() => db.EditAsync(Figure, f => f.Withdraw(time.GetUtcNow().UtcDateTime), cancellation))
            ? this.Done($"The figure is withdrawn: readers no longer see it. Nothing of it is deleted.", $"/drafts/{Figure}")
            : await ShowAsync(cancellation);

    public async Task<IActionResult> OnPostReinstateAsync(CancellationToken cancellation) =>
        await this.TryAsync(() => db.EditAsync(Figure, f => f.Reinstate(time.GetUtcNow().UtcDateTime), cancellation))
            ? this.Done($"The figure is back, as it was before it was withdrawn.", $"/drafts/{Figure}")
            : await ShowAsync(cancellation);

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Draft = await DraftView.OfAsync(await db.LoadForViewingAsync(Figure, cancellation), db, cancellation);
        return Page();
    }
}
