using System.Globalization;
using Microsoft.Net.Http.Headers;

namespace Catalogue.Web.Features.Languages;

/// <summary>
/// Which language a request is answered in. Pages: what the address asks for (<c>?language=de</c>, which the browser then keeps), what the browser keeps, what it prefers. Programs get English,
/// or what their address asks for; never by a header, so that one address has one answer.
/// </summary>
internal static class ReaderLanguage
{
    public const string Cookie = "catalogue.language";
    public const string QueryName = "language";

    public static void UseReaderLanguage(this WebApplication app) => app.Use(static (context, next) =>
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture; // What programs read is the same on every host.
        CultureInfo.CurrentUICulture = Of(context).Culture;
        return next(context);
    });

    private static Language Of(HttpContext context)
    {
        var request = context.Request;
        var asked = Language.Of(request.Query[QueryName]);
        if (Problems.IsForPrograms(context)) return asked ?? Language.English;
        context.Response.OnStarting(static state =>
        {
            // Pictures, styles and scripts are the same for everybody.
            var response = ((HttpContext)state).Response;
            if (response.ContentType?.StartsWith("text/html", StringComparison.Ordinal) is true) response.Headers.Append(HeaderNames.Vary, HeaderNames.AcceptLanguage);
            return Task.CompletedTask;
        }, context);
        if (asked is not null)
        {
            Keep(context, asked);
            return asked;
        }

        return Language.Of(request.Cookies[Cookie]) ?? Preferred(request) ?? Language.English;
    }

    private static void Keep(HttpContext context, Language language) => context.Response.Cookies.Append(Cookie, language.Code, new()
    {
        HttpOnly = true,
        IsEssential = true,
        SameSite = Microsoft.AspNetCore.Http.SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        Path = context.Request.PathBase.HasValue ? context.Request.PathBase.Value : "/",
        MaxAge = TimeSpan.FromDays(400),
    });

    private static Language? Preferred(HttpRequest request) => request.GetTypedHeaders().AcceptLanguage
        .OrderByDescending(l => l.Quality ?? 1)
        .Select(l => Language.Of(l.Value.Value))
        .FirstOrDefault(l => l is not null && l != Language.Bracketed);
}
