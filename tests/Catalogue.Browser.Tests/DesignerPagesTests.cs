using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>The designers' pages in a real browser, on a phone and on a desk. The pictures land in out/screenshots, to be looked at.</summary>
public sealed class DesignerPagesTests(RunningCatalogue catalogue, Chromium chromium)
{
    /// <summary>Names what makes the page wider than its window; empty when nothing does.</summary>
    private const string WiderThanTheWindow = """
        () => document.documentElement.scrollWidth <= innerWidth ? '' : location.pathname + ': ' + [...document.querySelectorAll('main *')]
          .filter(e => e.getBoundingClientRect().right > innerWidth && !e.closest('.table-scroll table')).map(e => e.tagName + '.' + e.className + ' ' + e.textContent.trim().slice(0, 30)).join('; ')
        """;

    /// <summary>Every page of designers and of the host.</summary>
    internal static readonly (string Name, string Path)[] Pages =
    [
        ("drafts", "/drafts"),
        ("draft", $"/drafts/{Workshop.Figure}"),
        ("draft-part", $"/drafts/{Workshop.Figure}/parts/torso"),
        ("draft-part-rejected", $"/drafts/{Workshop.Figure}/parts/lit-front"),
        ("draft-part-flawed", $"/drafts/{Workshop.Figure}/parts/{Workshop.Flawed}"),
        ("repair", $"/repair/{Workshop.Figure}/{Workshop.Flawed}/standard/1"),
        ("publish", $"/publish/{Workshop.Figure}"),
        ("upload", $"/upload/{Workshop.Figure}/torso/standard"),
        ("edit-figure", $"/edit-figure/{Workshop.Figure}"),
        ("new-figure", "/edit-figure"),
        ("edit-part", $"/edit-part/{Workshop.Figure}/torso"),
        ("edit-variant", $"/edit-variant/{Workshop.Figure}/torso/standard"),
        ("edit-choices", $"/edit-choices/{Workshop.Figure}"),
        ("edit-assembly", $"/edit-assembly/{Workshop.Figure}"),
        ("edit-poses", $"/edit-poses/{Workshop.Figure}"),
        ("edit-photos", $"/edit-photos/{Workshop.Figure}"),
        ("figure-photos", $"/figures/{Workshop.Figure}"),
        ("account", "/account"),
        ("designers", "/account/designers"),
        ("processes-host", "/processes"),
        ("edit-limit", "/edit-limit/VPP-rigid/wall-free"),
        ("edit-printers", "/edit-printers"),
        ("edit-rate", "/edit-rate/VPP-rigid/price"),
        ("edit-currency", "/edit-currency"),
        ("inspect", "/inspect"),
    ];

    [Theory, InlineData(390), InlineData(1280)]
    public async Task Every_page_shows_without_errors_and_without_scrolling_sideways(int width)
    {
        await using var reader = await chromium.ReaderAsync(width);
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        var page = await workshop.SignInAsync(reader);
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning") complaints.Add(page.Url + ": " + message.Text);
        };
        page.PageError += (_, error) => complaints.Add(page.Url + ": " + error);
        foreach (var (name, path) in Pages)
        {
            await page.SetViewportSizeAsync(width, 844);
            var answer = await page.GotoAsync(catalogue.Address + path);
            Assert.Equal(200, answer!.Status);
            Assert.Equal("", await page.EvaluateAsync<string>(WiderThanTheWindow));
            complaints.AddRange(await Accessibility.ViolationsAsync(page, path));
            await Screenshots.TakeAsync(page, $"designer-{name}-{width}-light");
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
            complaints.AddRange(await Accessibility.ContrastViolationsAsync(page, path + ", dark"));
            if (width < 600) await Screenshots.TakeAsync(page, $"designer-{name}-{width}-dark"); // The desk has the same colours.
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
        }

        Assert.Empty(complaints);
    }

    [Fact]
    public async Task An_upload_shows_its_progress_and_its_verdict_without_the_page_being_loaded_again()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        var page = await workshop.SignInAsync(reader);
        var told = new List<string>();
        page.Response += (_, answer) =>
        {
            if (answer.Headers.GetValueOrDefault("content-type", "").StartsWith("text/event-stream", StringComparison.Ordinal)) told.Add(answer.Url);
        };
        await page.GotoAsync(catalogue.Address + $"/upload/{Workshop.Figure}/plain-front/standard");
        await page.GetByLabel("Mesh file").SetInputFilesAsync(new FilePayload { Name = "front.stl", MimeType = "model/stl", Buffer = await SphereAsync() });
        await page.GetByRole(AriaRole.Button, new() { Name = "Upload" }).ClickAsync();
        await page.WaitForURLAsync("**/parts/plain-front");
        await page.EvaluateAsync("window.sameDocument = true");
        await Screenshots.TakeAsync(page, "designer-inspecting-1280-light");
        await Assertions.Expect(page.Locator(".inspection")).ToHaveCountAsync(0, new() { Timeout = 60_000 });
        await Assertions.Expect(page.Locator("article", new() { HasText = "front.stl" }).First.Locator(".verdict").First).ToBeVisibleAsync();
        Assert.True(await page.EvaluateAsync<bool>("window.sameDocument === true"));
        Assert.NotEmpty(told);
        await Assertions.Expect(page.Locator("p[role=status]")).ToHaveTextAsync("Inspected.");
    }

    [Fact]
    public async Task A_flawed_revision_is_repaired_after_a_look_and_the_new_one_says_what_changed()
    {
        await using var reader = await chromium.ReaderAsync(390);
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        var page = await workshop.SignInAsync(reader);
        await page.GotoAsync(catalogue.Address + $"/drafts/{Workshop.Figure}/parts/{Workshop.Mendable}");
        await page.GetByRole(AriaRole.Link, new() { Name = "See what a repair would change" }).ClickAsync();
        await Assertions.Expect(page.GetByText("2 small flat holes filled").First).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Row, new() { Name = "Pieces inside out 1 0" })).ToBeVisibleAsync();
        await page.GetByLabel("Why this revision").FillAsync("Holes closed, handle turned.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Accept the repair" }).ClickAsync();
        await page.WaitForURLAsync($"**/parts/{Workshop.Mendable}");
        await Assertions.Expect(page.GetByText("Revision 2 is the repaired mesh.")).ToBeVisibleAsync();
        var made = page.Locator("article", new() { HasText = "Revision 2" }).First;
        await Assertions.Expect(made.GetByText("Since revision 1:")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Assertions.Expect(made.GetByText("closed, was open")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "See what a repair would change" })).ToHaveCountAsync(0);
        await Screenshots.TakeAsync(page, "designer-repaired-390-light");
        Assert.Empty(await Accessibility.ViolationsAsync(page, "repaired"));

        var refused = await page.GotoAsync(catalogue.Address + $"/repair/{Workshop.Figure}/{Workshop.Mendable}/standard/2");
        Assert.Equal(422, refused!.Status);
        await Assertions.Expect(page.GetByText("No repair is offered")).ToBeVisibleAsync();
        await Screenshots.TakeAsync(page, "designer-repair-refused-390-light");
        Assert.Empty(await Accessibility.ViolationsAsync(page, "refused"));
    }

    [Fact]
    public async Task A_file_over_the_cap_is_told_before_it_is_sent()
    {
        await using var reader = await chromium.ReaderAsync(390);
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        var page = await workshop.SignInAsync(reader);
        await page.GotoAsync(catalogue.Address + $"/upload/{Workshop.Figure}/torso/standard");
        await page.Locator("#file").EvaluateAsync("input => input.dataset.maxBytes = '100'");
        await page.GetByLabel("Mesh file").SetInputFilesAsync(new FilePayload { Name = "front.stl", MimeType = "model/stl", Buffer = await SphereAsync() });
        Assert.Contains("Choose a smaller mesh", await page.Locator("#file").EvaluateAsync<string>("input => input.validationMessage"), StringComparison.Ordinal);
        await page.GetByRole(AriaRole.Button, new() { Name = "Upload" }).ClickAsync();
        Assert.EndsWith("/torso/standard", page.Url, StringComparison.Ordinal);
    }

    private static Task<byte[]> SphereAsync()
    {
        using var stl = new MemoryStream();
        Geometry.Formats.Stl.StlWriter.Write(Geometry.Meshes.Solids.Icosphere(9, 6), stl);
        return Task.FromResult(stl.ToArray());
    }
}
