using System.ComponentModel.DataAnnotations;
using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Name, quantity and role of a new part, or of one that is there.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class EditPartPage(CatalogueDb db, TimeProvider time) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new()
    {
        ["slug-invalid"] = "Form.Slug",
        ["part-exists"] = "Form.Slug",
        ["quantity-invalid"] = "Form.Quantity",
    };

    [BindProperty]
    public PartForm Form { get; set; } = new();

    [FromRoute]
    public string Figure { get; set; } = "";

    [FromRoute]
    public string? Part { get; set; }

    public Figure Whole { get; private set; } = null!;
    public Part? Existing { get; private set; }

    public IEnumerable<SelectListItem> Roles =>
    [
        new(T($"required: the figure is not complete without it"), Words.Of(PartRole.Required)),
        new(T($"optional: an accessory"), Words.Of(PartRole.Optional)),
        .. Whole.Choices.OrderBy(c => c.Name).Select(c => new SelectListItem(T($"one member of the choice “{c.Name}”"), PartForm.ChoicePrefix + c.Slug)),
    ];

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        if (Existing is not null) Form = PartForm.Of(Existing);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var now = time.GetUtcNow().UtcDateTime;
        Part? part = null;
        var done = await this.TryAsync(async () => part = await db.EditAsync(Figure, f =>
            Part is null ? Form.Words().AddTo(f, now) : Form.Words().ApplyTo(f.PartOf(Part), now), cancellation), Fields);
        if (done && Part is null) return this.Done($"“{part!.Name}” is added. Say next what shape it has and for which processes.", $"/edit-variant/{Figure}/{part.Slug}");
        if (done) return this.Done($"The part is changed.", $"/drafts/{Figure}/parts/{Part}");
        await LoadAsync(cancellation);
        return Page();
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Whole = await db.LoadForViewingAsync(Figure, cancellation);
        Existing = Part is null ? null : Whole.PartOf(Part);
    }
}

internal sealed class PartForm
{
    public const string ChoicePrefix = "choice:";

    [Required(ErrorMessage = "A part needs a name.")]
    [StringLength(120, ErrorMessage = "A name has at most 120 characters.")]
    public string? Name { get; set; }

    [StringLength(60, ErrorMessage = "An address has at most 60 characters.")]
    public string? Slug { get; set; }

    [Required(ErrorMessage = "How many of it does one figure need?")]
    [Range(1, 1000, ErrorMessage = "A part is printed between 1 and 1000 times for one figure.")]
    public int? Quantity { get; set; } = 1;

    public string? Role { get; set; } = "required";

    [StringLength(2_000, ErrorMessage = "A note has at most 2 000 characters.")]
    public string? Note { get; set; }

    public static PartForm Of(Part part) => new()
    {
        Name = part.Name,
        Quantity = part.Quantity,
        Role = part.Choice is { } choice ? ChoicePrefix + choice.Slug : Model.Words.Of(part.Role),
        Note = part.Note,
    };

    public PartWords Words() => Role?.StartsWith(ChoicePrefix, StringComparison.Ordinal) == true
        ? new(Slug, Name, Quantity, PartRole.ChoiceMember, Role[ChoicePrefix.Length..], Note)
        : new(Slug, Name, Quantity, Model.Words.TryParse<PartRole>(Role, out var role) ? role : null, null, Note);
}
