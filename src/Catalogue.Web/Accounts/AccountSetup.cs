using Catalogue.Data;
using Catalogue.Data.Accounts;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Accounts;

/// <summary>Who may do what: designers sign in on pages with a cookie and come to the API with a token; the host also changes limits and accounts.</summary>
internal static class AccountSetup
{
    /// <summary>Pages for signed-in designers.</summary>
    public const string DesignerPages = "designer-pages";

    /// <summary>API writes: a token only, so that no foreign page can send them with a cookie.</summary>
    public const string DesignerApi = "designer-api";

    /// <summary>How long a link to set a password is good.</summary>
    public static readonly TimeSpan PasswordLinkLife = TimeSpan.FromDays(3);

    /// <summary>What only the host's token may do.</summary>
    public const string HostApi = "host-api";

    public const string HostPages = "host-pages";
    public const string HostClaim = "catalogue:host";

    public static void AddAccounts(this WebApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddAuthentication(IdentityConstants.ApplicationScheme)
            .AddScheme<AuthenticationSchemeOptions, AccessTokenScheme>(AccessTokenScheme.Name, null)
            .AddIdentityCookies(cookies => cookies.ApplicationCookie!.Configure(cookie =>
            {
                cookie.LoginPath = "/sign-in";
                cookie.AccessDeniedPath = "/sign-in";
                cookie.ReturnUrlParameter = "return";
                cookie.Cookie.Name = "catalogue.designer";
                cookie.Cookie.SameSite = SameSiteMode.Lax;
                cookie.ExpireTimeSpan = TimeSpan.FromDays(30);
            }));
        services.AddIdentityCore<Account>(identity =>
            {
                identity.Password.RequiredLength = 12;
                identity.Password.RequireDigit = identity.Password.RequireLowercase = identity.Password.RequireUppercase = false;
                identity.Password.RequireNonAlphanumeric = false;
                identity.User.RequireUniqueEmail = false;
                identity.Lockout.MaxFailedAccessAttempts = 8;
                identity.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(5);
            })
            .AddEntityFrameworkStores<CatalogueDb>()
            .AddSignInManager()
            .AddErrorDescriber<AccountErrors>()
            .AddTokenProvider<DataProtectorTokenProvider<Account>>(TokenOptions.DefaultProvider)
            .AddClaimsPrincipalFactory<AccountClaims>();
        services.Configure<DataProtectionTokenProviderOptions>(links => links.TokenLifespan = PasswordLinkLife);
        // A closed account or a changed password ends other sessions within a minute.
        services.Configure<SecurityStampValidatorOptions>(stamps => stamps.ValidationInterval = TimeSpan.FromMinutes(1));
        services.AddAntiforgery(forms =>
        {
            forms.Cookie.Name = "catalogue.form";
            forms.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        });
        services.Configure<CookieTempDataProviderOptions>(told => told.Cookie.Name = "catalogue.told");
        services.AddAuthorizationBuilder()
            .AddPolicy(DesignerPages, policy => policy.AddAuthenticationSchemes(IdentityConstants.ApplicationScheme).RequireAuthenticatedUser())
            .AddPolicy(HostPages, policy => policy.AddAuthenticationSchemes(IdentityConstants.ApplicationScheme).RequireClaim(HostClaim))
            .AddPolicy(HostApi, policy => policy.AddAuthenticationSchemes(AccessTokenScheme.Name).RequireClaim(HostClaim))
            .AddPolicy(DesignerApi, policy => policy.AddAuthenticationSchemes(AccessTokenScheme.Name).RequireAuthenticatedUser());
        services.AddSingleton<FirstAccountCode>();
        services.AddScoped<AccessTokens>();
        services.AddScoped<PasswordLinks>();
    }
}
