using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Benchmarks.Formats;

/// <summary>Bounds: 1 M triangles ≤ 130 ms and 100 MB above the input, shuffled ≤ 250 ms; 5 M ≤ 800 ms.</summary>
internal static class FormatsGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("read and weld binary STL", mesh => ReadingStl(mesh)),
        new("read and weld binary STL, shuffled", mesh => ReadingStl(Samples.Shuffled(mesh))),
    ];

    /// <summary>From a file, so that the input takes no memory of the process.</summary>
    private static Action ReadingStl(TriangleMesh mesh)
    {
        var path = TemporaryFile("stl");
        using (var stream = File.Create(path)) StlWriter.Write(mesh, stream);
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
