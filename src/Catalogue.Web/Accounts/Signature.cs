using System.Security.Claims;
using Catalogue.Data.Accounts;
using Microsoft.AspNetCore.Identity;

namespace Catalogue.Web.Accounts;

/// <summary>The name under which whoever is signed in, in a browser or by token, says something that readers see.</summary>
internal sealed class Signature(UserManager<Account> accounts)
{
    public async Task<string> OfAsync(ClaimsPrincipal user)
    {
        var account = await accounts.GetUserAsync(user) ?? throw new InvalidOperationException("The signed-in account is no longer there.");
        return account.DisplayName.Length > 0 ? account.DisplayName : account.UserName!;
    }
}
