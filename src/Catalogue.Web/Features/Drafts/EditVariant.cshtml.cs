using System.ComponentModel.DataAnnotations;
using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Name and processes of a new variant, or of one that is there.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class EditVariantPage(CatalogueDb db, TimeProvider time) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new()
    {
        ["slug-invalid"] = "Form.Slug",
        ["variant-exists"] = "Form.Slug",
    };

    [BindProperty]
    public VariantForm Form { get; set; } = new();

    [FromRoute]
    public string Figure { get; set; } = "";

    [FromRoute]
    public string Part { get; set; } = "";

    [FromRoute]
    public string? Variant { get; set; }

    public Part Whole { get; private set; } = null!;
    public Variant? Existing { get; private set; }
    public IReadOnlyList<Process> Processes { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        if (Existing is not null) Form = VariantForm.Of(Existing);
        else if (Whole.Variants.Count == 0) Form.Name = T($"Standard");
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var now = time.GetUtcNow().UtcDateTime;
        Variant? variant = null;
        var done = await this.TryAsync(async () => variant = await db.EditAsync(Figure, f =>
            Variant is null ? Form.Words().AddTo(f.PartOf(Part), now) : Form.Words().ApplyTo(f.VariantOf(Part, Variant), now), cancellation), Fields);
        if (done && Variant is null) return this.Done($"The variant is added. Now its mesh.", $"/upload/{Figure}/{Part}/{variant!.Slug}");
        if (done) return this.Done($"The variant is changed.", $"/drafts/{Figure}/parts/{Part}");
        await LoadAsync(cancellation);
        return Page();
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Processes = await db.Processes.AsNoTracking().OrderBy(p => p.Position).ToListAsync(cancellation);
        Whole = (await db.LoadForViewingAsync(Figure, cancellation)).PartOf(Part);
        Existing = Variant is null ? null : Whole.Figure.VariantOf(Part, Variant);
    }
}

internal sealed class VariantForm
{
    [Required(ErrorMessage = "A variant needs a name.")]
    [StringLength(120, ErrorMessage = "A name has at most 120 characters.")]
    public string? Name { get; set; }

    [StringLength(60, ErrorMessage = "An address has at most 60 characters.")]
    public string? Slug { get; set; }

    public List<string> Processes { get; set; } = [];

    /// <summary>By process: what to watch.</summary>
    public Dictionary<string, string?> Reservations { get; set; } = [];

    [StringLength(2_000, ErrorMessage = "A note has at most 2 000 characters.")]
    public string? Note { get; set; }

    public static VariantForm Of(Variant variant) => new()
    {
        Name = variant.Name,
        Processes = [.. variant.Declarations.Select(d => d.Process)],
        Reservations = variant.Declarations.ToDictionary(d => d.Process, d => (string?)d.Reservation),
        Note = variant.Note,
    };

    public VariantWords Words() => new(Slug, Name, Processes,
        Reservations.Where(r => Processes.Contains(r.Key) && !string.IsNullOrWhiteSpace(r.Value)).ToDictionary(r => r.Key, r => r.Value), Note);
}
