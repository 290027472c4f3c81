using System.ComponentModel.DataAnnotations;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Accounts;

/// <summary>Makes the first account, the host's, for whoever can read the console.</summary>
[EnableRateLimiting(RateLimits.SignIn)]
internal sealed class SetUpPage(CatalogueDb db, UserManager<Account> accounts, SignInManager<Account> signIn, FirstAccountCode first) : PageModel
{
    [BindProperty]
    public NewAccountForm Form { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public string? Code { get; set; }

    /// <summary>True when the link is the one from the console.</summary>
    public bool IsInvited => first.Is(Code);

    public async Task<IActionResult> OnGetAsync(CancellationToken cancellation)
    {
        if (await db.Users.AnyAsync(cancellation)) return this.Done($"There is an account already. Sign in with it.", "/sign-in");
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        await first.Turn.WaitAsync(cancellation);
        try
        {
            if (await db.Users.AnyAsync(cancellation)) return this.Done($"There is an account already. Sign in with it.", "/sign-in");
            if (!IsInvited) ModelState.AddModelError("", T($"The code in the address is not the one on the console. No account was made; open the link that the program printed when it started."));
            if (!ModelState.IsValid) return Page();
            var account = new Account { UserName = Form.Name!.Trim(), DisplayName = Form.DisplayName?.Trim() is { Length: > 0 } shown ? shown : Form.Name!.Trim(), IsHost = true };
            var made = await accounts.CreateAsync(account, Form.Password!);
            foreach (var error in made.Errors) ModelState.AddModelError(AccountErrors.FieldOf(error, "Form.Name", "Form.Password"), error.Description);
            if (!made.Succeeded) return Page();
            await signIn.SignInAsync(account, isPersistent: true);
            return this.Done($"The account is made and you are signed in. This is where your figures will be.", "/drafts");
        }
        finally
        {
            first.Turn.Release();
            if (!ModelState.IsValid) Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
    }
}

/// <summary>The name and password of an account to be made.</summary>
internal sealed class NewAccountForm
{
    [Required(ErrorMessage = "Choose a name to sign in with.")]
    [StringLength(60, ErrorMessage = "A name to sign in with has at most 60 characters.")]
    public string? Name { get; set; }

    [StringLength(80, ErrorMessage = "The name others see has at most 80 characters.")]
    public string? DisplayName { get; set; }

    [Required(ErrorMessage = "Choose a password.")]
    [StringLength(200, ErrorMessage = "A password has at most 200 characters.")]
    public string? Password { get; set; }
}
