using System.Security.Cryptography;
using System.Text;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Accounts;

/// <summary>Designers' keys to the API: 256 random bits, shown once, kept as a hash.</summary>
public sealed class AccessTokens(CatalogueDb db, TimeProvider time)
{
    private const string Prefix = "figures_";

    /// <summary>A new token for the account; the text is not stored anywhere.</summary>
    public async Task<string> CreateAsync(Guid account, string name, CancellationToken cancellation)
    {
        var token = Prefix + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        db.AccessTokens.Add(new AccessToken(account, name, HashOf(token), time.GetUtcNow().UtcDateTime));
        await db.SaveChangesAsync(cancellation);
        return token;
    }

    /// <summary>The account a valid token belongs to, or null.</summary>
    public async Task<Account?> AccountOfAsync(string token, CancellationToken cancellation)
    {
        if (!token.StartsWith(Prefix, StringComparison.Ordinal)) return null;
        var hash = HashOf(token);
        return await (from t in db.AccessTokens
                      join a in db.Users on t.AccountId equals a.Id
                      where t.Hash == hash && t.RevokedAt == null
                      select a).AsNoTracking().SingleOrDefaultAsync(cancellation);
    }

    private static string HashOf(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
