using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Gltf;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Simplify;
using Catalogue.Geometry.Spatial;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Viewer;

/// <summary>A level of detail.</summary>
/// <param name="DeviationMm">How far it is off the file's own surface at most, as sampled; 0 = every triangle of the file.</param>
internal sealed record ShapeLevel(int Triangles, double DeviationMm, long Bytes);

/// <summary>What is kept of a mesh for the viewer: its size and its levels of detail, the coarsest first.</summary>
internal sealed record ViewedShape(int Triangles, double[] Min, double[] Max, IReadOnlyList<ShapeLevel> Levels)
{
    /// <summary>At most so many triangles a level, the finest first.</summary>
    public static readonly int[] Budgets = [300_000, 75_000, 12_000];

    /// <summary>Counts up when shapes are made another way.</summary>
    private const int Version = 1;

    /// <summary>The beginning of the names of everything that is kept of a mesh.</summary>
    public static string KeyOf(string sha256, LengthUnit? unit) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{Version} {sha256} {unit?.ToString() ?? "-"}"))))[..24];

    public static string ListOf(string key) => key + ".json";

    public static string ModelOf(string key, int level) => string.Create(CultureInfo.InvariantCulture, $"{key}-{level}.glb");

    /// <summary>For each triangle of a simplified level the nearest triangle of the file.</summary>
    public static string NearestOf(string key, int level) => string.Create(CultureInfo.InvariantCulture, $"{key}-{level}.near");

    /// <summary>The shape as it is kept; null while it is being made.</summary>
    public static Task<ViewedShape?> AskAsync(ViewerDesk desk, ViewedRevision revision, CancellationToken cancellation) =>
        AskAsync(desk, revision.PartName, revision.Sha256, revision.Unit, cancellation);

    /// <inheritdoc cref="AskAsync(ViewerDesk, ViewedRevision, CancellationToken)"/>
    public static async Task<ViewedShape?> AskAsync(ViewerDesk desk, string partName, string sha256, LengthUnit? unit, CancellationToken cancellation)
    {
        var key = KeyOf(sha256, unit);
        var path = await desk.AskAsync(desk.Shapes, ListOf(key), stop => MakeAsync(desk, partName, sha256, unit, key, stop), cancellation);
        return path is null ? null : JsonSerializer.Deserialize<ViewedShape>(await File.ReadAllBytesAsync(path, cancellation));
    }

    private static async Task MakeAsync(ViewerDesk desk, string partName, string sha256, LengthUnit? unit, string key, CancellationToken stop)
    {
        var mesh = await desk.ReadAsync(sha256, unit, stop);
        var levels = MeshSimplification.Of(mesh, Budgets, stop).DistinctBy(l => l.Mesh).Reverse().ToList();
        var kept = new List<ShapeLevel>(levels.Count);
        TriangleTree? tree = null;
        for (var i = 0; i < levels.Count; i++)
        {
            var model = GlbWriter.ToBytes(levels[i].Mesh, partName);
            await desk.Shapes.KeepAsync(ModelOf(key, i), model);
            if (!ReferenceEquals(levels[i].Mesh, mesh)) await desk.Shapes.KeepAsync(NearestOf(key, i), Nearest(levels[i].Mesh, tree ??= TriangleTree.Build(mesh, stop), stop));
            kept.Add(new(levels[i].Mesh.TriangleCount, Math.Round(levels[i].DeviationMm, 4), model.Length));
        }

        var (min, max) = (mesh.Bounds.Min, mesh.Bounds.Max);
        var shape = new ViewedShape(mesh.TriangleCount, [min.X, min.Y, min.Z], [max.X, max.Y, max.Z], kept);
        await desk.Shapes.KeepAsync(ListOf(key), JsonSerializer.SerializeToUtf8Bytes(shape)); // Last: with it all the others are there.
    }

    private static byte[] Nearest(TriangleMesh level, TriangleTree whole, CancellationToken stop)
    {
        var nearest = new byte[4 * level.TriangleCount];
        for (var t = 0; t < level.TriangleCount; t++)
        {
            if (t % 8192 == 0) stop.ThrowIfCancellationRequested();
            var (a, b, c) = level.Triangle(t);
            BinaryPrimitives.WriteInt32LittleEndian(nearest.AsSpan(4 * t), whole.Nearest((a + b + c) / 3)?.Triangle ?? 0);
        }

        return nearest;
    }
}
