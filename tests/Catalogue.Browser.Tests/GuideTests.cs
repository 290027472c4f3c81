using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>A word explains itself where it stands, by keyboard and without any script.</summary>
public sealed class GuideTests(RunningCatalogue catalogue, Chromium chromium)
{
    [Theory, InlineData(390, true), InlineData(1280, true), InlineData(390, false)]
    public async Task A_word_opens_and_closes_by_keyboard(int width, bool scripts)
    {
        await using var reader = await chromium.ReaderAsync(width, javaScript: scripts);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + "/first-visit");
        var word = page.Locator("button.term-word", new() { HasTextString = "Pool" }).First;
        var meaning = page.Locator($"[id='{await word.GetAttributeAsync("popovertarget")}']");
        await Assertions.Expect(meaning).ToBeHiddenAsync();
        await word.FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(meaning).ToBeVisibleAsync();
        await Assertions.Expect(meaning).ToContainTextAsync("Resin that stays");
        var box = (await meaning.BoundingBoxAsync())!;
        Assert.InRange(box.X, 0, width - box.Width);
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(meaning).ToBeHiddenAsync();
        await word.ClickAsync();
        await meaning.GetByRole(AriaRole.Link).ClickAsync();
        await page.WaitForURLAsync("**/words#pool");
    }
}
