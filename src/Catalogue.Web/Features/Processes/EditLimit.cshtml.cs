using System.ComponentModel.DataAnnotations;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host changes one limit.</summary>
[Authorize(Policy = AccountSetup.HostPages)]
internal sealed class EditLimitPage(LimitChange change) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new() { ["limit-invalid"] = nameof(Value), ["text-missing"] = nameof(Origin), ["text-too-long"] = nameof(Origin) };

    [FromRoute]
    public string Process { get; set; } = "";

    [FromRoute]
    public string Key { get; set; } = "";

    [BindProperty]
    [Required(ErrorMessage = "Fill in the number.")]
    public double? Value { get; set; }

    [BindProperty]
    [Required(ErrorMessage = "Say where the number comes from: a published source, “common practice”, or “set by the host”.")]
    [StringLength(200, ErrorMessage = "Where it comes from is said in at most 200 characters.")]
    public string? Origin { get; set; }

    public Process Whole { get; private set; } = null!;
    public ProcessLimit Limit { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        (Whole, Limit) = await change.FindAsync(Process, Key, cancellation);
        (Value, Origin) = (Limit.NextValue ?? Limit.Value, Limit.NextOrigin ?? Limit.Origin);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        if (await this.TryAsync(() => change.MakeAsync(Process, Key, Value!.Value, Origin!, cancellation), Fields))
            return this.Done($"The change is noted. It takes effect as soon as all parts are judged by it.", $"/processes#{Process}-{Key}");
        (Whole, Limit) = await change.FindAsync(Process, Key, cancellation);
        return Page();
    }
}
