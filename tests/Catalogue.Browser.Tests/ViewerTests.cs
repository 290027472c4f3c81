using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>The viewer, really driven: by mouse, by keys and by touch, in software.</summary>
public sealed class ViewerTests(RunningCatalogue catalogue, Chromium chromium)
{
    private const float Patience = 60_000;
    private const string Hinged = "/figures/signal-keeper/parts/arm?process=VPP-rigid&volume=64x114x152&margin=2";
    private const string Arm = "/figures/lamplighter/parts/arm?process=VPP-rigid&volume=64x114x152&margin=2";

    [Fact]
    public async Task Keys_turn_a_part_and_nothing_complains()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        var complaints = Listen(page);
        await OpenAsync(page, "/figures/lamplighter/parts/body?process=VPP-rigid&volume=64x114x152");
        var canvas = page.Locator(".look-canvas");
        var first = await canvas.ScreenshotAsync();
        await canvas.FocusAsync();
        for (var i = 0; i < 5; i++) await page.Keyboard.PressAsync("ArrowRight");
        await DrawnAsync(page);
        Assert.NotEqual(first, await canvas.ScreenshotAsync());
        Assert.Contains("Seen from", await page.Locator(".look-status").InnerTextAsync(), StringComparison.Ordinal);
        await page.Keyboard.PressAsync("0");
        await DrawnAsync(page);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task The_mouse_turns_moves_and_measures()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        await OpenAsync(page, Arm);
        var canvas = page.Locator(".look-canvas");
        var box = await canvas.BoxAtRestAsync();
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        var first = await canvas.ScreenshotAsync();
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + 120, y + 10, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        await DrawnAsync(page);
        Assert.NotEqual(first, await canvas.ScreenshotAsync());

        await page.GetByRole(AriaRole.Button, new() { Name = "Whole again" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Measure" }).ClickAsync();
        await DrawnAsync(page);

        // The arm is a prism of 8 mm across and 46 mm high: both places lie on its wall, one above the other.
        await page.Mouse.ClickAsync(x, y - (box.Height / 8));
        await page.Mouse.ClickAsync(x, y + (box.Height / 8));
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("mm apart", new() { Timeout = Patience });
        Assert.Matches("^[0-9.]+ mm apart: .* along x, .* along y, [1-9][0-9.]* mm along z", await page.Locator(".look-status").InnerTextAsync());
        await Screenshots.TakeAsync(page, "viewer-measure-1280");
    }

    [Theory]
    [InlineData(390, ColorScheme.Light), InlineData(1280, ColorScheme.Dark)]
    public async Task An_overlay_is_on_the_surface_and_in_words(int width, ColorScheme scheme)
    {
        await using var reader = await chromium.ReaderAsync(width, scheme);
        var page = await reader.NewPageAsync();
        var complaints = Listen(page);
        await OpenAsync(page, "/figures/ferryman/parts/hat?process=MEX-rigid&volume=220x220x240");
        var canvas = page.Locator(".look-canvas");
        await canvas.FocusAsync();
        for (var i = 0; i < 8; i++) await page.Keyboard.PressAsync("ArrowDown"); // From below, where the hat rests on the plate.
        await DrawnAsync(page);
        var plain = await canvas.ScreenshotAsync();
        await page.GetByLabel("Show on the surface").SelectOptionAsync("overhangs");
        await Assertions.Expect(page.Locator(".look-kinds li")).ToHaveCountAsync(3, new() { Timeout = Patience });
        await DrawnAsync(page);
        Assert.NotEqual(plain, await canvas.ScreenshotAsync());
        Assert.Contains("hangs over more than 45°", await page.Locator(".look-legend").InnerTextAsync(), StringComparison.Ordinal);
        complaints.AddRange(await Accessibility.ViolationsAsync(page, "overlay"));
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width);
        await Screenshots.TakeAsync(page, $"viewer-overlay-{width}-{scheme}");
        await page.GetByLabel("Show on the surface").SelectOptionAsync("");
        await DrawnAsync(page);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task The_printer_stands_around_the_part()
    {
        await using var reader = await chromium.ReaderAsync(390);
        var page = await reader.NewPageAsync();
        await OpenAsync(page, Arm);
        var canvas = page.Locator(".look-canvas");
        var alone = await canvas.ScreenshotAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "In my printer" }).ClickAsync();
        await DrawnAsync(page);
        Assert.NotEqual(alone, await canvas.ScreenshotAsync());
        Assert.Contains("fits", await page.Locator(".look-status").InnerTextAsync(), StringComparison.Ordinal);
        await Screenshots.TakeAsync(page, "viewer-printer-390-light");
        await page.EmulateMediaAsync(new() { ForcedColors = ForcedColors.Active });
        await Screenshots.TakeAsync(page, "viewer-printer-390-forced");
    }

    [Fact]
    public async Task A_finding_is_turned_to_and_marked_by_click_and_by_link()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        var complaints = Listen(page);
        await OpenAsync(page, Hinged);
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("triangles", new() { Timeout = Patience });
        var canvas = page.Locator(".look-canvas");
        var whole = await canvas.ScreenshotAsync();
        foreach (var fold in await page.Locator("details.notes").AllAsync()) await fold.EvaluateAsync("d => d.open = true");
        var link = page.Locator("a.where").First;
        await link.ClickAsync();
        await DrawnAsync(page);
        Assert.Contains("finding=", page.Url, StringComparison.Ordinal);
        Assert.NotEqual(whole, await canvas.ScreenshotAsync());
        Assert.Equal("true", await link.GetAttributeAsync("aria-current"));
        await Assertions.Expect(page.Locator(".look-mark-finding")).ToHaveTextAsync("here");

        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("[data-looking]")).ToHaveCountAsync(1, new() { Timeout = Patience });
        await Assertions.Expect(page.Locator(".look-mark-finding")).ToHaveTextAsync("here");
        complaints.AddRange(await Accessibility.ViolationsAsync(page, "finding"));
        await Screenshots.TakeAsync(page, "viewer-finding-1280-light");
        Assert.Empty(complaints);
    }

    [Theory]
    [InlineData(390, ColorScheme.Dark), InlineData(1280, ColorScheme.Light)]
    public async Task A_figure_is_taken_apart_bent_and_its_choice_switched(int width, ColorScheme scheme)
    {
        await using var reader = await chromium.ReaderAsync(width, scheme);
        var page = await reader.NewPageAsync();
        var complaints = Listen(page);
        await OpenAsync(page, "/figures/signal-keeper?process=VPP-rigid&volume=64x114x152");
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("4 pieces", new() { Timeout = Patience });
        var canvas = page.Locator(".look-canvas");
        var built = await canvas.ScreenshotAsync();
        await page.GetByLabel("Taken apart").FillAsync("80");
        await DrawnAsync(page);
        var apart = await canvas.ScreenshotAsync();
        Assert.NotEqual(built, apart);
        await Screenshots.TakeAsync(page, $"viewer-figure-apart-{width}-{scheme}");
        await page.GetByLabel("Taken apart").FillAsync("0");

        await page.GetByText("Bend its joints (2)").ClickAsync();
        await page.GetByLabel("Shoulders: Arm 1").FillAsync("90");
        await DrawnAsync(page);
        var bent = await canvas.ScreenshotAsync();
        Assert.NotEqual(built, bent);
        await page.GetByLabel("Flag", new() { Exact = true }).SelectOptionAsync("Short flag");
        await DrawnAsync(page);
        Assert.NotEqual(bent, await canvas.ScreenshotAsync());
        complaints.AddRange(await Accessibility.ViolationsAsync(page, "figure"));
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width);
        await Screenshots.TakeAsync(page, $"viewer-figure-bent-{width}-{scheme}");
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task A_ball_joint_turns_freely_by_slider_and_by_dragging()
    {
        await HarbourRange.NodderAsync(catalogue.Services);
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        var complaints = Listen(page);
        await OpenAsync(page, "/figures/nodder");
        await page.GetByText("Bend its joints (1)").ClickAsync();
        var canvas = page.Locator(".look-canvas");
        await DrawnAsync(page);
        var built = await canvas.ScreenshotAsync();
        await page.GetByLabel("Neck: Head, about x").FillAsync("-30");
        await DrawnAsync(page);
        var nodding = await canvas.ScreenshotAsync();
        Assert.NotEqual(built, nodding);
        await page.GetByRole(AriaRole.Button, new() { Name = "As it was built" }).ClickAsync();
        await DrawnAsync(page);
        Assert.Equal("0", await page.GetByLabel("Neck: Head, about x").InputValueAsync());

        await page.GetByRole(AriaRole.Button, new() { Name = "Drag the parts" }).ClickAsync();
        var box = await canvas.BoxAtRestAsync();
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height * 0.3f)); // The head is above the middle.
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + 80, y, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        Assert.NotEqual("0", await page.GetByLabel("Neck: Head, about z").InputValueAsync());
        complaints.AddRange(await Accessibility.ViolationsAsync(page, "ball joint"));
        await Screenshots.TakeAsync(page, "viewer-ball-1280-light");
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task Without_scripts_the_picture_shows_where()
    {
        await using var reader = await chromium.ReaderAsync(390, javaScript: false);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + Hinged);
        var link = await page.Locator("a.where").First.GetAttributeAsync("href");
        await page.GotoAsync(catalogue.Address + link);
        Assert.Equal("Where it is", await page.Locator("#look-title").InnerTextAsync());
        Assert.Contains("/finding/", await page.Locator(".look-stage img").GetAttributeAsync("src") ?? "", StringComparison.Ordinal);
        Assert.Equal(0, await page.Locator(".look-canvas").CountAsync());
        await Screenshots.TakeAsync(page, "viewer-no-script-390-light");
    }

    [Fact]
    public async Task Without_webgl_the_picture_stays_and_says_so()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        await reader.AddInitScriptAsync("HTMLCanvasElement.prototype.getContext = () => null;");
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + Arm);
        await page.GetByRole(AriaRole.Button, new() { Name = "Turn it" }).ClickAsync();
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("the picture stays", new() { Timeout = Patience });
        Assert.True(await page.Locator(".look-stage img").IsVisibleAsync());
    }

    [Fact]
    public async Task A_page_of_another_site_shows_it_in_a_frame()
    {
        using var other = new OtherSite($"<!DOCTYPE html><html lang=\"en\"><title>Another site</title><iframe src=\"{catalogue.Address}/embed{Arm}\" width=\"640\" height=\"600\" title=\"An arm\"></iframe></html>");
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(other.Address);
        var frame = page.FrameLocator("iframe");
        await frame.GetByRole(AriaRole.Button, new() { Name = "Turn it" }).ClickAsync();
        await Assertions.Expect(frame.Locator("[data-looking]")).ToHaveCountAsync(1, new() { Timeout = Patience });
        await Screenshots.TakeAsync(page, "viewer-framed-1280");
    }

    private async Task OpenAsync(IPage page, string path)
    {
        await page.GotoAsync(catalogue.Address + path);
        await page.GetByRole(AriaRole.Button, new() { Name = "Turn it" }).ClickAsync();
        await Assertions.Expect(page.Locator("[data-looking]")).ToHaveCountAsync(1, new() { Timeout = Patience });
        await DrawnAsync(page);
    }

    /// <summary>Two frames later everything that was asked for is drawn.</summary>
    private static async Task DrawnAsync(IPage page) => await page.EvaluateAsync("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50))))");

    private static List<string> Listen(IPage page)
    {
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning" && !message.Text.Contains("GPU stall due to ReadPixels", StringComparison.Ordinal)) complaints.Add(message.Text);
        };
        page.PageError += (_, error) => complaints.Add(error);
        return complaints;
    }
}
