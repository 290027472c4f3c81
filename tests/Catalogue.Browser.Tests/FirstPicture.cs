using System.Globalization;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>
/// How long the first picture of a part of a million triangles takes, from the press on its button: cold (its shape is made then) and warm. A measure, no test: it asserts no time and runs only when it is asked for
/// (DEVELOPERS.md, “Measure”), on a quiet machine.
/// </summary>
public sealed class FirstPicture(RunningCatalogue catalogue, Chromium chromium)
{
    private const string Press = """
        () => new Promise(done => {
          const box = document.querySelector('.look-stage');
          const picture = box.querySelector('img');
          const start = performance.now();
          new MutationObserver(() => {
            if (picture.hidden) box.addEventListener('look:drawn', () => done(performance.now() - start), { once: true });
          }).observe(picture, { attributes: true });
          document.querySelector('.look-tools button').click();
        })
        """;

    private const string Picture = """
        async () => {
          const picture = document.querySelector('.look-stage img');
          if (!picture.complete) await new Promise(done => picture.onload = picture.onerror = done);
          await picture.decode();
          return performance.now();
        }
        """;

    [Fact(Explicit = true)]
    public async Task Of_a_million_triangles_cold_and_warm()
    {
        await HarbourRange.MillionAsync(catalogue.Services, Solids.Tube(1000, 500, (u, w) =>
        {
            var tube = 8 + (0.6 * Math.Sin(9 * u) * Math.Sin(7 * w));
            return new((24 + (tube * Math.Cos(w))) * Math.Cos(u), (24 + (tube * Math.Cos(w))) * Math.Sin(u), tube * Math.Sin(w));
        }));
        foreach (var state in new[] { "cold", "warm" })
        {
            await using var reader = await chromium.ReaderAsync(1280);
            var page = await reader.NewPageAsync();
            await page.GotoAsync(catalogue.Address + "/figures/million/parts/body", new() { WaitUntil = Microsoft.Playwright.WaitUntilState.DOMContentLoaded });
            var picture = await page.EvaluateAsync<double>(Picture);
            var model = await page.EvaluateAsync<double>(Press);
            var load = File.Exists("/proc/loadavg") ? (await File.ReadAllTextAsync("/proc/loadavg")).Split(' ')[0] : "unknown";
            TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{state}: the server's picture {picture:0} ms after the page was asked for, the first model {model:0} ms after the press; load {load}"));
        }
    }
}
