using System.ComponentModel.DataAnnotations;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host names what prices are in.</summary>
[Authorize(Policy = AccountSetup.HostPages)]
internal sealed class EditCurrencyPage(RateChange change) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new() { ["currency-invalid"] = nameof(Currency) };

    [BindProperty]
    [Required(ErrorMessage = "Fill in the currency’s three letters.")]
    public string? Currency { get; set; }

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        ModelState.Clear();
        Currency = await change.CurrencyAsync(cancellation);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation) =>
        await this.TryAsync(() => change.PriceInAsync(Currency!, cancellation), Fields)
            ? this.Done($"Prices are now in {Currency!.Trim().ToUpperInvariant()}. The numbers stayed as they were.", "/processes#currency")
            : Page();
}
