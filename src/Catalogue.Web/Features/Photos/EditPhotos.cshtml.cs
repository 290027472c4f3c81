using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Photos;

/// <summary>The photos of a figure: added, told what they show, put in front, taken away.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
[IgnoreAntiforgeryToken] // Checked by hand, before the file is taken.
[StreamedForm]
internal sealed class EditPhotosPage(CatalogueDb db, PhotoDesk desk, FormToken token, TimeProvider time) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    public Figure Whole { get; private set; } = null!;
    public string? Shows { get; private set; }

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        try
        {
            await PhotoApi.CheckAsync(db, Figure, cancellation);
            var form = await FileForm<(StoredBlob Blob, int Width, int Height)>.ReadAsync(Request, desk.KeepAsync, BeforeFileAsync, cancellation);
            await db.EditAsync(Figure, f => f.AddPhoto(form.File.Blob.Sha256, form.File.Width, form.File.Height, form.Field("words"), Now), cancellation);
            return this.Done($"The photo is there.", $"/edit-photos/{Figure}");
        }
        catch (Exception exception) when (Problems.Of(exception) is { Status: (< 500 and not 404) or 507 } problem)
        {
            return await RefusedAsync(problem, cancellation);
        }
    }

    public Task<IActionResult> OnPostDescribeAsync(Guid photo, CancellationToken cancellation) =>
        ChangeAsync(form => f => f.DescribePhoto(f.PhotoOf(photo), form["words"], Now), $"What the photo shows is changed.", cancellation);

    public Task<IActionResult> OnPostFirstAsync(Guid photo, CancellationToken cancellation) =>
        ChangeAsync(_ => f => f.ShowFirst(f.PhotoOf(photo), Now), $"The photo is shown first.", cancellation);

    public Task<IActionResult> OnPostRemoveAsync(Guid photo, CancellationToken cancellation) =>
        ChangeAsync(_ => f => f.RemovePhoto(f.PhotoOf(photo), Now), $"The photo is taken away.", cancellation);

    private async Task<IActionResult> ChangeAsync(Func<IFormCollection, Action<Figure>> change, Sentence done, CancellationToken cancellation)
    {
        try
        {
            var form = await Request.ReadFormAsync(cancellation);
            await token.CheckAsync(HttpContext, form[token.FieldName]);
            await db.EditAsync(Figure, change(form), cancellation);
            return this.Done(done, $"/edit-photos/{Figure}");
        }
        catch (Exception exception) when (Problems.Of(exception) is { Status: < 500 and not 404 } problem)
        {
            return await RefusedAsync(problem, cancellation);
        }
    }

    private DateTime Now => time.GetUtcNow().UtcDateTime;

    private async Task BeforeFileAsync(FileForm<(StoredBlob Blob, int Width, int Height)> form)
    {
        Shows = form.Field("words");
        await token.CheckAsync(HttpContext, form.Field(token.FieldName));
    }

    private async Task<IActionResult> RefusedAsync(ProblemDetails problem, CancellationToken cancellation)
    {
        ModelState.AddModelError("", problem.Detail!);
        Response.StatusCode = problem.Status!.Value;
        return await ShowAsync(cancellation);
    }

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Whole = await db.LoadForViewingAsync(Figure, cancellation);
        return Page();
    }
}
