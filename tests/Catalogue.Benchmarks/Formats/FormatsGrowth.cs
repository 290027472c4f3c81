using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Benchmarks.Formats;

/// <summary>Bounds: 1 M triangles ≤ 130 ms and 100 MB above the input, shuffled ≤ 250 ms; 5 M ≤ 800 ms.</summary>
internal static class FormatsGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("read and weld binary STL", ReadingStl),
        new("read and weld binary STL, shuffled", mesh => ReadingStl(Samples.Shuffled(mesh))),
        new("read OBJ", ReadingObj, 1_000_000),
        new("read 3MF", Reading3mf, 1_000_000),
    ];

    private static Action ReadingStl(TriangleMesh mesh) => Reading("stl", stream => StlWriter.Write(mesh, stream));

    private static Action Reading3mf(TriangleMesh mesh) =>
        Reading("3mf", stream => ThreeMfWriter.Write(stream, [new("figure", mesh)], [ThreeMfPlacement.AsIs(0)]));

    private static Action ReadingObj(TriangleMesh mesh) => Reading("obj", stream =>
    {
        using var text = new StreamWriter(stream);
        for (var v = 0; v < mesh.VertexCount; v++) text.Write(FormattableString.Invariant($"v {(float)mesh.Vertex(v).X} {(float)mesh.Vertex(v).Y} {(float)mesh.Vertex(v).Z}\n"));
        for (var i = 0; i < mesh.Indices.Length; i += 3) text.Write($"f {mesh.Indices[i] + 1} {mesh.Indices[i + 1] + 1} {mesh.Indices[i + 2] + 1}\n");
    });

    /// <summary>From a file, so that the input takes no memory of the process.</summary>
    private static Action Reading(string name, Action<Stream> write)
    {
        var path = TemporaryFile(name);
        using (var stream = File.Create(path)) write(stream);
        return () =>
        {
            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1);
            MeshFileReader.Read(stream);
        };
    }

    private static string TemporaryFile(string name)
    {
        var path = Path.Combine(Path.GetTempPath(), $"catalogue-growth.{Environment.ProcessId}.{name}");
        AppDomain.CurrentDomain.ProcessExit += (_, _) => File.Delete(path);
        return path;
    }
}
