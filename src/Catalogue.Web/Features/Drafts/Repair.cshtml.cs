using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Shows what a gentle repair of a revision would change, and makes exactly that the next revision once the designer accepts it.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class RepairPage(CatalogueDb db, RevisionRepair repair) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    [FromRoute]
    public string Part { get; set; } = "";

    [FromRoute]
    public string Variant { get; set; } = "";

    [FromRoute]
    public int Number { get; set; }

    [BindProperty]
    public string? Note { get; set; }

    /// <summary>The word of a <see cref="RepairFormat"/>.</summary>
    [BindProperty]
    public string? Format { get; set; }

    /// <summary>The newest revision's number when the page was shown.</summary>
    [BindProperty]
    public int Seen { get; set; }

    public Variant Whole { get; private set; } = null!;

    /// <summary>Null when there is nothing to accept; then <see cref="Refusal"/> says why.</summary>
    public RepairOffer? Offer { get; private set; }

    public string? Refusal { get; private set; }

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var format = Words.TryParse<RepairFormat>(Format, out var known) ? known : (RepairFormat?)null;
        Revision? revision = null;
        var done = await this.TryAsync(async () => revision = await repair.AcceptAsync(Target, Number, new(Seen, Note ?? "", format), cancellation));
        return done
            ? this.Done($"Revision {revision!.Number} is the repaired mesh. It is being inspected; readers see nothing of it until you publish.", $"/drafts/{Figure}/parts/{Part}")
            : await ShowAsync(cancellation);
    }

    private UploadTarget Target => new(Figure, Part, Variant);

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Whole = (await db.LoadForViewingAsync(Figure, cancellation)).VariantOf(Part, Variant);
        try
        {
            Offer = await repair.ProposeAsync(Target, Number, cancellation);
        }
        catch (RuleBrokenException refused) when (refused.Code != "not-found")
        {
            Refusal = refused.Said.ToString();
            Response.StatusCode = Problems.Of(refused).Status!.Value;
        }

        return Page();
    }
}
