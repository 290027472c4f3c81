using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Every page in a real browser, on a phone and on a desk, by day and by night. The pictures land in out/screenshots, to be looked at.</summary>
public sealed class EveryPageTests(RunningCatalogue catalogue, Chromium chromium)
{
    public static TheoryData<string, string> Pages => new()
    {
        { "printer", "/printer" },
        { "printer-set", "/printer?process=VPP-rigid&volume=64x114x152&margin=2" },
        { "printer-inches", "/printer?process=VPP-rigid&volume=64x114x152&margin=2&unit=inch" },
        { "printer-wrong", "/printer?save=true&plate=box&width=abc&depth=114&height=&margin=2" },
        { "printer-link-wrong", "/printer?volume=huge" },
        { "cautions", "/cautions" },
        { "nothing-here", "/nothing-here" },
    };

    [Theory, MemberData(nameof(Pages))]
    public async Task A_page_shows_without_errors_and_without_scrolling_sideways(string name, string path)
    {
        foreach (var width in new[] { 390, 1280 })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                await using var reader = await chromium.ReaderAsync(width, scheme);
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
                await Screenshots.TakeAsync(page, $"{name}-{width}-{scheme}");
                Assert.Empty(complaints);
                Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width, $"{path} is wider than {width} px");
            }
        }
    }
}
