using Microsoft.AspNetCore.Identity;

namespace Catalogue.Data.Accounts;

/// <summary>Somebody who may sign in: a designer, or the host, who may also change limits and add accounts.</summary>
public sealed class Account : IdentityUser<Guid>
{
    public Account() => Id = Guid.CreateVersion7();

    [PersonalData]
    public string DisplayName { get; set; } = "";

    public bool IsHost { get; set; }
}

/// <summary>A designer's key to the API. Only its SHA-256 is kept; the token itself is shown once.</summary>
public sealed class AccessToken
{
    private AccessToken()
    {
    }

    public AccessToken(Guid accountId, string name, string hash, DateTime now)
    {
        Id = Guid.CreateVersion7();
        AccountId = accountId;
        Name = name;
        Hash = hash;
        CreatedAt = now;
    }

    public Guid Id { get; private set; }
    public Guid AccountId { get; private set; }
    public string Name { get; private set; } = "";
    public string Hash { get; private set; } = "";
    public DateTime CreatedAt { get; private set; }
    public DateTime? RevokedAt { get; private set; }

    public void Revoke(DateTime now) => RevokedAt ??= now;
}
