using Catalogue.Data.Accounts;
using Microsoft.AspNetCore.Identity;

namespace Catalogue.Web.Accounts;

/// <summary>Links that let somebody set the password of an account, once, within <see cref="AccountSetup.PasswordLinkLife"/>.</summary>
internal sealed class PasswordLinks(UserManager<Account> accounts)
{
    /// <summary>The link below the site's address.</summary>
    public async Task<string> MakeAsync(Account account)
    {
        var code = await accounts.GeneratePasswordResetTokenAsync(account);
        return $"/set-password?account={account.Id}&code={Uri.EscapeDataString(code)}";
    }

    /// <summary>The account a link is for; null when the link is used, too old, cut off, or the account is closed.</summary>
    public async Task<Account?> AccountOfAsync(string? account, string? code) =>
        Guid.TryParse(account, out var id) && !string.IsNullOrEmpty(code)
        && await accounts.FindByIdAsync(id.ToString()) is { } found && !IsClosed(found)
        && await accounts.VerifyUserTokenAsync(found, accounts.Options.Tokens.PasswordResetTokenProvider, UserManager<Account>.ResetPasswordTokenPurpose, code)
            ? found
            : null;

    /// <summary>True when the host closed the account, as opposed to one that rests after wrong tries.</summary>
    public static bool IsClosed(Account account) => account.LockoutEnd > DateTimeOffset.UtcNow.AddYears(1);
}
