using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Every page in a real browser, on a phone and on a desk, by day and by night. The pictures land in out/screenshots, to be looked at.</summary>
public sealed class EveryPageTests(RunningCatalogue catalogue, Chromium chromium)
{
    private const string Small = "process=VPP-rigid&volume=64x114x152&margin=2";
    private const string Long = "net-mender-with-a-very-long-name-that-has-to-wrap";

    [Theory]
    [InlineData("range", "/")]
    [InlineData("range-printer", "/?" + Small)]
    [InlineData("range-volume-only", "/?volume=64x114x152")]
    [InlineData("range-round-inches", "/?process=MEX-rigid&round=180x280&unit=inch")]
    [InlineData("range-nothing", "/?q=anchor&verdict=care&" + Small)]
    [InlineData("range-narrowed", "/?q=lampligther&height=90-120&height=120-150&needs=rod&licence=CC-BY-4.0&verdict=suits&verdict=care&" + Small)]
    [InlineData("matrix", "/matrix")]
    [InlineData("matrix-large", "/matrix?volume=220x220x300")]
    public Task The_range_and_its_matrix(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("figure", "/figures/lamplighter")]
    [InlineData("figure-printer", "/figures/lamplighter?" + Small)]
    [InlineData("figure-filament", "/figures/lamplighter?process=MEX-rigid&volume=220x220x240&unit=inch")]
    [InlineData("figure-too-large", "/figures/crane-keeper?" + Small)]
    [InlineData("figure-put-together", "/figures/signal-keeper?" + Small)]
    [InlineData("figure-bare", "/figures/" + Long + "?" + Small)]
    public Task A_figure(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("scale", "/figures/lamplighter/scale")]
    [InlineData("scale-smaller", "/figures/lamplighter/scale?percent=80&" + Small)]
    [InlineData("scale-larger", "/figures/lamplighter/scale?percent=170&unit=inch&process=MEX-rigid&volume=220x220x240")]
    [InlineData("scale-as-drawn", "/figures/crane-keeper/scale?" + Small)]
    [InlineData("scale-wrong", "/figures/lamplighter/scale?percent=tiny&" + Small)]
    public Task A_figure_at_another_size(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("part", "/figures/lamplighter/parts/arm")]
    [InlineData("part-printer", "/figures/lamplighter/parts/arm?" + Small)]
    [InlineData("part-turned", "/figures/ferryman/parts/oar?unit=inch&" + Small)]
    [InlineData("part-too-large", "/figures/crane-keeper/parts/jib?" + Small)]
    [InlineData("part-two-variants", "/figures/lamplighter/parts/body?" + Small)]
    [InlineData("part-orientations", "/figures/lamplighter/parts/body/orientations?" + Small)]
    [InlineData("part-orientations-no-printer", "/figures/lamplighter/parts/body/orientations")]
    [InlineData("report", "/figures/lamplighter/parts/arm/report?" + Small)]
    [InlineData("report-thanks", "/figures/lamplighter/parts/arm/report?thanks=true")]
    public Task A_part_and_its_reports(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("printer", "/printer")]
    [InlineData("printer-set", "/printer?unit=inch&" + Small)]
    [InlineData("printer-pace", "/printer?process=VPP-rigid&volume=64x114x152&layer=0.03&cycle=6")]
    [InlineData("printer-wrong", "/printer?save=true&plate=box&width=abc&depth=114&height=&margin=2")]
    [InlineData("printer-link-wrong", "/printer?volume=huge")]
    [InlineData("first-visit", "/first-visit")]
    [InlineData("first-visit-printer", "/first-visit?" + Small)]
    [InlineData("words", "/words")]
    [InlineData("cautions", "/cautions")]
    [InlineData("rules", "/rules")]
    [InlineData("offline", "/offline")]
    [InlineData("mine", "/mine")]
    public Task My_printer_and_the_cautions(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("error-nothing-here", "/nothing-here")]
    [InlineData("error-figure-missing", "/figures/nobody")]
    [InlineData("error-process-unknown", "/?process=XYZ-odd")]
    public Task What_cannot_be_shown(string name, string path) => LookAsync(name, path);

    [Theory]
    // A4 less margins of 14 mm at 96 px an inch: 688 px upright, 1017 px on its side.
    [InlineData("print-figure", "/figures/lamplighter?" + Small, 688)]
    [InlineData("print-matrix", "/matrix", 1017)]
    public async Task On_paper(string name, string path, int width)
    {
        await using var reader = await chromium.ReaderAsync(width);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + path);
        await page.EmulateMediaAsync(new() { Media = Media.Print, ColorScheme = ColorScheme.Light });
        await Screenshots.TakeAsync(page, name);
        Assert.True(await page.EvaluateAsync<int>("Math.max(document.documentElement.scrollWidth, document.querySelector('main').scrollWidth)") <= width, $"{path} is wider than the paper");
        Assert.False(await page.Locator(".places").IsVisibleAsync());
        Assert.False(await page.Locator("main .button").First.IsVisibleAsync());
    }

    /// <summary>Pictures on both widths in both schemes; nothing on the console, nothing wider than the window, nothing axe objects to.</summary>
    private async Task LookAsync(string name, string path)
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
            if (width < 600) complaints.AddRange(await Accessibility.ContrastViolationsAsync(page, "dark")); // The desk has the same colours.
            Assert.Empty(complaints);
        }
    }
}
