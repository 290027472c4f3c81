using Microsoft.Playwright;

namespace Catalogue.Browser.Tests;

/// <summary>Where things are once the page has come to rest.</summary>
internal static class AtRest
{
    /// <summary>The box of an element that the pointer is on. Pages scroll smoothly, so a box asked for at once may be that of a moment ago, and a press there may miss.</summary>
    public static async Task<LocatorBoundingBoxResult> BoxAtRestAsync(this ILocator element)
    {
        await element.HoverAsync();
        return (await element.BoundingBoxAsync())!;
    }
}
