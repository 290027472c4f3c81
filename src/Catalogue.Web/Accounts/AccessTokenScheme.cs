using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Accounts;

/// <summary><c>Authorization: Bearer …</c> (RFC 6750) with a designer's token.</summary>
internal sealed class AccessTokenScheme(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, AccessTokens tokens, IProblemDetailsService problems)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string Name = "token";

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase)) return AuthenticateResult.NoResult();
        if (await tokens.AccountOfAsync(header["Bearer ".Length..].Trim(), Context.RequestAborted) is not { } account)
            return AuthenticateResult.Fail("The token is unknown or was revoked.");
        var identity = new ClaimsIdentity(Name);
        identity.AddClaim(new(ClaimTypes.NameIdentifier, account.Id.ToString()));
        identity.AddClaim(new(ClaimTypes.Name, account.UserName ?? ""));
        if (account.IsHost) identity.AddClaim(new(AccountSetup.HostClaim, "true"));
        return AuthenticateResult.Success(new(new(identity), Name));
    }

    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = 401;
        Response.Headers.WWWAuthenticate = "Bearer";
        await problems.TryWriteAsync(new()
        {
            HttpContext = Context,
            ProblemDetails = Problems.Make(401, "token-missing", $"A designer's token is needed",
                $"Nothing was changed. Send “Authorization: Bearer …” with a token from your account page; an unknown or revoked token is refused too."),
        });
    }
}
