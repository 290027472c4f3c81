using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests.EveryPage;

/// <summary>Every page in a real browser, on a phone and on a desk, by day and by night. The pictures land in out/screenshots, to be looked at. A class for each kind of page, so that two are looked at side by side.</summary>
public abstract class PageLook(RunningCatalogue catalogue, Chromium chromium)
{
    protected const string Small = "process=VPP-rigid&volume=64x114x152&margin=2";
    protected const string LongName = "net-mender-with-a-very-long-name-that-has-to-wrap";

    protected RunningCatalogue Site { get; } = catalogue;

    protected Chromium Chromium { get; } = chromium;

    /// <summary>Pictures on both widths, on the phone by night too; nothing on the console, nothing wider than the window, nothing axe objects to by day or by night.</summary>
    protected async Task LookAsync(string name, string path)
    {
        foreach (var width in new[] { 390, 1280 })
        {
            await using var reader = await Chromium.ReaderAsync(width);
            var page = await reader.NewPageAsync();
            var complaints = new List<string>();
            page.Console += (_, message) =>
            {
                // A browser also reports the page's own 4xx status as an error; that is what some of these pages are.
                if (message.Type is "error" or "warning" && !message.Text.Contains("Failed to load resource", StringComparison.Ordinal)) complaints.Add(message.Text);
            };
            page.PageError += (_, error) => complaints.Add(error);
            page.RequestFailed += (_, request) => complaints.Add("failed: " + request.Url);
            await page.GotoAsync(Site.Address + path);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width, $"{path} is wider than {width} px");
            await Screenshots.TakeAsync(page, $"{name}-{width}-light");
            complaints.AddRange(await Accessibility.ViolationsAsync(page, "light"));
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
            complaints.AddRange(await Accessibility.ContrastViolationsAsync(page, "dark"));
            if (width < 600) await Screenshots.TakeAsync(page, $"{name}-{width}-dark"); // The desk has the same colours.
            Assert.Empty(complaints);
        }
    }
}
