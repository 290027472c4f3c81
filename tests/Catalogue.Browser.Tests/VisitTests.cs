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
    public async Task The_keyboard_alone_does_the_whole_of_it()
    {
        await using var reader = await chromium.ReaderAsync(width: 1280);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address);
        await page.Keyboard.PressAsync("Tab");
        Assert.Equal("Skip to the content", await FocusedAsync(page));
        await PressOnAsync(page, "Choose my printer", "Enter", "**/printer*");
        await ChooseAsync(page, "I do not know yet", "Resin, rigid");
        await TypeAsync(page, "Width, mm", "64");
        await TypeAsync(page, "Depth, mm", "114");
        await TypeAsync(page, "Height, mm", "152");
        await PressOnAsync(page, "Keep this and show what suits it", "Enter", "**/?*");

        await PressOnAsync(page, "Lamplighter", "Enter", "**/figures/lamplighter*");
        await TabToAsync(page, "Download Arm");
        var download = await page.RunAndWaitForDownloadAsync(() => page.Keyboard.PressAsync("Enter"));
        Assert.Equal("lamplighter-arm-all-r2.stl", download.SuggestedFilename);

        await page.GotoAsync(page.Url.Split('?')[0] + "/parts/arm");
        await PressOnAsync(page, "Report how it went", "Enter", "**/report*");
        await ChooseAsync(page, "It failed", "It worked");
        await PressOnAsync(page, "Send the report", "Enter", "**/report*thanks*");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Thank you" })).ToBeVisibleAsync();
    }

    /// <summary>A group of radio buttons is one stop, at the one that is chosen or the first; arrows go through it.</summary>
    private static async Task ChooseAsync(IPage page, string stop, string wanted)
    {
        await TabToAsync(page, stop);
        await page.Keyboard.PressAsync("Space");
        for (var pressed = 0; !Is(await FocusedAsync(page), wanted); pressed++)
        {
            Assert.True(pressed < 20, $"{wanted} is not in the group of {stop}.");
            await page.Keyboard.PressAsync("ArrowDown");
        }
    }

    private static async Task TypeAsync(IPage page, string field, string value)
    {
        await TabToAsync(page, field);
        await page.Keyboard.PressAsync("ControlOrMeta+a");
        await page.Keyboard.TypeAsync(value);
    }

    private static async Task PressOnAsync(IPage page, string name, string key, string? leadsTo = null)
    {
        await TabToAsync(page, name);
        await page.Keyboard.PressAsync(key);
        if (leadsTo is not null) await page.WaitForURLAsync(leadsTo);
    }

    /// <summary>Goes on from stop to stop until it is there; each stop has to be seen.</summary>
    private static async Task TabToAsync(IPage page, string name)
    {
        var passed = new List<string>();
        for (var focused = await FocusedAsync(page); !Is(focused, name); focused = await FocusedAsync(page))
        {
            Assert.True(passed.Count < 120, $"{name} cannot be reached on {page.Url}: {string.Join(", ", passed)}");
            passed.Add(focused);
            await page.Keyboard.PressAsync("Tab");
            Assert.True(await page.EvaluateAsync<bool>(StopIsSeen), $"{await FocusedAsync(page)} has the focus and does not show it on {page.Url}");
        }
    }

    /// <summary>The filter with its count, which is not that of “suits with care”.</summary>
    [GeneratedRegex("^suits \\d+$")]
    private static partial Regex JustSuits();

    /// <summary>Its whole name, or its name before what is said of it.</summary>
    private static bool Is(string focused, string name) => focused == name || focused.StartsWith(name + " ", StringComparison.Ordinal);

    /// <summary>What has the focus, or what stands for it, has an outline; going round past the last stop there may be nothing.</summary>
    private const string StopIsSeen = """
        () => {
          const at = document.activeElement;
          if (!at || at === document.body) return true;
          return [at, at.closest('label'), at.nextElementSibling].some(e => e && getComputedStyle(e).outlineStyle !== 'none' && parseFloat(getComputedStyle(e).outlineWidth) > 0);
        }
        """;

    /// <summary>The name of what has the focus: its label, or its words.</summary>
    private static Task<string> FocusedAsync(IPage page) =>
        page.EvaluateAsync<string>("""
        () => {
          const at = document.activeElement;
          return (at.ariaLabel ?? (at.labels?.[0] ?? at).textContent).trim().replace(/\s+/g, ' ');
        }
        """);
}
