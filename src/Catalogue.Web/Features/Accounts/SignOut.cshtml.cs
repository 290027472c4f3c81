using Catalogue.Data.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Accounts;

/// <summary>Ends the session, by a form only.</summary>
internal sealed class SignOutPage(SignInManager<Account> signIn) : PageModel
{
    public IActionResult OnGet() => Redirect(Request.PathBase + "/account");

    public async Task<IActionResult> OnPostAsync()
    {
        await signIn.SignOutAsync();
        return this.Done($"You are signed out.", "/sign-in");
    }
}
