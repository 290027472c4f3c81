using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Inspections;

/// <summary>“Check a mesh before you publish it”: a form and the findings. Nothing is kept, nobody needs an account.</summary>
[EnableRateLimiting(RateLimits.Inspections)]
[IgnoreAntiforgeryToken] // Nothing is changed by it.
[StreamedForm]
internal sealed class InspectPage(VisitorInspection inspection, Visitor visitor, IOptions<CatalogueOptions> options) : PageModel
{
    public IReadOnlyList<Process> Processes { get; private set; } = [];
    public InspectionReport? Report { get; private set; }

    /// <summary>Of the ways to lay it down, in their order.</summary>
    public IReadOnlyList<string> Pictures { get; private set; } = [];
    public string? Unit { get; private set; }
    public string? Process { get; private set; }
    public string? Volume { get; private set; }
    public long MaxBytes => options.Value.MaxInspectionBytes;

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        Process = visitor.Printer.Process;
        Volume = visitor.Printer.Volume is { IsRound: false } box ? FormattableString.Invariant($"{box.Width:0.##}x{box.Depth:0.##}x{box.Height:0.##}") : null;
        Processes = await inspection.ProcessesAsync([], cancellation);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        Processes = await inspection.ProcessesAsync([], cancellation);
        FileForm<SpooledMesh>? form = null;
        try
        {
            form = await FileForm<SpooledMesh>.ReadAsync(Request, inspection.SpoolAsync, BeforeFileAsync, cancellation);
            var (unit, room) = (UnitWords.Parse(Unit), Printer.Parse(null, Volume, null, null).Volume);
            Report = await inspection.InspectAsync(form.File, new()
            {
                File = MeshUpload.SafeName(form.FileName),
                Unit = unit,
                Processes = await inspection.ProcessesAsync([Process ?? ""], cancellation),
                Volume = room,
            }, cancellation);
            if (Report.Orientations is { } ways) Pictures = await inspection.PicturesAsync(form.File, ways, unit, room, cancellation);
        }
        catch (Exception exception) when (Problems.Of(exception) is { Status: < 500 or 503 or 507 } problem)
        {
            ModelState.AddModelError("", problem.Detail!);
            Response.StatusCode = problem.Status.Value;
        }
        finally
        {
            if (form is not null) await form.File.DisposeAsync();
        }

        return Page();
    }

    private Task BeforeFileAsync(FileForm<SpooledMesh> form)
    {
        (Unit, Process, Volume) = (form.Field("unit"), form.Field("process"), form.Field("volume"));
        return Task.CompletedTask;
    }
}
