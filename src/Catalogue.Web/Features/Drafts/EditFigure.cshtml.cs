using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>The words and numbers of a new figure, or of one that is there.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class EditFigurePage(CatalogueDb db, TimeProvider time) : PageModel
{
    [BindProperty]
    public FigureForm Form { get; set; } = new();

    /// <summary>The words the form began with.</summary>
    [BindProperty]
    public string? Began { get; set; }

    [FromRoute]
    public string? Figure { get; set; }

    public Figure? Existing { get; private set; }

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        if (Figure is null) return;
        Existing = await db.LoadForViewingAsync(Figure, cancellation);
        Form = FigureForm.Of(Existing);
        Began = Form.Stamp();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var now = time.GetUtcNow().UtcDateTime;
        if (Figure is null)
        {
            Figure? made = null;
            if (await this.TryAsync(async () => made = await db.AddFigureAsync(Form.Words().Create(now), cancellation), FigureForm.Fields))
                return this.Done($"“{made!.Title}” is begun. Readers do not see it until you publish it. Add its parts next.", $"/drafts/{made.Slug}");
            return Page();
        }

        Form.Slug = Figure;
        var asked = ModelState.IsValid;
        var changed = await this.TryAsync(() => db.EditAsync(Figure, figure =>
        {
            if (Began != FigureForm.Of(figure).Stamp())
            {
                throw new RuleBrokenException("changed-meanwhile",
                    $"Somebody else changed these words since you opened this page. Theirs are kept; yours are below and not saved yet. Compare, then save again to put yours in their place.");
            }

            figure.Describe(Form.Words().Text(), now);
        }, cancellation), FigureForm.Fields);
        if (changed) return this.Done($"The words are changed. Readers of a published figure see them at once.", $"/drafts/{Figure}");
        Existing = await db.LoadForViewingAsync(Figure, cancellation);
        if (asked) Began = FigureForm.Of(Existing).Stamp(); // Whoever was told of another’s change may write over it next time.
        return Page();
    }
}
