using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Shows what publishing would change for readers, and publishes exactly that.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class PublishPage(CatalogueDb db, TimeProvider time) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    [BindProperty]
    public string? Note { get; set; }

    /// <summary>The figure's version when the page was shown.</summary>
    [BindProperty]
    public int Seen { get; set; }

    public DraftView Draft { get; private set; } = null!;

    /// <summary>True when there is something to publish and nothing in its way.</summary>
    public bool CanPublish => Draft.Obstacles.Count == 0 && Draft.Status != FigureStatus.Withdrawn && (Draft.Changes.Count > 0 || Draft.Status != FigureStatus.Published);

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        Edition? edition = null;
        var done = await this.TryAsync(async () => edition = await db.EditAsync(Figure, f => f.Publish(Note, time.GetUtcNow().UtcDateTime), cancellation, Seen));
        return done
            ? this.Done($"Edition {edition!.Number} is published. Readers see it from this moment on.", $"/drafts/{Figure}")
            : await ShowAsync(cancellation);
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Draft = await DraftView.OfAsync(await db.LoadForViewingAsync(Figure, cancellation), db, cancellation);
        return Page();
    }
}
