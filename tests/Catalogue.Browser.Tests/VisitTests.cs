using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>The visitor's main job, done on a phone.</summary>
public sealed partial class VisitTests(RunningCatalogue catalogue, Chromium chromium)
{
    [Theory, InlineData(true), InlineData(false)]
    public async Task From_naming_the_printer_to_the_right_file_and_back_with_a_report(bool javaScript)
    {
        await using var reader = await chromium.ReaderAsync(width: 390, javaScript: javaScript);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address);
        await page.GetByRole(AriaRole.Link, new() { Name = "Choose my printer" }).ClickAsync();
        await page.GetByRole(AriaRole.Radio, new() { Name = "Resin, rigid" }).CheckAsync();
        await page.GetByLabel("Width, mm").FillAsync("64");
        await page.GetByLabel("Depth, mm").FillAsync("114");
        await page.GetByLabel("Height, mm").First.FillAsync("152");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this and show what suits it" }).ClickAsync();

        await Assertions.Expect(page.GetByText("Shown for your printer")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { NameRegex = JustSuits() }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Lamplighter" }).ClickAsync();
        await Assertions.Expect(page.GetByText("All 5 parts fit.")).ToBeVisibleAsync();
        var download = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "Download Arm" }).ClickAsync());
        Assert.Equal("lamplighter-arm-all-r2.stl", download.SuggestedFilename);

        await page.GetByRole(AriaRole.Link, new() { Name = "Arm", Exact = true }).First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Report how it went" }).First.ClickAsync();
        await page.GetByRole(AriaRole.Radio, new() { Name = "It worked", Exact = true }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Send the report" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Thank you" })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Without_a_connection_the_figure_looked_at_last_is_still_there()
    {
        await using var reader = await chromium.ReaderAsync(width: 390);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address);
        await page.EvaluateAsync("navigator.serviceWorker.ready");
        await page.GotoAsync(catalogue.Address + "/figures/lamplighter?process=VPP-rigid&volume=64x114x152");
        await page.WaitForFunctionAsync("async (path) => !!(await caches.match(path))", "/figures/lamplighter");
        await reader.SetOfflineAsync(true);
        await page.ReloadAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Lamplighter", Level = 1 })).ToBeVisibleAsync();

        // Any other page says what is the matter and what there is.
        await page.GotoAsync(catalogue.Address + "/matrix");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "No connection" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Lamplighter" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Lamplighter", Level = 1 })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_keyboard_alone_skips_to_the_content_and_reaches_a_figure()
    {
        await using var reader = await chromium.ReaderAsync(width: 1280);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + "/?process=VPP-rigid&volume=64x114x152&q=lamplighter");
        await page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the content", await FocusedAsync(page));
        await page.Keyboard.PressAsync("Enter");
        for (var pressed = 0; pressed < 20 && await FocusedAsync(page) != "Lamplighter"; pressed++) await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/figures/lamplighter?**");
    }

    /// <summary>The filter with its count, which is not that of “suits with care”.</summary>
    [GeneratedRegex("^suits \\d+$")]
    private static partial Regex JustSuits();

    private static Task<string> FocusedAsync(IPage page) => page.EvaluateAsync<string>("(document.activeElement.textContent || '').trim()");
}
