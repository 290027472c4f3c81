using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Readers who enlarge, want nothing to move or bring colours of their own. The pictures land in out/screenshots.</summary>
public sealed class EnlargedAndStillTests(RunningCatalogue catalogue, Chromium chromium)
{
    private const string Small = "process=VPP-rigid&volume=64x114x152&margin=2";

    /// <summary>What of the page's words is cut off or lies over the edge of the window; empty when nothing does.</summary>
    private const string CutOff = """
        () => {
          const out = [...document.querySelectorAll('main *, header *')].filter(e => {
            const style = getComputedStyle(e);
            if (e.closest('.table-scroll, .visually-hidden') || !e.textContent.trim() || style.position === 'absolute' || !e.checkVisibility({ visibilityProperty: true })) return false;
            const cuts = style.overflowX === 'hidden' || style.overflowX === 'clip';
            return e.getBoundingClientRect().right > innerWidth + 1 || (cuts && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1);
          });
          return out.map(e => `${e.tagName}.${e.className} ${e.textContent.trim().slice(0, 30)}`).join('; ');
        }
        """;

    public static TheoryData<string, string> Pages => new()
    {
        { "range", "/?" + Small },
        { "figure", "/figures/lamplighter?" + Small },
        { "part", "/figures/lamplighter/parts/arm?" + Small },
        { "matrix", "/matrix" },
        { "report", "/figures/lamplighter/parts/arm/report?" + Small },
    };

    [Theory, MemberData(nameof(Pages))]
    public async Task At_200_percent_nothing_is_cut_off(string name, string path)
    {
        // A window of 1280 × 800 at 200 % has room for 640 × 400; then its words alone twice as large.
        await using var reader = await chromium.ReaderAsync(width: 1280);
        var page = await reader.NewPageAsync();
        await page.SetViewportSizeAsync(640, 400);
        await page.GotoAsync(catalogue.Address + path);
        await Screenshots.TakeAsync(page, $"enlarged-{name}-640-light");
        Assert.Equal("", await page.EvaluateAsync<string>(CutOff));
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 640);

        await page.SetViewportSizeAsync(1280, 800);
        await page.EvaluateAsync("document.documentElement.style.fontSize = '200%'");
        Assert.Equal("", await page.EvaluateAsync<string>(CutOff));
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 1280);
    }

    [Theory, MemberData(nameof(Pages))]
    public async Task Where_nothing_is_to_move_nothing_does(string name, string path)
    {
        await using var reader = await chromium.ReaderAsync(width: 1280);
        var page = await reader.NewPageAsync();
        TestContext.Current.TestOutputHelper?.WriteLine(name);
        await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        await page.GotoAsync(catalogue.Address + path);
        await page.Keyboard.PressAsync("Tab");
        await page.Locator("main a").First.HoverAsync();
        Assert.Equal("", await page.EvaluateAsync<string>("""
            () => [
              ...document.getAnimations().map(a => a.constructor.name + ' ' + (a.animationName ?? a.transitionProperty)),
              ...(getComputedStyle(document.documentElement).scrollBehavior === 'smooth' ? ['smooth scrolling'] : []),
            ].join('; ')
            """));
    }

    [Theory, MemberData(nameof(Pages))]
    public async Task With_colours_of_their_own_everything_is_still_told_apart(string name, string path)
    {
        await using var reader = await chromium.ReaderAsync(width: 390);
        var page = await reader.NewPageAsync();
        await page.EmulateMediaAsync(new() { ForcedColors = ForcedColors.Active });
        await page.GotoAsync(catalogue.Address + path);
        await Screenshots.TakeAsync(page, $"own-colours-{name}-390");
        Assert.Empty(await Accessibility.ViolationsAsync(page, name, contrast: false));

        // A verdict keeps its word and its shape, each in a colour that is not the ground's.
        Assert.Equal("", await page.EvaluateAsync<string>("""
            () => [...document.querySelectorAll('main .verdict')].filter(verdict => {
              const shape = verdict.querySelector('svg');
              const ground = getComputedStyle(document.body).backgroundColor;
              return !verdict.textContent.trim() || !shape || [shape, verdict].some(e => getComputedStyle(e).color === ground);
            }).map(verdict => verdict.outerHTML).join('; ')
            """));
    }
}
