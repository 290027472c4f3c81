using System.Security.Cryptography;
using System.Text;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Model;
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
        var clean = name.Trim();
        if (clean.Length is 0 or > 80)
            throw new RuleBrokenException("name-invalid", $"A token is named by 1 to 80 characters, so that you know later what it is for. No token was made.");
        db.AccessTokens.Add(new AccessToken(account, clean, HashOf(token), time.GetUtcNow().UtcDateTime));
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

    /// <summary>The account's tokens that are still good, the newest first.</summary>
    public Task<List<AccessToken>> OfAsync(Guid account, CancellationToken cancellation) => db.AccessTokens.AsNoTracking()
        .Where(t => t.AccountId == account && t.RevokedAt == null).OrderByDescending(t => t.CreatedAt).ToListAsync(cancellation);

    /// <summary>Ends one token of the account, or all of them.</summary>
    public async Task RevokeAsync(Guid account, Guid? token, CancellationToken cancellation)
    {
        var tokens = await db.AccessTokens.Where(t => t.AccountId == account && t.RevokedAt == null && (token == null || t.Id == token)).ToListAsync(cancellation);
        foreach (var one in tokens) one.Revoke(time.GetUtcNow().UtcDateTime);
        await db.SaveChangesAsync(cancellation);
    }

    private static string HashOf(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
