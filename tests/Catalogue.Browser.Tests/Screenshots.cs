using Microsoft.Playwright;

namespace Catalogue.Browser.Tests;

/// <summary>The git-ignored folder the pictures go to.</summary>
internal static class Screenshots
{
    private const int Tries = 3;
    private static readonly string Folder = Workplace.Out("screenshots");

    /// <summary>The whole page, in a window as high as it is, so that what sticks to the window’s edge is where it belongs. What lies deeper than a surface without a graphics card can be is left off.</summary>
    public static async Task TakeAsync(IPage page, string name)
    {
        var width = page.ViewportSize!.Width;
        var height = await page.EvaluateAsync<int>("document.documentElement.scrollHeight");
        await page.SetViewportSizeAsync(width, Math.Clamp(height, 800, 8_000));
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                await page.ScreenshotAsync(new() { Path = Path.Combine(Folder, name.ToLowerInvariant() + ".png") });
                return;
            }
            catch (PlaywrightException busy) when (attempt < Tries && busy.Message.Contains("captureScreenshot", StringComparison.Ordinal))
            {
                // A loaded machine sometimes has no frame to give; the page itself is not at fault.
                await Task.Delay(TimeSpan.FromSeconds(attempt));
            }
        }
    }
}
