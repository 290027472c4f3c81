using Microsoft.AspNetCore.Identity;

namespace Catalogue.Web.Accounts;

/// <summary>What is wrong with a name or a password, in our words and the reader’s language.</summary>
internal sealed class AccountErrors : IdentityErrorDescriber
{
    public override IdentityError DuplicateUserName(string userName) => new()
    {
        Code = nameof(DuplicateUserName),
        Description = T($"“{userName}” is taken already. Choose another name to sign in with."),
    };

    public override IdentityError InvalidUserName(string? userName) => new()
    {
        Code = nameof(InvalidUserName),
        Description = T($"A name to sign in with is made of letters a–z, digits and - . _ @ +, without spaces."),
    };

    public override IdentityError PasswordTooShort(int length) => new()
    {
        Code = nameof(PasswordTooShort),
        Description = T($"A password has at least {length} characters. Four or five words in a row do well."),
    };

    public override IdentityError PasswordMismatch() => new() { Code = nameof(PasswordMismatch), Description = T($"That is not your present password.") };

    public override IdentityError InvalidToken() => new()
    {
        Code = nameof(InvalidToken),
        Description = T($"This link was used already or is too old. Ask the host for a new one."),
    };

    /// <summary>The field an error belongs to, by its code.</summary>
    public static string FieldOf(IdentityError error, string name, string password) =>
        error.Code.Contains("UserName", StringComparison.Ordinal) ? name : error.Code.StartsWith("Password", StringComparison.Ordinal) ? password : "";
}
