using System.ComponentModel.DataAnnotations;
using Catalogue.Data.Accounts;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Accounts;

/// <summary>A designer's own account: name, password, tokens for programs.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
[ResponseCache(NoStore = true, Location = ResponseCacheLocation.None)]
internal sealed class AccountPage(UserManager<Account> accounts, SignInManager<Account> signIn, AccessTokens tokens) : PageModel
{
    [BindProperty]
    public string? DisplayName { get; set; }

    [BindProperty]
    public string? TokenName { get; set; }

    [BindProperty]
    public PasswordForm Passwords { get; set; } = new();

    public Account Account { get; private set; } = null!;
    public IReadOnlyList<AccessToken> Tokens { get; private set; } = [];

    /// <summary>The token just made; shown this once.</summary>
    public string? NewToken { get; private set; }

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    public async Task<IActionResult> OnPostNameAsync(CancellationToken cancellation)
    {
        this.Only(nameof(DisplayName));
        var name = DisplayName?.Trim() ?? "";
        if (name.Length is 0 or > 80) ModelState.AddModelError(nameof(DisplayName), T($"The name others see has 1 to 80 characters."));
        if (!ModelState.IsValid) return await ShowAsync(cancellation);
        var account = await MineAsync();
        account.DisplayName = name;
        await accounts.UpdateAsync(account);
        return this.Done($"Your name was changed.", "/account");
    }

    public async Task<IActionResult> OnPostPasswordAsync(CancellationToken cancellation)
    {
        this.Only(nameof(Passwords));
        if (!ModelState.IsValid) return await ShowAsync(cancellation);
        var account = await MineAsync();
        var changed = await accounts.ChangePasswordAsync(account, Passwords.Present!, Passwords.New!);
        foreach (var error in changed.Errors)
            ModelState.AddModelError(error.Code == nameof(AccountErrors.PasswordMismatch) ? "Passwords.Present" : "Passwords.New", error.Description);
        if (!changed.Succeeded) return await ShowAsync(cancellation);
        await signIn.RefreshSignInAsync(account);
        return this.Done($"Your password was changed. Other browsers signed in with the old one are signed out within a minute.", "/account");
    }

    public async Task<IActionResult> OnPostTokenAsync(CancellationToken cancellation)
    {
        this.Only(nameof(TokenName));
        var account = await MineAsync();
        await this.TryAsync(async () => NewToken = await tokens.CreateAsync(account.Id, TokenName ?? "", cancellation),
            new Dictionary<string, string> { ["name-invalid"] = nameof(TokenName) });
        return await ShowAsync(cancellation);
    }

    public async Task<IActionResult> OnPostRevokeAsync(Guid token, CancellationToken cancellation)
    {
        await tokens.RevokeAsync((await MineAsync()).Id, token, cancellation);
        return this.Done($"The token was revoked. Programs that use it are refused from now on.", "/account");
    }

    private async Task<Account> MineAsync() =>
        await accounts.GetUserAsync(User) ?? throw new InvalidOperationException("The signed-in account is no longer there.");

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        Account = await MineAsync();
        DisplayName ??= Account.DisplayName;
        Tokens = await tokens.OfAsync(Account.Id, cancellation);
        if (!ModelState.IsValid) Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }
}

internal sealed class PasswordForm
{
    [Required(ErrorMessage = "Fill in your present password.")]
    public string? Present { get; set; }

    [Required(ErrorMessage = "Choose a new password.")]
    [StringLength(200, ErrorMessage = "A password has at most 200 characters.")]
    public string? New { get; set; }
}
