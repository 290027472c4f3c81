namespace Catalogue.Web.Features.Shared;

/// <summary>Pages that other sites may show in a frame. All others refuse it, so that nobody can be led to press a button of theirs unseen.</summary>
internal static class Framing
{
    private static readonly object Mark = new();

    /// <summary>Says so of the page that is being answered; it has no form and knows no reader.</summary>
    public static void Allow(HttpContext context) => context.Items[Mark] = true;

    public static bool IsAllowed(HttpContext context) => context.Items.ContainsKey(Mark);

    /// <summary>Where the frame for a page of the site is.</summary>
    /// <param name="path">Of a figure or a part, without the path the site is served under.</param>
    public static string PathFor(string path) => "/embed" + path;
}
