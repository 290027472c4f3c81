using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Printers;

/// <summary>“My printer”: what the visitor prints with. Kept in their browser and in every link, never with us.</summary>
internal sealed class PrinterPage(CatalogueDb db, Visitor visitor, Masthead masthead) : PageModel
{
    public PrinterForm Form { get; private set; } = null!;

    public IReadOnlyList<Process> Processes { get; private set; } = [];

    /// <summary>Usual sizes to begin from: those for the process said, and those for whichever.</summary>
    public IReadOnlyList<PrinterPreset> Presets { get; private set; } = [];

    public bool IsHost { get; private set; }

    /// <summary>Where the visitor came from, a path of this site.</summary>
    public string Back { get; private set; } = "/";

    public async Task<IActionResult> OnGetAsync([FromQuery(Name = "return")] string? back, bool save, CancellationToken cancellation)
    {
        (Presets, IsHost) = (await db.PresetsAsync(cancellation), User.HasClaim(AccountSetup.HostClaim, "true"));
        Processes = await masthead.ProcessesAsync();
        if (IsOurs(back)) Back = back!;
        if (!save)
        {
            Form = PrinterForm.Of(visitor.Printer, visitor.Also, visitor.Inches);
            return Page();
        }

        Form = PrinterForm.Sent(Request.Query, [.. Processes.Select(p => p.Code)]);
        if (Form.Printer is not { } printer)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }

        visitor.Keep(printer, Form.AlsoPrinters, Form.Inches);
        var query = Visitor.WithAlso(printer, Form.AlsoPrinters) + (Form.Inches ? "&unit=inch" : "");
        return Redirect(Request.PathBase + Back + (Back.Contains('?', StringComparison.Ordinal) ? '&' : '?') + query);
    }

    public IActionResult OnPostForget()
    {
        visitor.Keep(null, [], inches: false);
        return Redirect(Request.PathBase + "/printer");
    }

    /// <summary>A path below the site, not an address that only looks like one.</summary>
    private bool IsOurs(string? path) => path is { Length: > 0 and < 300 } && path[0] == '/' && Url.IsLocalUrl(path);
}
