using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Finding one's way through the range: the keyboard, the filters, and what the browser remembers.</summary>
public sealed class BrowsingTests(RunningCatalogue catalogue, Chromium chromium)
{
    [Fact]
    public async Task The_slash_goes_to_the_search_unless_one_writes_or_has_switched_it_off()
    {
        await using var reader = await chromium.ReaderAsync(width: 1280);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address);
        await page.Keyboard.PressAsync("/");
        Assert.Equal("q", await FocusedAsync(page));
        await page.Keyboard.TypeAsync("lampligther 1/2");
        Assert.Equal("lampligther 1/2", await page.GetByLabel("Words").InputValueAsync());
        await page.GetByLabel("Words").FillAsync("lampligther");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByText("Taken instead: for “lampligther” “lamplighter”.")).ToBeVisibleAsync();

        // Arrow keys stay the browser's own.
        await page.GotoAsync(catalogue.Address + "/matrix");
        await page.Keyboard.PressAsync("ArrowDown");
        Assert.NotEqual("q", await FocusedAsync(page));
        await page.Keyboard.PressAsync("/");
        Assert.Equal("q", await FocusedAsync(page));

        await page.GotoAsync(catalogue.Address + "/mine");
        await page.GetByRole(AriaRole.Checkbox, new() { NameRegex = new("goes to the search") }).UncheckAsync();
        await page.GotoAsync(catalogue.Address);
        await page.Keyboard.PressAsync("/");
        Assert.NotEqual("q", await FocusedAsync(page));
    }

    [Theory, InlineData(true), InlineData(false)]
    public async Task Filters_are_chosen_in_the_form_taken_away_one_by_one_and_found_again_with_the_back_button(bool javaScript)
    {
        await using var reader = await chromium.ReaderAsync(width: 390, javaScript: javaScript);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address);
        await page.GetByText("Narrow down by").ClickAsync();
        await page.GetByRole(AriaRole.Checkbox, new() { NameRegex = new("^rods") }).CheckAsync();
        await page.GetByRole(AriaRole.Checkbox, new() { NameRegex = new("^CC-BY-4.0") }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Show these" }).ClickAsync();
        await Assertions.Expect(page.GetByText("One figure", new() { Exact = true })).ToBeVisibleAsync();
        var chips = page.GetByRole(AriaRole.Navigation, new() { Name = "Filtered by" });
        await Assertions.Expect(chips.GetByRole(AriaRole.Link)).ToHaveCountAsync(3);
        await chips.GetByRole(AriaRole.Link, new() { NameRegex = new("rods") }).ClickAsync();
        await Assertions.Expect(chips.GetByRole(AriaRole.Link)).ToHaveCountAsync(1);
        await page.GoBackAsync();
        await Assertions.Expect(chips.GetByRole(AriaRole.Link)).ToHaveCountAsync(3);
        await chips.GetByRole(AriaRole.Link, new() { Name = "Take all away" }).ClickAsync();
        await Assertions.Expect(page.GetByText(new System.Text.RegularExpressions.Regex("^\\s*\\d+ figures\\s*$"))).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_own_list_stays_in_the_browser()
    {
        await using var reader = await chromium.ReaderAsync(width: 390);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + "/mine");
        await Assertions.Expect(page.GetByText("puts it here")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Forget all of this" })).ToBeHiddenAsync();

        await page.GotoAsync(catalogue.Address + "/figures/lamplighter?process=VPP-rigid");
        await page.GetByRole(AriaRole.Button, new() { Name = "To print" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "To print", Pressed = true })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("It is on your list, in this browser.")).ToBeVisibleAsync();
        await page.GotoAsync(catalogue.Address + "/figures/ferryman");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "To print" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Range" }).First.ClickAsync();
        var lately = page.GetByRole(AriaRole.Region, new() { Name = "Looked at lately" });
        await Assertions.Expect(lately.Locator("li")).ToHaveTextAsync(["Ferryman", "Lamplighter"]);
        await Assertions.Expect(page.Locator("[data-figure=lamplighter] .card-mine")).ToHaveTextAsync("to print");
        await Screenshots.TakeAsync(page, "range-mine-390-light");

        // From here on nothing of the list may leave the browser.
        var sent = new List<string>();
        page.Request += (_, request) => sent.Add(request.Url);
        await lately.GetByRole(AriaRole.Link, new() { Name = "My list" }).ClickAsync();
        var save = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Button, new() { Name = "Save as text" }).ClickAsync());
        Assert.Equal("my-figures.txt", save.SuggestedFilename);
        Assert.Matches("^To print\n- Lamplighter  http://.*/figures/lamplighter\n", await File.ReadAllTextAsync(await save.PathAsync()));
        await page.GetByRole(AriaRole.Button, new() { Name = "Printed Lamplighter" }).ClickAsync();
        var printed = page.GetByRole(AriaRole.Region, new() { Name = "Printed" });
        await Assertions.Expect(printed.GetByRole(AriaRole.Link, new() { Name = "Lamplighter" })).ToBeVisibleAsync();
        Assert.Empty(await Accessibility.ViolationsAsync(page, "light"));
        await Screenshots.TakeAsync(page, "mine-filled-390-light");
        await page.GetByRole(AriaRole.Button, new() { Name = "Forget all of this" }).ClickAsync();
        await Assertions.Expect(page.GetByText("This browser has forgotten all of it.")).ToBeVisibleAsync();
        Assert.Equal("{\"list\":[],\"seen\":[]}", await page.EvaluateAsync<string>(
            "(() => { const { list, seen } = JSON.parse(localStorage.getItem('catalogue.mine /')); return JSON.stringify({ list, seen }); })()"));
        Assert.DoesNotContain(sent, s => s.Contains("lamplighter", StringComparison.Ordinal) || s.Contains("/api/", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Without_JavaScript_the_list_is_not_there_and_says_so()
    {
        await using var reader = await chromium.ReaderAsync(width: 390, javaScript: false);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + "/figures/lamplighter");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Lamplighter", Level = 1 })).ToBeVisibleAsync();
        Assert.Equal(0, await page.GetByRole(AriaRole.Button, new() { Name = "To print" }).CountAsync());
        Assert.Null(await page.Locator(".keep").BoundingBoxAsync()); // Not even its room.
        await page.GotoAsync(catalogue.Address);
        await Assertions.Expect(page.GetByText("Looked at lately")).ToBeHiddenAsync();
        await page.GotoAsync(catalogue.Address + "/mine");
        await Assertions.Expect(page.GetByText("made by JavaScript")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("Forget all of this")).ToBeHiddenAsync();
    }

    private static Task<string> FocusedAsync(IPage page) => page.EvaluateAsync<string>("document.activeElement.id");
}
