using System.ComponentModel.DataAnnotations;
using Catalogue.Data.Accounts;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Catalogue.Web.Features.Accounts;

/// <summary>Sets the password of an account by a link from the host: the first one, or a new one for a forgotten one.</summary>
[EnableRateLimiting(RateLimits.SignIn)]
[ResponseCache(NoStore = true, Location = ResponseCacheLocation.None)]
internal sealed class SetPasswordPage(UserManager<Account> accounts, SignInManager<Account> signIn, PasswordLinks links) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Account { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Code { get; set; }

    [BindProperty]
    [Required(ErrorMessage = "Choose a password.")]
    [StringLength(200, ErrorMessage = "A password has at most 200 characters.")]
    public string? Password { get; set; }

    /// <summary>The name the link is for; null when the link is not good.</summary>
    public string? Name { get; private set; }

    public async Task OnGetAsync()
    {
        ModelState.Clear();
        Name = await links.AccountOfAsync(Account, Code) is { } account ? account.UserName : null;
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (await links.AccountOfAsync(Account, Code) is { } account && ModelState.IsValid)
        {
            Name = account.UserName;
            var changed = await accounts.ResetPasswordAsync(account, Code!, Password!);
            if (changed.Succeeded)
            {
                await signIn.SignInAsync(account, isPersistent: true);
                return this.Done($"Your password is set and you are signed in.", "/drafts");
            }

            foreach (var error in changed.Errors) ModelState.AddModelError(AccountErrors.FieldOf(error, "", nameof(Password)), error.Description);
        }

        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }
}
