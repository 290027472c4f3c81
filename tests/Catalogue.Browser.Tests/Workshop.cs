using System.Security.Cryptography;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Features.Photos;
using Catalogue.Web.Inspection;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using SkiaSharp;

namespace Catalogue.Browser.Tests;

/// <summary>A figure in the making with everything a workbench can show, and the host who makes it.</summary>
internal sealed class Workshop(RunningCatalogue catalogue)
{
    public const string Figure = "tide-clerk-in-the-making";

    /// <summary>A part whose only revision has flaws that a repair mends; pages show it, nobody repairs it.</summary>
    public const string Flawed = "lantern";

    /// <summary>The same, for a test to repair.</summary>
    public const string Mendable = "whistle";

    private readonly string _name = "host-" + RandomNumberGenerator.GetHexString(8, lowercase: true);
    private readonly string _password = RandomNumberGenerator.GetHexString(20);

    /// <summary>Makes the figure, once, and the host's account.</summary>
    public async Task PrepareAsync()
    {
        await using var scope = catalogue.Services.CreateAsyncScope();
        var accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        await accounts.CreateAsync(new Account { UserName = _name, DisplayName = "The host", IsHost = true }, _password);
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        if (await db.Figures.AnyAsync(f => f.Slug == Figure)) return;
        await MakeAsync(db);
        var upload = scope.ServiceProvider.GetRequiredService<MeshUpload>();
        await UploadAsync(upload, "torso", Solids.Box(24, 18, 40), "The first shape.");
        await UploadAsync(upload, "plain-front", Solids.Icosphere(3, 1), "");
        await InspectedAsync();
        await db.EditAsync(Figure, f => f.Publish("The first edition.", DateTime.UtcNow), CancellationToken.None);
        await ShowAsync(db, scope.ServiceProvider.GetRequiredService<PhotoDesk>());
        await UploadAsync(upload, "torso", Solids.Torus(20, 5, 48, 24), "A ring instead of a block, after three reports of broken corners.");
        await upload.StoreAsync(new(Figure, "lit-front", "standard"), new("front.stl", null, null), new MemoryStream(new byte[200]), CancellationToken.None);
        await UploadAsync(upload, "plain-front", Solids.Icosphere(3, 2), "");
        await UploadAsync(upload, Flawed, FlawedMesh(), "Straight from the modelling program.");
        await UploadAsync(upload, Mendable, FlawedMesh(), "");
        await InspectedAsync();
    }

    /// <summary>A page of the host, signed in.</summary>
    public async Task<IPage> SignInAsync(IBrowserContext reader)
    {
        var page = await reader.NewPageAsync();
        await page.GotoAsync(catalogue.Address + "/sign-in");
        await page.GetByLabel("Name").FillAsync(_name);
        await page.GetByLabel("Password").FillAsync(_password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await page.WaitForURLAsync("**/drafts");
        return page;
    }

    /// <summary>Two photos, one upright and one wide.</summary>
    private static async Task ShowAsync(CatalogueDb db, PhotoDesk desk)
    {
        foreach (var (words, width, height, colour) in new[] { ("Painted in brass and grey, by the window", 900, 1_200, SKColors.DarkGoldenrod), ("The back, with its spring", 1_200, 700, SKColors.SlateGray) })
        {
            using var bitmap = new SKBitmap(width, height);
            using (var canvas = new SKCanvas(bitmap)) canvas.Clear(colour);
            using var picture = bitmap.Encode(SKEncodedImageFormat.Jpeg, 90);
            using var file = new MemoryStream(picture.ToArray());
            var (blob, w, h) = await desk.KeepAsync(file, CancellationToken.None);
            await db.EditAsync(Figure, f => f.AddPhoto(blob.Sha256, w, h, words, DateTime.UtcNow), CancellationToken.None);
        }
    }

    private static async Task MakeAsync(CatalogueDb db)
    {
        var now = DateTime.UtcNow;
        await db.AddFigureAsync(new Figure(Figure, new()
        {
            Title = "The Tide Clerk",
            HeightMm = 120,
            Licence = "CC-BY-SA-4.0",
            Summary = "Counts the waves and is never finished.",
            Story = "Wound up at **low water**, it counts until the spring is slack.",
            ScaleDenominator = 12,
        }, now), CancellationToken.None);
        await db.EditAsync(Figure, figure =>
        {
            var front = figure.AddChoice("front", "Front of the chest", now);
            var torso = figure.AddPart("torso", "Torso", 1, PartRole.Required, now, "Hollow; the motor sits inside.");
            torso.AddVariant("standard", "Standard", ["MEX-rigid", "VPP-rigid"], now).Reserve("VPP-rigid", "Drain it well before curing.", now);
            foreach (var (slug, name) in new[] { ("lit-front", "Lit front"), ("plain-front", "Plain front") })
            {
                var part = figure.AddPart(slug, name, 1, PartRole.Required, now);
                part.Join(front, now);
                part.AddVariant("standard", "Standard", ["VPP-rigid"], now);
            }

            foreach (var (slug, name) in new[] { (Flawed, "Lantern"), (Mendable, "Whistle") })
                figure.AddPart(slug, name, 1, PartRole.Optional, now).AddVariant("standard", "Standard", ["VPP-rigid"], now);
            var key = figure.AddPart("key", "Winding key", 1, PartRole.Optional, now);
            var rod = figure.AddHardware(new(HardwareKind.Rod, "Metal rod", 2) { DiameterMm = 1.5, CutLengthMm = 14.5 }, now, [torso]);
            figure.AddJoint(new(JointKind.PinnedHinge, "Waist") { InnerDiameterMm = 1.5 }, torso, key, now);
            figure.AddStep(new("Pin the waist", "Push the rod through and close the end with a drop of resin."), now, [torso], [rod]);
            figure.AddStep(new("Fit the front", "It clicks in."), now);
        }, CancellationToken.None);
    }

    /// <summary>A ball with two holes, one of its triangles twice, one without area, and a handle inside out beside it.</summary>
    private static TriangleMesh FlawedMesh()
    {
        var ball = Solids.Icosphere(12, 3);
        int[] kept = [.. Enumerable.Range(0, ball.TriangleCount).Where(t => t is not (17 or 900)).SelectMany(t => ball.Indices.Slice(3 * t, 3).ToArray())];
        var flawed = new TriangleMesh(ball.Positions.ToArray(), [.. kept, .. ball.Indices[..3], ball.Indices[0], ball.Indices[0], ball.Indices[1]]);
        return Solids.Together(flawed, Solids.Inverted(Solids.Torus(5, 1, 32, 16)).Transformed(Rotation.Identity, new(0, 0, 19)));
    }

    private static async Task UploadAsync(MeshUpload upload, string part, TriangleMesh mesh, string note)
    {
        using var stl = new MemoryStream();
        StlWriter.Write(mesh, stl);
        stl.Position = 0;
        await upload.StoreAsync(new(Figure, part, "standard"), new(part + ".stl", Geometry.Formats.LengthUnit.Millimetre, note), stl, CancellationToken.None);
    }

    /// <summary>Waits until nothing of the figure is being inspected.</summary>
    private async Task InspectedAsync()
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (true)
        {
            await using var scope = catalogue.Services.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            if (!await db.Inspections.AnyAsync(i => i.State == InspectionState.Queued || i.State == InspectionState.Running, patience.Token)) return;
            await Task.Delay(50, patience.Token);
        }
    }
}
