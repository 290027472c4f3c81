using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Uploads a mesh as the next revision of a variant. The file streams to the store; only the words around it are held.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
[IgnoreAntiforgeryToken] // Checked by hand, before the file is taken.
[StreamedForm]
internal sealed class UploadPage(CatalogueDb db, MeshUpload upload, FormToken token, IOptions<CatalogueOptions> options) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    [FromRoute]
    public string Part { get; set; } = "";

    [FromRoute]
    public string Variant { get; set; } = "";

    public Variant Whole { get; private set; } = null!;
    public string? Unit { get; private set; }
    public string? Note { get; private set; }
    public long MaxBytes => options.Value.MaxUploadBytes;

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var target = new UploadTarget(Figure, Part, Variant);
        try
        {
            await upload.CheckAsync(target, cancellation);
            var form = await FileForm<StoredBlob>.ReadAsync(Request, upload.KeepAsync, BeforeFileAsync, cancellation);
            var revision = await upload.AddAsync(target, new(form.FileName, UnitWords.Parse(form.Field("unit")), form.Field("note")), form.File, cancellation);
            return this.Done($"Revision {revision.Number} is safe here. It is being inspected; you can leave this page.", $"/drafts/{Figure}/parts/{Part}");
        }
        catch (Exception exception) when (Problems.Of(exception) is { Status: (< 500 and not 404) or 507 } problem)
        {
            ModelState.AddModelError("", problem.Detail!);
            Response.StatusCode = problem.Status.Value;
            return await ShowAsync(cancellation);
        }
    }

    private async Task BeforeFileAsync(FileForm<StoredBlob> form)
    {
        (Unit, Note) = (form.Field("unit"), form.Field("note"));
        await token.CheckAsync(HttpContext, form.Field(token.FieldName));
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Whole = (await db.LoadForViewingAsync(Figure, cancellation)).VariantOf(Part, Variant);
        return Page();
    }
}
