using System.ComponentModel.DataAnnotations;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Accounts;

/// <summary>Designers sign in. Whatever is wrong is told by one sentence, so that nobody learns which names exist.</summary>
[EnableRateLimiting(RateLimits.SignIn)]
internal sealed class SignInPage(CatalogueDb db, UserManager<Account> accounts, SignInManager<Account> signIn) : PageModel
{
    private static readonly string NobodysHash = new PasswordHasher<Account>().HashPassword(new(), Guid.NewGuid().ToString());

    [BindProperty]
    public SignInForm Form { get; set; } = new();

    /// <summary>Where to go on to; a path of this site.</summary>
    [BindProperty(SupportsGet = true, Name = "return")]
    public string? Return { get; set; }

    public bool IsEmpty { get; private set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken cancellation)
    {
        if (User.Identity?.IsAuthenticated == true && Return is null) return Redirect(Request.PathBase + "/drafts");
        IsEmpty = !await db.Users.AnyAsync(cancellation);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (ModelState.IsValid)
        {
            if (await accounts.FindByNameAsync(Form.Name!.Trim()) is { } account)
            {
                var result = await signIn.PasswordSignInAsync(account, Form.Password!, isPersistent: true, lockoutOnFailure: true);
                if (result.Succeeded) return LocalRedirect(Url.IsLocalUrl(Return) ? Return : Request.PathBase + "/drafts");
            }
            else
            {
                // As much work as for a name that exists.
                accounts.PasswordHasher.VerifyHashedPassword(new(), NobodysHash, Form.Password!);
            }

            ModelState.AddModelError("", T($"That name and that password do not go together. After several wrong tries an account rests for five minutes. If you forgot the password, the host can make a link to set a new one."));
        }

        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }
}

internal sealed class SignInForm
{
    [Required(ErrorMessage = "Fill in your name.")]
    [StringLength(256, ErrorMessage = "That is too long for a name.")]
    public string? Name { get; set; }

    [Required(ErrorMessage = "Fill in your password.")]
    [StringLength(200, ErrorMessage = "That is too long for a password.")]
    public string? Password { get; set; }
}
