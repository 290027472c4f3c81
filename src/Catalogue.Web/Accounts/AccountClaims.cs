using System.Security.Claims;
using Catalogue.Data.Accounts;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Accounts;

/// <summary>What a signed-in account carries: its id, its name, and whether it is the host's.</summary>
internal sealed class AccountClaims(UserManager<Account> accounts, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<Account>(accounts, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        if (user.IsHost) identity.AddClaim(new(AccountSetup.HostClaim, "true"));
        return identity;
    }
}
