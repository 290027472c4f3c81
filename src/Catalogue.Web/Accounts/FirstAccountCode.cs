using System.Security.Cryptography;
using System.Text;

namespace Catalogue.Web.Accounts;

/// <summary>
/// The word that makes the first account: printed on the console at start while there is no account, so that only who can read the
/// console becomes the host. A new one at every start.
/// </summary>
internal sealed class FirstAccountCode : IDisposable
{
    public string Value { get; } = RandomNumberGenerator.GetString("abcdefghjkmnpqrstuvwxyz23456789", 16);

    /// <summary>Lets one at a time make the first account, so that there is only one.</summary>
    public SemaphoreSlim Turn { get; } = new(1, 1);

    public bool Is(string? given) => given is not null
        && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(Value), Encoding.UTF8.GetBytes(given));

    public void Dispose() => Turn.Dispose();
}
