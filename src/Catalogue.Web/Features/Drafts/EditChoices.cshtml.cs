using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>The choices of a figure: sets of parts of which exactly one is built.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class EditChoicesPage(CatalogueDb db, TimeProvider time) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new()
    {
        ["slug-invalid"] = nameof(Name),
        ["choice-exists"] = nameof(Name),
        ["text-missing"] = nameof(Name),
        ["text-too-long"] = nameof(Name),
    };

    [FromRoute]
    public string Figure { get; set; } = "";

    [BindProperty]
    public string? Name { get; set; }

    public Figure Whole { get; private set; } = null!;

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostAddAsync(CancellationToken cancellation) =>
        await this.TryAsync(() => db.EditAsync(Figure, f => f.AddChoice(Slug.GivenOrFrom(null, Name), Name ?? "", time.GetUtcNow().UtcDateTime), cancellation), Fields)
            ? this.Done($"The choice is made. Now let parts join it: each part's role says which choice it is a member of.", $"/edit-choices/{Figure}")
            : await ShowAsync(cancellation);

    public async Task<IActionResult> OnPostDefaultAsync(string choice, string? part, CancellationToken cancellation) =>
        await this.TryAsync(() => db.EditAsync(Figure, f => f.ChoiceOf(choice).MakeDefault(f.PartOf(part), time.GetUtcNow().UtcDateTime), cancellation))
            ? this.Done($"The member that is built by default is changed.", $"/edit-choices/{Figure}")
            : await ShowAsync(cancellation);

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Whole = await db.LoadForViewingAsync(Figure, cancellation);
        return Page();
    }
}
