using Catalogue.Web.Features.Languages;

namespace Catalogue.Web.Features.Shared;

/// <summary>Whole addresses of this site, as the reader reaches it: for what leaves the site, such as previews of links and maps for search engines.</summary>
internal static class SiteAddress
{
    /// <param name="path">Begins with a slash; below the path the site is served under.</param>
    public static string Of(HttpRequest request, string path = "")
    {
        ArgumentNullException.ThrowIfNull(request);
        return $"{request.Scheme}://{request.Host}{request.PathBase}{path}";
    }

    /// <summary>Where programs ask what to show in place of a link to that page (oEmbed).</summary>
    public static string Embedding(HttpRequest request, string page) => Of(request, "/oembed?url=" + Uri.EscapeDataString(page));

    /// <summary>A page in one language; without it a page is in the language that its reader prefers.</summary>
    public static string InLanguage(string page, Language language)
    {
        ArgumentNullException.ThrowIfNull(language);
        return $"{page}?{ReaderLanguage.QueryName}={language.Code}";
    }

    /// <summary>The address of this page without its query: printers, filters, units and languages show the same thing another way.</summary>
    public static string OfPage(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Of(request, request.Path.ToUriComponent());
    }
}
