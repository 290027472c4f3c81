using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests.EveryPage;

/// <summary>Pages as they are printed.</summary>
public sealed class PaperTests(RunningCatalogue catalogue, Chromium chromium) : PageLook(catalogue, chromium)
{
    [Theory]
    // A4 less margins of 14 mm at 96 px an inch: 688 px upright, 1017 px on its side.
    [InlineData("print-figure", "/figures/lamplighter?" + Small, 688)]
    [InlineData("print-matrix", "/matrix", 1017)]
    public async Task On_paper(string name, string path, int width)
    {
        await using var reader = await Chromium.ReaderAsync(width);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(Site.Address + path);
        await page.EmulateMediaAsync(new() { Media = Media.Print, ColorScheme = ColorScheme.Light });
        await Screenshots.TakeAsync(page, name);
        Assert.True(await page.EvaluateAsync<int>("Math.max(document.documentElement.scrollWidth, document.querySelector('main').scrollWidth)") <= width, $"{path} is wider than the paper");
        Assert.False(await page.Locator(".places").IsVisibleAsync());
        Assert.False(await page.Locator("main .button").First.IsVisibleAsync());
    }
}
