using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Reports;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Browser.Tests;

/// <summary>A small range with one figure for every verdict, published the way a designer would, for the pages to show.</summary>
internal static class HarbourRange
{
    private static readonly string[] Filament = ["MEX-rigid"];
    private static readonly string[] Resin = ["VPP-rigid", "VPP-tough"];
    private static readonly string[] Both = [.. Filament, .. Resin];
    private static readonly DateTime Now = new(2026, 5, 1, 9, 0, 0, DateTimeKind.Utc);

    public static async Task PublishAsync(IServiceProvider services)
    {
        await using (var scope = services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            var range = await db.Ranges.SingleAsync();
            range.Describe("The Old Harbour", "Working people of a harbour that never was, to print, pin together and pose.");
            await db.SaveChangesAsync();
        }

        await LamplighterAsync(services);
        await SignalKeeperAsync(services);
        await PublishAsync(services, "ferryman", "Ferryman", "Leans on a long oar and waits for the tide.", 120,
            ("body", "Body", Solids.Box(38, 24, 60), Both), ("oar", "Oar", Solids.Cylinder(3, 178, 24), Both), ("hat", "Hat", Solids.Cylinder(11, 9, 32), Both));
        await PublishAsync(services, "crane-keeper", "Crane keeper", "Minds the long jib at the end of the quay.", 140,
            ("body", "Body", Solids.Box(36, 28, 70), Both), ("jib", "Jib", Solids.Box(12, 12, 290), Both));
        await PublishAsync(services, "diver", "Diver", "Heavy boots, a round helmet, and all the time in the world.", 125,
            ("suit", "Suit", Solids.Box(44, 30, 70), Both), ("helmet", "Helmet", Solids.Inverted(Solids.Icosphere(15, 3)), Both));
        await PublishAsync(services, "bell-ringer", "Bell ringer", "Rings in the fog, whoever listens.", 110,
            ("body", "Body", Solids.Box(40, 25, 60), Filament), ("bell", "Bell", Solids.Cylinder(18, 30, 48), Filament));
        await PublishAsync(services, "net-mender-with-a-very-long-name-that-has-to-wrap", "Net mender of the seventh breakwater and her unreasonably patient gull", "", 62,
            ("body", "Body", Solids.Box(30, 20, 40), Both));
    }

    /// <summary>A figure whose designer has said where its parts sit: a body, two arms on one pin, one of two flags.</summary>
    private static async Task SignalKeeperAsync(IServiceProvider services)
    {
        double[] upright = [1, 0, 0, 0, 1, 0, 0, 0, 1];
        await using (var scope = services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            var figure = new Figure("signal-keeper", new() { Title = "Signal keeper", HeightMm = 60, Licence = "CC0-1.0", Summary = "Waves by day, and nobody knows at whom." }, Now);
            var body = figure.AddPart("body", "Body", 1, PartRole.Required, Now);
            var arm = figure.AddPart("arm", "Arm", 2, PartRole.Required, Now);
            body.Place([new(0, 0, 0, upright)], Now);
            arm.Place([new(0, 0, 13.2, upright), new(0, 0, -13.2, upright)], Now);
            foreach (var part in new[] { body, arm }) part.AddVariant("all", "One shape", Both, Now);
            var choice = figure.AddChoice("flag", "Flag", Now);
            foreach (var (slug, name) in new[] { ("long-flag", "Long flag"), ("short-flag", "Short flag") })
            {
                var flag = figure.AddPart(slug, name, 1, PartRole.Required, Now);
                flag.AddVariant("all", "One shape", Both, Now);
                flag.Join(choice, Now);
                flag.Place([new(-4, -16, 17, upright)], Now);
            }

            figure.AddJoint(new(JointKind.PinnedHinge, "Shoulders") { InnerDiameterMm = 1.5, OuterDiameterMm = 1.8 }, body, arm, Now);
            db.Figures.Add(figure);
            await db.SaveChangesAsync();
        }

        await UploadAsync(services, "signal-keeper", "body", "all", Ring(10, 0.9, 20), "First shape.");
        await UploadAsync(services, "signal-keeper", "arm", "all", Solids.Together(Ring(4, 0.9, 6), Solids.Box(34, 3, 6).Transformed(Rotation.Identity, new(3.4, -1.5, -3))), "First shape.");
        await UploadAsync(services, "signal-keeper", "long-flag", "all", Solids.Box(8, 4, 40), "First shape.");
        await UploadAsync(services, "signal-keeper", "short-flag", "all", Solids.Box(8, 4, 18), "First shape.");
        await PublishAsync(services, "signal-keeper", "");
    }

    /// <summary>One part of a large mesh, for measuring.</summary>
    internal static Task MillionAsync(IServiceProvider services, TriangleMesh mesh) =>
        PublishAsync(services, "million", "Million", "", 70, ("body", "Body", mesh, Both));

    /// <summary>A head on a ball in its socket: for the test that turns it, beside the range that others count.</summary>
    internal static async Task NodderAsync(IServiceProvider services)
    {
        double[] upright = [1, 0, 0, 0, 1, 0, 0, 0, 1];
        await using (var scope = services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            var figure = new Figure("nodder", new() { Title = "Nodder", HeightMm = 40, Licence = "CC0-1.0" }, Now);
            var (body, head) = (figure.AddPart("body", "Body", 1, PartRole.Required, Now), figure.AddPart("head", "Head", 1, PartRole.Required, Now));
            foreach (var part in new[] { body, head }) part.AddVariant("all", "One shape", Both, Now);
            body.Place([new(0, 0, 0, upright)], Now);
            head.Place([new(8, 8, 8, upright)], Now);
            figure.AddJoint(new(JointKind.PopInBall, "Neck") { InnerDiameterMm = 6, OuterDiameterMm = 6.2, MouthDiameterMm = 5.6 }, body, head, Now);
            db.Figures.Add(figure);
            await db.SaveChangesAsync();
        }

        await UploadAsync(services, "nodder", "body", "all", Solids.Together(Solids.Box(16, 16, 16), Solids.Inverted(Solids.Icosphere(3.1, 4, new(8, 8, 8)))), "First shape.");
        await UploadAsync(services, "nodder", "head", "all", Solids.Together(Solids.Icosphere(3, 4), Solids.Box(14, 10, 22).Transformed(Rotation.Identity, new(-7, -5, 9))), "First shape.");
        await PublishAsync(services, "nodder", "");
    }

    /// <summary>A disc with a straight hole through its middle, about z.</summary>
    internal static TriangleMesh Ring(double outer, double inner, double height) => Solids.Tube(48, 4, (u, w) =>
    {
        var corner = (int)Math.Round(w / (Math.PI / 2));
        var r = corner is 0 or 1 ? outer : inner;
        return new(r * Math.Cos(u), r * Math.Sin(u), corner is 1 or 2 ? height / 2 : -height / 2);
    });

    private static async Task LamplighterAsync(IServiceProvider services)
    {
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var figure = new Figure("lamplighter", new()
        {
            Title = "Lamplighter",
            HeightMm = 120,
            Licence = "CC-BY-4.0",
            Summary = "Goes along the quay at dusk with a pole and a pocket full of wicks.",
            Story = "Every evening at the *turn of the tide* the lamplighter sets out from the customs house.\n\n"
                + "Nobody has ever seen the lamps being put out again; by morning they simply are.\n\n"
                + "## What is in the pockets\n\n- seven wicks\n- a heel of bread\n- the key to a door that was bricked up",
            PaintingNotes = "Prime in black, **dry-brush** the coat in two greys, and leave the lamp for last.\n\n| part | colour |\n|---|---|\n| coat | coal grey |\n| lamp | brass |",
            ReferenceNote = "No real uniform was followed; proportions after a seven-head figure.",
            ScaleDenominator = 14,
            Credits = "Drawn and modelled for the harbour by its keepers.",
            Cautions = "The pole is thin: **do not** lift the finished figure by it.",
        }, Now);
        var body = figure.AddPart("body", "Body", 1, PartRole.Required, Now, "Print it standing; the seam hides under the coat.");
        body.AddVariant("filament", "For filament, with sockets", Filament, Now);
        body.AddVariant("resin", "For resin, with sleeves", Resin, Now, "Hollow, with two drains in the soles.");
        var head = figure.AddPart("head", "Head", 1, PartRole.Required, Now);
        head.AddVariant("all", "One shape for all", Both, Now);
        var arm = figure.AddPart("arm", "Arm", 2, PartRole.Required, Now);
        arm.AddVariant("all", "One shape for all", Both, Now);
        var pole = figure.AddPart("pole", "Pole", 1, PartRole.Required, Now);
        pole.AddVariant("all", "One shape for all", Both, Now);
        var lamp = figure.AddChoice("lamp", "Lamp", Now);
        var lit = figure.AddPart("lit-lamp", "Lit lamp", 1, PartRole.Required, Now);
        lit.AddVariant("filament", "For filament", Filament, Now);
        lit.Join(lamp, Now);
        var plain = figure.AddPart("plain-lamp", "Plain lamp", 1, PartRole.Required, Now);
        plain.AddVariant("all", "One shape for all", Both, Now);
        plain.Join(lamp, Now);
        var ladder = figure.AddPart("ladder", "Ladder", 1, PartRole.Optional, Now);
        ladder.AddVariant("all", "One shape for all", Both, Now);
        var rod = figure.AddHardware(new(HardwareKind.Rod, "steel rod", 3)
        {
            Size = "1.5 mm",
            DiameterMm = 1.5,
            CutLengthMm = 14.5,
            Substitutes = "straight wire or a nail of the same thickness",
            Caution = "Deburr both ends.",
        }, Now, [body, arm]);
        figure.AddHardware(new(HardwareKind.Light, "warm white light", 1) { Size = "3 mm", IsOptional = true }, Now, [lit]);
        var glue = figure.AddHardware(new(HardwareKind.Adhesive, "two-part glue", 1) { Processes = Resin }, Now);
        figure.AddJoint(new(JointKind.PopInBall, "Neck") { InnerDiameterMm = 8, MouthDiameterMm = 7.7, Processes = Filament }, head, body, Now);
        figure.AddJoint(new(JointKind.PlugInSleeve, "Neck") { InnerDiameterMm = 6, OuterDiameterMm = 6.2, LengthMm = 9, Processes = Resin, Note = "Glue it once it turns freely." }, head, body, Now);
        figure.AddJoint(new(JointKind.PinnedHinge, "Shoulders") { InnerDiameterMm = 1.5, OuterDiameterMm = 1.6, LengthMm = 14.5 }, arm, body, Now);
        figure.AddStep(new("Clean and cure", "Wash every part, let it dry, then cure it from all sides. *Look into the soles*: nothing may drip.") { Processes = Resin }, Now, [body]);
        figure.AddStep(new("Pin the arms", "Open the holes by hand with a 1.5 mm drill.\n\n1. Push the rod through.\n2. Mark it.\n3. Cut it 1 mm shorter than the mark."), Now, [body, arm], [rod]);
        figure.AddStep(new("Set the head", "Glue the sleeve and turn the head where it should look.") { Processes = Resin }, Now, [head, body], [glue]);
        figure.AddStep(new("Snap the head in", "Warm the collar in your hand, then press the ball in with a straight thumb.") { Processes = Filament }, Now, [head, body]);
        figure.AddStep(new("Wire the light", "Feed the leads down the pole before the lamp goes on.") { OnlyWithChoiceMember = lit }, Now, [lit]);
        db.Figures.Add(figure);
        await db.SaveChangesAsync();

        await UploadAsync(services, "lamplighter", "body", "filament", Solids.Box(58, 34, 72), "First shape.");
        await UploadAsync(services, "lamplighter", "body", "resin", Solids.Box(54, 30, 70), "First shape.");
        await UploadAsync(services, "lamplighter", "head", "all", Solids.Icosphere(12, 3), "First shape.");
        await UploadAsync(services, "lamplighter", "arm", "all", Solids.Cylinder(2, 46, 24), "First shape.");
        await UploadAsync(services, "lamplighter", "pole", "all", Solids.Cylinder(4, 110, 24), "First shape.");
        await UploadAsync(services, "lamplighter", "lit-lamp", "filament", Solids.Box(16, 16, 20), "First shape.");
        await UploadAsync(services, "lamplighter", "plain-lamp", "all", Solids.Box(14, 14, 20), "First shape.");
        await UploadAsync(services, "lamplighter", "ladder", "all", Solids.Box(170, 20, 4), "First shape.");
        await PublishAsync(services, "lamplighter", "The first lamplighter.");
        await ReportAsync(services, "lamplighter", "arm");
        await UploadAsync(services, "lamplighter", "arm", "all", Solids.Cylinder(4, 46, 24), "Thicker at the elbow, where it snapped.");
        await PublishAsync(services, "lamplighter", "Stronger arms, after nine of fourteen broke.");
    }

    private static async Task PublishAsync(
        IServiceProvider services, string slug, string title, string summary, double height, params (string Slug, string Name, TriangleMesh Mesh, string[] For)[] parts)
    {
        await using (var scope = services.CreateAsyncScope())
        {
            var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
            var figure = new Figure(slug, new() { Title = title, Summary = summary, HeightMm = height, Licence = "CC0-1.0" }, Now);
            foreach (var part in parts)
                figure.AddPart(part.Slug, part.Name, 1, PartRole.Required, Now).AddVariant("all", "One shape", part.For, Now);
            db.Figures.Add(figure);
            await db.SaveChangesAsync();
        }

        foreach (var part in parts) await UploadAsync(services, slug, part.Slug, "all", part.Mesh, "First shape.");
        await PublishAsync(services, slug, "");
    }

    private static async Task UploadAsync(IServiceProvider services, string figure, string part, string variant, TriangleMesh mesh, string note)
    {
        await using var scope = services.CreateAsyncScope();
        using var file = new MemoryStream();
        StlWriter.Write(mesh, file);
        file.Position = 0;
        await scope.ServiceProvider.GetRequiredService<MeshUpload>()
            .StoreAsync(new(figure, part, variant), new(part + ".stl", LengthUnit.Millimetre, note), file, CancellationToken.None);
    }

    private static async Task PublishAsync(IServiceProvider services, string slug, string note)
    {
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        for (var waited = 0; waited < 3000; waited++)
        {
            if (!await db.Inspections.AnyAsync(i => i.State == InspectionState.Queued || i.State == InspectionState.Running)) break;
            await Task.Delay(100);
        }

        var figure = await db.LoadForEditingAsync(slug, CancellationToken.None);
        figure.Publish(note, DateTime.UtcNow);
        await db.SaveChangesAsync();
    }

    private static async Task ReportAsync(IServiceProvider services, string slug, string partSlug)
    {
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var figure = await db.LoadForEditingAsync(slug, CancellationToken.None);
        var part = figure.Parts.Single(p => p.Slug == partSlug);
        var revision = part.Variants[0].Revisions[0];
        for (var i = 0; i < 14; i++)
        {
            var failed = i < 9;
            var report = new Report(figure.Id, part.Id, revision.Id,
                new("VPP-rigid", failed ? ReportOutcome.Failed : ReportOutcome.Worked, failed ? i < 7 ? ReportSymptom.Snapped : ReportSymptom.Warped : ReportSymptom.None,
                    i < 7 ? ReportStage.Use : ReportStage.Printing)
                {
                    Printer = i % 3 == 0 ? "small resin printer, 50 µm layers" : null,
                    LayerHeightMm = i % 2 == 0 ? 0.05 : null,
                    Note = i == 0 ? "It broke at the elbow on the second evening.\nI had turned it maybe ten times <b>gently</b>." : null,
                    ReportedBy = i == 0 ? "Marit" : null,
                },
                Now.AddDays(i));
            if (i == 0) report.AnswerWith("Thicker at the elbow from revision 2 on.", null, Now.AddDays(20));
            db.Reports.Add(report);
        }

        await db.SaveChangesAsync();
    }
}
