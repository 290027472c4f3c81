using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Orientations;

/// <summary>A published file, the process and the room it is laid down in.</summary>
/// <param name="LimitDegrees">The steepest unsupported overhang of the process, from the vertical.</param>
/// <param name="InVat">True to count pools and suction as well.</param>
internal sealed record LaidDown(string Sha256, LengthUnit? Unit, BuildVolume Room, double LimitDegrees, bool InVat)
{
    public static LaidDown Of(string sha256, LengthUnit? unit, Process process, BuildVolume room)
    {
        ArgumentNullException.ThrowIfNull(process);
        return new(sha256, unit, room, process.Limit(LimitKey.OverhangAngle)?.Value ?? OverhangMeasures.ReferenceDegrees, ProcessCode.Category(process.Code) == "VPP");
    }

    /// <summary>The same for the same question; another one when the answer would be worked out another way.</summary>
    public string Name => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture,
        $"{MeshInspector.CheckVersion} {Sha256} {Unit} {Room} {Room.MarginMm} {LimitDegrees} {InVat}"))))[..32];
}

/// <summary>Works out ways to lay published parts down when they are first asked for, draws them, and keeps both.</summary>
/// <remarks>Seconds a part, in the turns of visitors' inspections; whoever asks for what is being worked out waits for it. Anybody can ask about any volume, so of more than <see cref="MostKept"/> files the oldest go.</remarks>
internal sealed class OrientationDesk(IBlobStore blobs, CatalogueOptions options, InspectionTurns turns)
{
    private const int MostKept = 5000;

    private readonly KeptFiles _files = new(options.OrientationFolder, MostKept);

    /// <summary>The ways to lay it down; null when it is not clear what is inside the mesh.</summary>
    /// <exception cref="RuleBrokenException"><c>busy</c>, <c>orientations-too-long</c>, <c>file-missing</c>.</exception>
    public async Task<OrientationsReport?> AdviceAsync(LaidDown laid, CancellationToken cancellation) =>
        Read(await FileAsync(laid.Name + ".json", () => WorkAsync(laid), cancellation));

    /// <summary>A picture of one way: 0, 1, … as advised, the last as the file lies.</summary>
    /// <exception cref="RuleBrokenException">As above, and <c>not-found</c> when there is no such way.</exception>
    public async Task<byte[]> PictureAsync(LaidDown laid, int way, int size, string format, CancellationToken cancellation)
    {
        var ways = OrientationWords.Rows(await AdviceAsync(laid, cancellation));
        if (way < 0 || way >= ways.Count) throw new RuleBrokenException("not-found", $"There is no such way to lay this part down. Its page shows those there are.");
        return await FileAsync(string.Create(CultureInfo.InvariantCulture, $"{laid.Name}-{way}-{size}-{OrientationPicture.Version}.{format}"), async () =>
        {
            var mesh = await StoredMesh.ReadAsync(blobs, laid.Sha256, laid.Unit, CancellationToken.None);
            return await InTurnAsync(_ => PictureEncoding.Encode(OrientationPicture.Draw(mesh, ways[way], laid.Room, laid.LimitDegrees, size, size), format));
        }, cancellation);
    }

    private async Task<byte[]> WorkAsync(LaidDown laid)
    {
        var mesh = await StoredMesh.ReadAsync(blobs, laid.Sha256, laid.Unit, CancellationToken.None);
        return await InTurnAsync(cancel =>
        {
            var health = MeshHealth.Of(mesh, cancel);
            if (!health.HasInside) return "null"u8.ToArray();
            var advice = OrientationAdvice.For(TriangleTree.Build(mesh, cancel), ConvexHull.Of(mesh, cancel), laid.Room, null, laid.LimitDegrees, laid.InVat, cancel: cancel);
            return JsonSerializer.SerializeToUtf8Bytes(OrientationsReport.Of(advice, laid.LimitDegrees), InspectionJson.Options);
        });
    }

    private Task<byte[]> InTurnAsync(Func<CancellationToken, byte[]> work) => turns.RunAsync(work, InspectionTurns.BusyUnchanged,
        () => new("orientations-too-long",
            $"Working out how to lay this part down took longer than {InspectionTurns.Patience.TotalSeconds:0} seconds and was given up. The program’s own “inspect” command has no such limit."),
        CancellationToken.None);

    private async Task<byte[]> FileAsync(string name, Func<Task<byte[]>> make, CancellationToken cancellation)
    {
        await _files.OnceAsync(name, async () => await _files.KeepAsync(name, await make())).WaitAsync(cancellation);
        return await File.ReadAllBytesAsync(_files.PathOf(name), cancellation);
    }

    private static OrientationsReport? Read(byte[] json) => JsonSerializer.Deserialize<OrientationsReport?>(json, InspectionJson.Options);
}
