using System.ComponentModel.DataAnnotations;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Accounts;

/// <summary>The host invites designers, helps those who forgot their password, and closes accounts.</summary>
[Authorize(Policy = AccountSetup.HostPages)]
[ResponseCache(NoStore = true, Location = ResponseCacheLocation.None)]
internal sealed class DesignersPage(CatalogueDb db, UserManager<Account> accounts, AccessTokens tokens, PasswordLinks links) : PageModel
{
    [BindProperty]
    public InvitationForm Form { get; set; } = new();

    public IReadOnlyList<Account> Accounts { get; private set; } = [];

    /// <summary>The link just made and whom it is for; shown this once.</summary>
    public (string Name, string Link)? Invitation { get; private set; }

    public string? Mine { get; private set; }

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostInviteAsync(CancellationToken cancellation)
    {
        if (!ModelState.IsValid) return await ShowAsync(cancellation);
        var account = new Account { UserName = Form.Name!.Trim(), DisplayName = Form.DisplayName?.Trim() is { Length: > 0 } shown ? shown : Form.Name!.Trim() };
        var made = await accounts.CreateAsync(account);
        foreach (var error in made.Errors) ModelState.AddModelError(AccountErrors.FieldOf(error, "Form.Name", ""), error.Description);
        if (made.Succeeded) Invitation = await LinkAsync(account);
        return await ShowAsync(cancellation);
    }

    public Task<IActionResult> OnPostLinkAsync(Guid account, CancellationToken cancellation) => ChangeAsync(account, async found =>
    {
        Invitation = await LinkAsync(found);
        return await ShowAsync(cancellation);
    });

    public Task<IActionResult> OnPostCloseAsync(Guid account, CancellationToken cancellation) => ChangeAsync(account, async found =>
    {
        if (found.Id.ToString() == accounts.GetUserId(User))
        {
            ModelState.AddModelError("", T($"You cannot close your own account. Ask another host to do it."));
            return await ShowAsync(cancellation);
        }

        await accounts.SetLockoutEndDateAsync(found, DateTimeOffset.MaxValue);
        await accounts.UpdateSecurityStampAsync(found);
        await tokens.RevokeAsync(found.Id, null, cancellation);
        return this.Done($"The account “{found.UserName}” is closed and its tokens are revoked. What it published stays.", "/account/designers");
    });

    public Task<IActionResult> OnPostOpenAsync(Guid account) => ChangeAsync(account, async found =>
    {
        await accounts.SetLockoutEndDateAsync(found, null);
        return this.Done($"The account “{found.UserName}” may sign in again. It needs new tokens.", "/account/designers");
    });

    private async Task<IActionResult> ChangeAsync(Guid id, Func<Account, Task<IActionResult>> change)
    {
        ModelState.Clear();
        return await accounts.FindByIdAsync(id.ToString()) is { } account ? await change(account) : NotFound();
    }

    private async Task<(string, string)> LinkAsync(Account account) =>
        (account.UserName!, $"{Request.Scheme}://{Request.Host}{Request.PathBase}{await links.MakeAsync(account)}");

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Mine = accounts.GetUserId(User);
        Accounts = await db.Users.AsNoTracking().OrderBy(a => a.UserName).ToListAsync(cancellation);
        if (!ModelState.IsValid) Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }
}

internal sealed class InvitationForm
{
    [Required(ErrorMessage = "Choose the name the designer signs in with.")]
    [StringLength(60, ErrorMessage = "A name to sign in with has at most 60 characters.")]
    public string? Name { get; set; }

    [StringLength(80, ErrorMessage = "The name others see has at most 80 characters.")]
    public string? DisplayName { get; set; }
}
