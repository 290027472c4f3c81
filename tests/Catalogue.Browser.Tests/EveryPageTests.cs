using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Every page in a real browser, on a phone and on a desk, by day and by night. The pictures land in out/screenshots, to be looked at.</summary>
public sealed class EveryPageTests(RunningCatalogue catalogue, Chromium chromium)
{
    public static TheoryData<string, string> Pages => new()
    {
        { "range", "/" },
        { "range-printer", Small("/") },
        { "range-volume-only", "/?volume=64x114x152" },
        { "range-round-inches", "/?process=MEX-rigid&round=180x280&unit=inch" },
        { "range-nothing", Small("/?q=anchor&verdict=care") },
        { "figure", "/figures/lamplighter" },
        { "figure-printer", Small("/figures/lamplighter") },
        { "figure-filament", "/figures/lamplighter?process=MEX-rigid&volume=220x220x240&unit=inch" },
        { "figure-too-large", Small("/figures/crane-keeper") },
        { "figure-bare", Small("/figures/net-mender-with-a-very-long-name-that-has-to-wrap") },
        { "part", "/figures/lamplighter/parts/arm" },
        { "part-printer", Small("/figures/lamplighter/parts/arm") },
        { "part-turned", Small("/figures/ferryman/parts/oar") + "&unit=inch" },
        { "part-too-large", Small("/figures/crane-keeper/parts/jib") },
        { "part-two-variants", Small("/figures/lamplighter/parts/body") },
        { "report", Small("/figures/lamplighter/parts/arm/report") },
        { "report-thanks", "/figures/lamplighter/parts/arm/report?thanks=true" },
        { "matrix", "/matrix" },
        { "matrix-large", "/matrix?volume=220x220x300" },
        { "figure-missing", "/figures/nobody" },
        { "range-process-unknown", "/?process=XYZ-odd" },
        { "printer", "/printer" },
        { "printer-set", "/printer?process=VPP-rigid&volume=64x114x152&margin=2" },
        { "printer-inches", "/printer?process=VPP-rigid&volume=64x114x152&margin=2&unit=inch" },
        { "printer-wrong", "/printer?save=true&plate=box&width=abc&depth=114&height=&margin=2" },
        { "printer-link-wrong", "/printer?volume=huge" },
        { "cautions", "/cautions" },
        { "nothing-here", "/nothing-here" },
    };

    private static string Small(string path) => path + (path.Contains('?', StringComparison.Ordinal) ? '&' : '?') + "process=VPP-rigid&volume=64x114x152&margin=2";

    [Theory, MemberData(nameof(Pages))]
    public async Task A_page_shows_without_errors_and_without_scrolling_sideways(string name, string path)
    {
        foreach (var width in new[] { 390, 1280 })
        {
            await using var reader = await chromium.ReaderAsync(width);
            var page = await reader.NewPageAsync();
            var complaints = new List<string>();
            page.Console += (_, message) =>
            {
                // A browser also reports the page's own 4xx status as an error; that is what some of these pages are.
                if (message.Type is "error" or "warning" && !message.Text.Contains("Failed to load resource", StringComparison.Ordinal)) complaints.Add(message.Text);
            };
            page.PageError += (_, error) => complaints.Add(error);
            page.RequestFailed += (_, request) => complaints.Add("failed: " + request.Url);
            await page.GotoAsync(catalogue.Address + path);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width, $"{path} is wider than {width} px");
            await Screenshots.TakeAsync(page, $"{name}-{width}-light");
            complaints.AddRange(await Accessibility.ViolationsAsync(page, "light"));
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
            await Screenshots.TakeAsync(page, $"{name}-{width}-dark");
            complaints.AddRange(await Accessibility.ViolationsAsync(page, "dark"));
            Assert.Empty(complaints);
        }
    }
}
