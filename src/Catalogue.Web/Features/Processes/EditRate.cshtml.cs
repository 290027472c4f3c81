using System.ComponentModel.DataAnnotations;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host changes one number that estimates rest on.</summary>
[Authorize(Policy = AccountSetup.HostPages)]
internal sealed class EditRatePage(RateChange change) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new()
    {
        ["rate-invalid"] = nameof(Value),
        ["spread-invalid"] = nameof(SpreadPercent),
        ["text-missing"] = nameof(Origin),
        ["text-too-long"] = nameof(Origin),
    };

    [FromRoute]
    public string Process { get; set; } = "";

    [FromRoute]
    public string Key { get; set; } = "";

    [BindProperty]
    [Required(ErrorMessage = "Fill in the number.")]
    public double? Value { get; set; }

    [BindProperty]
    [Required(ErrorMessage = "Say how far the number may be off, in per cent of it; 0 when it is exact.")]
    public double? SpreadPercent { get; set; }

    [BindProperty]
    [Required(ErrorMessage = "Say where the number comes from: a published source, “common practice”, or “set by the host”.")]
    [StringLength(200, ErrorMessage = "Where it comes from is said in at most 200 characters.")]
    public string? Origin { get; set; }

    public Process Whole { get; private set; } = null!;
    public ProcessRate Rate { get; private set; } = null!;
    public string Currency { get; private set; } = "";

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        await ShowAsync(cancellation);
        (Value, SpreadPercent, Origin) = (Rate.Value, Rate.SpreadPercent, Rate.Origin);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        if (await this.TryAsync(() => change.MakeAsync(Process, Key, Value!.Value, SpreadPercent!.Value, Origin!, cancellation), Fields))
            return this.Done($"The rate is changed; estimates follow at once.", $"/processes#{Process}-{Key}");
        await ShowAsync(cancellation);
        return Page();
    }

    private async Task ShowAsync(CancellationToken cancellation)
    {
        (Whole, Rate) = await change.FindAsync(Process, Key, cancellation);
        Currency = await change.CurrencyAsync(cancellation);
    }
}
