using System.Buffers.Binary;
using System.ComponentModel;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Catalogue.Data;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Viewer;

/// <summary>What the checks found, triangle by triangle, for the viewer and for other programs.</summary>
internal static class OverlayApi
{
    public static void MapOverlayApi(this IEndpointRouteBuilder app)
    {
        var overlays = app.MapGroup(ShapeApi.Revision + "/overlays").WithTags("Viewer").ProducesProblem(404).ProducesProblem(409).ProducesProblem(422);
        overlays.MapGet("/", ListAsync)
            .WithSummary("Which overlays a revision has on a process: thin places, gaps, overhangs, liquid, lost detail, holes, limbs, changes");
        overlays.MapGet("/{overlay}", GetAsync).RequireRateLimiting(RateLimits.Orientations)
            .WithSummary("An overlay: what a check found on each triangle of a level of detail, its legend and its places")
            .WithDescription("Worked out when first asked for: until then 202 with the seconds to wait in Retry-After. Unpublished revisions are for designers.");
    }

    private static async Task<Ok<OverlayList>> ListAsync(
        string figure, string part, string variant, int revision, HttpContext http, CatalogueDb db, CancellationToken cancellation,
        [Description("A process code; absent = the first that the shape is made for.")] string? process = null)
    {
        var asked = await AskedAsync(figure, part, variant, revision, process, http, db, cancellation);
        var items = OverlayTable.All.Where(o => o.Applies(asked.Facts, asked.Process, asked.Before is not null)).Select(o => new OverlayName(o.Code, o.Name.ToString(), o.InPose)).ToList();
        http.Response.Headers.CacheControl = asked.Revision.Keeping(forEver: false);
        return TypedResults.Ok(new OverlayList(asked.Process.Code, items, items.Count));
    }

    private static async Task<Results<Ok<OverlayView>, Accepted<NotYet>, StatusCodeHttpResult>> GetAsync(
        string figure, string part, string variant, int revision, string overlay, HttpContext http, CatalogueDb db, ViewerDesk desk, CancellationToken cancellation,
        [Description("A process code; absent = the first that the shape is made for.")] string? process = null,
        [Description("Nine numbers, row-major, with commas between: from the file's pose to the one it is printed in. Absent = as the file lies.")] string? rotation = null,
        [Description("The level of detail whose triangles are told, counted from 0, the coarsest; absent = the finest.")] int? level = null)
    {
        var asked = await AskedAsync(figure, part, variant, revision, process, http, db, cancellation);
        var chosen = OverlayTable.All.FirstOrDefault(o => o.Code == overlay && o.Applies(asked.Facts, asked.Process, asked.Before is not null))
            ?? throw new RuleBrokenException("not-found", $"This revision has no overlay “{overlay}” on {asked.Process.Code}. The list of overlays shows those there are.");
        var turn = chosen.InPose ? Turn(rotation) : Rotation.Identity;
        if (await ViewedShape.AskAsync(desk, asked.Revision, cancellation) is not { } shape) return NotYet.Say(http);
        var shown = level ?? shape.Levels.Count - 1;
        if (shown < 0 || shown >= shape.Levels.Count)
            throw new RuleBrokenException("not-found", $"There is no level of detail {shown}: this shape has {shape.Levels.Count}, counted from 0.");
        var name = NameOf(asked, chosen, turn);
        var path = await desk.AskAsync(desk.Overlays, name + ".json", stop => MakeAsync(desk, asked, chosen, turn, name, stop), cancellation);
        if (path is null) return NotYet.Say(http);
        if (ShapeApi.Kept(http, asked.Revision, string.Create(CultureInfo.InvariantCulture, $"{name}-{shown}-{Language.Current.Code}"))) return TypedResults.StatusCode(StatusCodes.Status304NotModified);
        var told = JsonSerializer.Deserialize<Overlay>(await File.ReadAllBytesAsync(path, cancellation))!;
        var kinds = told.OfTriangle;
        var nearest = desk.Shapes.PathOf(ViewedShape.NearestOf(ViewedShape.KeyOf(asked.Revision.Sha256, asked.Revision.Unit), shown));
        if (File.Exists(nearest)) kinds = OfNearest(kinds, await File.ReadAllBytesAsync(nearest, cancellation));
        return TypedResults.Ok(new OverlayView(told.Code, told.Name.ToString(), told.About.ToString(), asked.Process.Code, shown,
            [.. told.Kinds.Select(OverlayKindView.Of)], [.. told.Places.Select(OverlayPlaceView.Of)], Convert.ToBase64String(kinds)));
    }

    /// <summary>What is asked about, once it is measured.</summary>
    private sealed record Asked(ViewedRevision Revision, MeshFacts Facts, Process Process, (string Sha256, LengthUnit? Unit)? Before);

    private static async Task<Asked> AskedAsync(
        string figure, string part, string variant, int revision, string? process, HttpContext http, CatalogueDb db, CancellationToken cancellation)
    {
        var viewed = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        var inspection = await db.Inspections.AsNoTracking().SingleAsync(i => i.Id == viewed.InspectionId, cancellation);
        if (inspection.State != InspectionState.Done)
        {
            throw inspection.IsFinished
                ? new RuleBrokenException("not-found", $"This revision could not be inspected, so there is nothing to show on it. {inspection.ErrorMessage}")
                : new RuleBrokenException("inspection-pending", $"This revision is still being inspected. Ask again when that is done.");
        }

        var code = process ?? await db.Variants.Where(v => v.Id == viewed.VariantId).SelectMany(v => v.Declarations).OrderBy(d => d.Process).Select(d => d.Process).FirstOrDefaultAsync(cancellation);
        var limits = await db.Processes.AsNoTracking().Include(p => p.Limits).SingleOrDefaultAsync(p => p.Code == code, cancellation)
            ?? throw new RuleBrokenException("process-unknown", $"There is no process “{code}” here. The list of processes shows those there are.");
        return new(viewed, inspection.Facts, limits, await viewed.BeforeAsync(db, cancellation));
    }

    private static async Task MakeAsync(ViewerDesk desk, Asked asked, OverlayTable chosen, Rotation turn, string name, CancellationToken stop)
    {
        var before = chosen.Code == "changes" && asked.Before is { } b ? await desk.ReadAsync(b.Sha256, b.Unit, stop) : null;
        var mesh = await desk.ReadAsync(asked.Revision.Sha256, asked.Revision.Unit, stop);
        var overlay = chosen.Make(new(mesh, asked.Facts, asked.Process, turn, before, stop)).Measured(mesh);
        await desk.Overlays.KeepAsync(name + ".json", JsonSerializer.SerializeToUtf8Bytes(overlay));
    }

    /// <summary>The same for the same mesh, checks, limits, pose and mesh before.</summary>
    private static string NameOf(Asked asked, OverlayTable chosen, Rotation turn)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"{Overlay.Version} {MeshInspector.CheckVersion} {chosen.Code} {asked.Process.Code} {asked.Process.Material}");
        foreach (var limit in asked.Process.Limits.OrderBy(l => l.Key, StringComparer.Ordinal)) text.Append(CultureInfo.InvariantCulture, $" {limit.Key}={limit.Value} {limit.Origin}");
        text.Append(' ').AppendJoin(' ', turn.ToRowMajor());
        if (chosen.Code == "changes") text.Append(CultureInfo.InvariantCulture, $" {asked.Before}");
        return ViewedShape.KeyOf(asked.Revision.Sha256, asked.Revision.Unit) + "-" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..16];
    }

    private static byte[] OfNearest(byte[] kinds, byte[] nearest)
    {
        var shown = new byte[nearest.Length / 4];
        for (var t = 0; t < shown.Length; t++) shown[t] = kinds[BinaryPrimitives.ReadInt32LittleEndian(nearest.AsSpan(4 * t))];
        return shown;
    }

    private static Rotation Turn(string? words)
    {
        if (string.IsNullOrWhiteSpace(words)) return Rotation.Identity;
        double[] numbers = [.. words.Split(',').Select(w => double.TryParse(w, NumberStyles.Float, CultureInfo.InvariantCulture, out var n) ? n : double.NaN)];
        return new Model.Figures.Pose(0, 0, 0, numbers).IsValid
            ? Rotation.FromRowMajor([.. numbers.Select(n => Math.Round(n, 6))])
            : throw new RuleBrokenException("rotation-invalid", $"A rotation is nine numbers, row-major, with commas between: right angles kept, nothing mirrored or scaled.");
    }
}

internal sealed record OverlayList(string Process, IReadOnlyList<OverlayName> Items, int Total);

/// <param name="InPose">It depends on how the part lies: ask with a rotation.</param>
internal sealed record OverlayName(string Code, string Name, bool InPose);

/// <param name="About">What is shown, by which limit, and where that comes from.</param>
/// <param name="Level">The level of detail whose triangles are told.</param>
/// <param name="Kinds">The legend, numbered from 1.</param>
/// <param name="Triangles">Base64 of one byte for each triangle of that level, in its order: the number of its kind, 0 for none.</param>
internal sealed record OverlayView(
    string Code, string Name, string About, string Process, int Level, IReadOnlyList<OverlayKindView> Kinds, IReadOnlyList<OverlayPlaceView> Places, string Triangles);

/// <param name="From">The least it stands for; absent when it has no lower end.</param>
/// <param name="To">Less than this; absent when it has no upper end.</param>
/// <param name="Unit">Of both.</param>
internal sealed record OverlayKindView(int Number, string Words, double? From, double? To, string? Unit, double AreaMm2)
{
    public static OverlayKindView Of(OverlayKind kind) => new(kind.Number, kind.Words.ToString(), kind.From, kind.To, kind.Unit, kind.AreaMm2);
}

/// <param name="At">In the file's coordinates, mm.</param>
internal sealed record OverlayPlaceView(string Words, double[] At, double? DiameterMm)
{
    public static OverlayPlaceView Of(OverlayPlace place) => new(place.Words.ToString(), place.At, place.DiameterMm);
}
