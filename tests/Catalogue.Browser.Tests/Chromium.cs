using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>The system's own Chromium, started once for all tests. Tests are skipped, with the reason, where there is none.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Usual = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    /// <summary>Milliseconds until a wait fails. A shared machine that draws without a graphics card may need long; what is really wrong fails all the same.</summary>
    private const float Patience = 120_000;

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>Where the browser is: the variable CHROMIUM first, then the usual places.</summary>
    public static string? Path { get; } = new[] { Environment.GetEnvironmentVariable("CHROMIUM") }.Concat(Usual).FirstOrDefault(File.Exists);

    public async ValueTask InitializeAsync()
    {
        if (Path is null) return;
        Assertions.SetDefaultExpectTimeout(Patience);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Path,
            Args =
            [
                "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
                "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
                "--disable-gpu-rasterization", // Debian asks for it, and without a graphics card it only makes pages slow to draw.
            ],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
    }

    /// <summary>A reader of their own: no cookies of others.</summary>
    public async Task<IBrowserContext> ReaderAsync(int width, ColorScheme scheme = ColorScheme.Light, bool javaScript = true)
    {
        Assert.SkipWhen(_browser is null, "No Chromium here: install it, or set CHROMIUM to its path.");
        var context = await _browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = width < 600 ? 844 : 800 },
            ColorScheme = scheme,
            JavaScriptEnabled = javaScript,
            HasTouch = width < 600,
            Locale = "en-GB",
        });
        context.SetDefaultTimeout(Patience);
        context.SetDefaultNavigationTimeout(Patience);
        return context;
    }
}
