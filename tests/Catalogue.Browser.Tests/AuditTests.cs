using System.Text.Json;
using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Weight, calm and good practice of the pages people come for. Times are not here: they say more about the machine (see DEVELOPERS.md, “Audit”).</summary>
public sealed class AuditTests(RunningCatalogue catalogue, Chromium chromium)
{
    private const string Printer = "process=VPP-rigid&volume=64x114x152&margin=2";

    /// <summary>What a reader waits for on a slow line, pictures included, the viewer not: it is fetched when somebody asks for it.</summary>
    private const int MostBytes = 150_000;

    private const double MostMoved = 0.001;

    // Bytes on the wire as the Resource Timing API (W3C) tells them; movement as the Layout Instability API (WICG) tells it.
    // What moved is told with it, so that a failure names its cause.
    private const string Watch = """
        window.moved = 0;
        window.shifts = [];
        const place = box => `${Math.round(box.x)},${Math.round(box.y)} ${Math.round(box.width)}×${Math.round(box.height)}`;
        const told = source => `${source.node?.nodeName ?? 'gone'}.${source.node?.getAttribute?.('class') ?? ''} from ${place(source.previousRect)} to ${place(source.currentRect)}`;
        new PerformanceObserver(list => {
          for (const shift of list.getEntries()) {
            if (shift.hadRecentInput) continue;
            window.moved += shift.value;
            window.shifts.push(`${shift.value.toFixed(4)} at ${Math.round(shift.startTime)} ms, scrolled ${Math.round(scrollY)}: ${shift.sources.map(told).join('; ')}`);
          }
        }).observe({ type: 'layout-shift', buffered: true });
        """;

    private const string Weigh = """
        async () => {
          for (let y = 0; y < document.documentElement.scrollHeight; y += innerHeight / 2) {
            scrollTo({ top: y, behavior: 'instant' });
            await new Promise(requestAnimationFrame);
          }
          // Pictures in what is folded away are not fetched before it is opened.
          const shown = [...document.images].filter(image => image.checkVisibility());
          await Promise.race([
            Promise.all(shown.map(image => image.complete || new Promise(done => image.onload = image.onerror = done))),
            new Promise((_, fail) => setTimeout(() => fail(new Error('Pictures that never come: ' + shown.filter(image => !image.complete).map(image => image.src))), 60_000)),
          ]);
          await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
          const loaded = [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')];
          return { bytes: loaded.reduce((sum, one) => sum + one.transferSize, 0), moved: window.moved, shifts: window.shifts, viewer: loaded.filter(one => one.name.includes('/three')).length };
        }
        """;

    [Theory]
    [InlineData("/")]
    [InlineData("/?" + Printer)]
    [InlineData("/matrix")]
    [InlineData("/figures/lamplighter?" + Printer)]
    [InlineData("/figures/signal-keeper?" + Printer)]
    [InlineData("/figures/lamplighter/parts/arm?" + Printer)]
    [InlineData("/printer")]
    public async Task A_page_is_light_and_nothing_on_it_jumps(string path)
    {
        foreach (var width in new[] { 390, 1280 })
        {
            await using var reader = await chromium.ReaderAsync(width);
            var seen = await VisitAsync(reader, catalogue.Address + path);
            Assert.InRange(seen.GetProperty("bytes").GetInt32(), 1_000, MostBytes);
            Assert.Equal(0, seen.GetProperty("viewer").GetInt32());
            Assert.True(Moved(seen) <= MostMoved, $"{path} moves by itself at {width} px: {seen}");
        }
    }

    // A busy machine shows now and then what a slow line shows every time: pages painted before all of them, or all that belongs to them, is there.
    [Theory]
    [InlineData("/?" + Printer, 390)]
    [InlineData("/?" + Printer, 1280)]
    [InlineData("/figures/signal-keeper?" + Printer, 1280)]
    [InlineData("/figures/lamplighter/parts/body?" + Printer, 390)]
    public async Task Nothing_jumps_for_what_comes_in_pieces_and_late(string path, int width)
    {
        await using var line = await SlowLine.ToAsync(catalogue);
        await using var reader = await chromium.ReaderAsync(width);
        var seen = await VisitAsync(reader, line.Address + path);
        Assert.True(Moved(seen) <= MostMoved, $"{path} moves at {width} px on a slow line: {seen}");
    }

    private static double Moved(JsonElement seen) => seen.GetProperty("moved").GetDouble();

    private static async Task<JsonElement> VisitAsync(IBrowserContext reader, string address)
    {
        await reader.AddInitScriptAsync(Watch);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(address);
        var seen = await page.EvaluateAsync<JsonElement>(Weigh);
        TestContext.Current.TestOutputHelper?.WriteLine($"{address}: {seen.GetRawText()}");
        return seen;
    }

    // Lighthouse (npm), the categories that no clock decides; performance is audited by hand.
    [Fact]
    public async Task Range_figure_and_matrix_score_at_least_95_for_accessibility_good_practice_and_search()
    {
        Assert.SkipWhen(Chromium.Path is null, "No Chromium here: install it, or set CHROMIUM to its path.");
        string[] addresses = [.. new[] { "/", "/figures/lamplighter", "/matrix" }.Select(path => catalogue.Address + path)];
        var printed = await PageCheckers.RunAsync("audit.mjs", ["--chrome", Chromium.Path, "--only", "accessibility,best-practices,seo", "--form", "mobile", .. addresses]);
        var audits = printed.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonElement.Parse(line)).ToList();
        Assert.Equal(addresses, audits.Select(a => a.GetProperty("address").GetString()));
        Assert.All(audits, audit => Assert.All(audit.GetProperty("scores").EnumerateObject(), score => Assert.True(score.Value.GetInt32() >= 95, $"{score.Name}: {audit.GetRawText()}")));
    }
}
