using System.Globalization;
using Catalogue.Data;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Parts put where they sit, really driven: by mouse, by keys, by buttons, and by numbers without scripts.</summary>
public sealed class PoseBenchTests(RunningCatalogue catalogue, Chromium chromium)
{
    private const string Figure = "net-hauler-in-the-making";

    [Fact]
    public async Task Mouse_and_keys_place_a_part_undo_takes_back_and_saving_keeps()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await OpenAsync(reader);
        var complaints = Complaints(page);
        await page.GotoAsync($"{catalogue.Address}/edit-poses/{Figure}");
        await Assertions.Expect(page.Locator("form[data-looking]")).ToHaveCountAsync(1);
        await page.GetByLabel("Part in hand", new() { Exact = true }).SelectOptionAsync("Mast");
        if (await page.GetByRole(AriaRole.Button, new() { Name = "Take its place away" }).CountAsync() > 0) await page.GetByRole(AriaRole.Button, new() { Name = "Take its place away" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Give it a place" }).ClickAsync();
        Assert.Equal("0 0 0 0 0 0", await NumbersAsync(page, 0));
        await page.GetByRole(AriaRole.Button, new() { Name = "Whole again" }).ClickAsync();

        // Keys: along the axis that lies nearest to the arrow; the view is from the front.
        var canvas = page.Locator(".look-canvas");
        await canvas.FocusAsync();
        await page.Keyboard.PressAsync("ArrowUp");
        await page.Keyboard.PressAsync("ArrowUp");
        await page.Keyboard.PressAsync("ArrowLeft");
        Assert.Equal("-1 0 2 0 0 0", await NumbersAsync(page, 0));
        await page.GetByLabel("Dragging and arrow keys").SelectOptionAsync("turn the part");
        await canvas.FocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        Assert.EndsWith(" 0 0 15", await NumbersAsync(page, 0), StringComparison.Ordinal);
        await page.Keyboard.PressAsync("Control+z");
        await page.Keyboard.PressAsync("Control+z");
        Assert.Equal("0 0 2 0 0 0", await NumbersAsync(page, 0));

        // The mouse: the part is taken where it is and goes with the pointer, in whole steps.
        await page.GetByLabel("Dragging and arrow keys").SelectOptionAsync("move the part");
        await page.GetByLabel("Dragging goes").SelectOptionAsync("along or about z only");
        var box = await canvas.BoxAtRestAsync();
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + 5, y - 60, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        var dragged = (await NumbersAsync(page, 0)).Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        Assert.True(dragged[2] > 3 && dragged[2] == Math.Round(dragged[2]), string.Join(' ', dragged));
        Assert.Equal((0, 0), (dragged[0], dragged[1]));
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        Assert.Equal("0 0 2 0 0 0", await NumbersAsync(page, 0));

        // A button moves by a step; typing does the same.
        await page.GetByRole(AriaRole.Button, new() { Name = "z −" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "z −" }).ClickAsync();
        Assert.Equal("0 0 0 0 0 0", await NumbersAsync(page, 0));
        await page.GetByLabel("x, mm").And(page.Locator("[name='Form.Copies[0].X']")).FillAsync("2,5");
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("at x 2,5");
        await page.Locator("[name='Form.Copies[0].X']").FillAsync("0");

        // At the joint: the two holes come in line.
        await page.GetByLabel("Part in hand", new() { Exact = true }).SelectOptionAsync("Boom");
        if (await page.GetByRole(AriaRole.Button, new() { Name = "Give it a place" }).CountAsync() > 0) await page.GetByRole(AriaRole.Button, new() { Name = "Give it a place" }).ClickAsync();
        await page.Locator("[name='Form.Copies[1].X']").FillAsync("7");
        await page.Locator("[name='Form.Copies[1].Z']").FillAsync("20");
        await page.Locator("[name='Form.Copies[1].TurnX']").FillAsync("30");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it to Mast at “Gooseneck”" }).ClickAsync();
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("way 1 of 2");
        var joined = (await NumbersAsync(page, 1)).Split(' ').Select(n => Math.Round(double.Parse(n, CultureInfo.InvariantCulture), 2)).ToArray();
        Assert.Equal((0, 0, 0), (joined[0], joined[1], joined[3]));
        Assert.Equal(20, joined[2], 0.01);
        complaints.AddRange(await Accessibility.ViolationsAsync(page, "bench"));
        await Screenshots.TakeAsync(page, "poses-bench-1280-light");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save where they sit" }).ClickAsync();
        await Assertions.Expect(page.GetByText("It is saved where the parts sit.")).ToBeVisibleAsync();
        Assert.StartsWith("0 0 20 ", await NumbersAsync(page, 1), StringComparison.Ordinal);
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task On_a_phone_a_part_is_moved_by_finger_and_by_button()
    {
        await using var reader = await chromium.ReaderAsync(390, ColorScheme.Dark);
        var page = await OpenAsync(reader);
        var complaints = Complaints(page);
        await page.GotoAsync($"{catalogue.Address}/edit-poses/{Figure}");
        await Assertions.Expect(page.Locator("form[data-looking]")).ToHaveCountAsync(1);
        await page.GetByLabel("Part in hand", new() { Exact = true }).SelectOptionAsync("Mast");
        if (await page.GetByRole(AriaRole.Button, new() { Name = "Give it a place" }).CountAsync() > 0) await page.GetByRole(AriaRole.Button, new() { Name = "Give it a place" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Whole again" }).ClickAsync();
        var before = await NumbersAsync(page, 0);
        await page.GetByRole(AriaRole.Button, new() { Name = "y +" }).ClickAsync();
        Assert.NotEqual(before, await NumbersAsync(page, 0));
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 390);
        complaints.AddRange(await Accessibility.ViolationsAsync(page, "bench on a phone"));
        await Screenshots.TakeAsync(page, "poses-bench-390-dark");
        Assert.Empty(complaints);
    }

    [Fact]
    public async Task Without_scripts_numbers_and_the_joint_button_do_the_same()
    {
        await using var reader = await chromium.ReaderAsync(390, javaScript: false);
        var page = await OpenAsync(reader);
        await page.GotoAsync($"{catalogue.Address}/edit-poses/{Figure}");
        foreach (var name in new[] { "X", "Y", "Z", "TurnX", "TurnY", "TurnZ" })
        {
            await page.Locator($"[name='Form.Copies[0].{name}']").FillAsync("0");
            await page.Locator($"[name='Form.Copies[1].{name}']").FillAsync(name == "Y" ? "3" : "0");
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Put it to Mast at “Gooseneck”" }).ClickAsync();
        await Assertions.Expect(page.GetByText("way 1 of 2. It is not saved yet.")).ToBeVisibleAsync();
        Assert.Equal("0 0 0 0 0 0", await NumbersAsync(page, 1));
        await page.GetByRole(AriaRole.Button, new() { Name = "Try another way at “Gooseneck” of Mast" }).ClickAsync();
        await Assertions.Expect(page.GetByText("way 2 of 2. It is not saved yet.")).ToBeVisibleAsync();
        await Screenshots.TakeAsync(page, "poses-no-script-390-light");
    }

    [Fact]
    public async Task Without_webgl_the_page_says_so_and_keeps_its_numbers()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        await reader.AddInitScriptAsync("HTMLCanvasElement.prototype.getContext = () => null;");
        var page = await OpenAsync(reader);
        await page.GotoAsync($"{catalogue.Address}/edit-poses/{Figure}");
        await Assertions.Expect(page.Locator(".look-status")).ToContainTextAsync("The numbers say and change the same.");
        await Assertions.Expect(page.Locator("[name='Form.Copies[1].TurnZ']")).ToBeVisibleAsync();
    }

    private static List<string> Complaints(IPage page)
    {
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning" && !message.Text.Contains("GPU stall", StringComparison.Ordinal)) complaints.Add(message.Text);
        };
        page.PageError += (_, error) => complaints.Add(error);
        return complaints;
    }

    private static async Task<string> NumbersAsync(IPage page, int copy) =>
        string.Join(' ', await Task.WhenAll(new[] { "X", "Y", "Z", "TurnX", "TurnY", "TurnZ" }.Select(n => page.Locator($"[name='Form.Copies[{copy}].{n}']").InputValueAsync())));

    /// <summary>A mast with a hole about z, a boom with another, and the joint between them; once.</summary>
    private async Task<IPage> OpenAsync(IBrowserContext reader)
    {
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        await using var scope = catalogue.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        if (!await db.Figures.AnyAsync(f => f.Slug == Figure))
        {
            var now = DateTime.UtcNow;
            var figure = new Figure(Figure, new() { Title = "The Net Hauler", HeightMm = 90, Licence = "CC0-1.0" }, now);
            var (mast, boom) = (figure.AddPart("mast", "Mast", 1, PartRole.Required, now), figure.AddPart("boom", "Boom", 1, PartRole.Required, now));
            foreach (var part in new[] { mast, boom }) part.AddVariant("all", "One shape", ["VPP-rigid"], now);
            figure.AddJoint(new(JointKind.PinnedHinge, "Gooseneck") { InnerDiameterMm = 1.5 }, mast, boom, now);
            db.Figures.Add(figure);
            await db.SaveChangesAsync();
            var upload = scope.ServiceProvider.GetRequiredService<MeshUpload>();
            await UploadAsync(upload, "mast", HarbourRange.Ring(10, 0.9, 20));
            await UploadAsync(upload, "boom", Solids.Together(HarbourRange.Ring(4, 0.9, 6), Solids.Box(34, 3, 6).Transformed(Rotation.Identity, new(3.4, -1.5, -3))));
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(120));
            while (await db.Inspections.AnyAsync(i => i.State == InspectionState.Queued || i.State == InspectionState.Running, patience.Token)) await Task.Delay(50, patience.Token);
        }

        return await workshop.SignInAsync(reader);
    }

    private static async Task UploadAsync(MeshUpload upload, string part, TriangleMesh mesh)
    {
        using var stl = new MemoryStream();
        StlWriter.Write(mesh, stl);
        stl.Position = 0;
        await upload.StoreAsync(new(Figure, part, "all"), new(part + ".stl", Geometry.Formats.LengthUnit.Millimetre, ""), stl, CancellationToken.None);
    }
}
