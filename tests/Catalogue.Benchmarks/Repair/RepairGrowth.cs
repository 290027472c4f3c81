using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Repair;

namespace Catalogue.Benchmarks.Repair;

/// <summary>How a repair grows with the mesh: the short answer that goes with an inspection, and the whole proposal from the file on, as a designer waits for it.</summary>
/// <remarks>The figure is inside out and lacks every thousandth triangle, so that two kinds of change are made.</remarks>
internal static class RepairGrowth
{
    private const int Lacking = 1000;

    public static IEnumerable<GrowthLine> Lines =>
    [
        new("repair of a flawed mesh, in short", mesh =>
        {
            var flawed = Flawed(mesh);
            var health = MeshHealth.Of(flawed);
            return () => RepairSummary.Of(flawed, health);
        }),
        new("repair of a flawed mesh, whole proposal", mesh =>
        {
            var file = new MemoryStream();
            StlWriter.Write(Flawed(mesh), file);
            return () =>
            {
                file.Position = 0;
                RepairProposal.Of(file, file.Length, null);
            };
        }, Largest: 1_000_000, Smallest: 10_000), // The holes of a coarser figure are too large to be filled.
    ];

    private static TriangleMesh Flawed(TriangleMesh mesh)
    {
        var indices = new List<int>(mesh.Indices.Length);
        for (var t = 0; t < mesh.TriangleCount; t++)
            if (t % Lacking != 7) indices.AddRange([mesh.Indices[3 * t], mesh.Indices[(3 * t) + 2], mesh.Indices[(3 * t) + 1]]);
        return new(mesh.Positions.ToArray(), [.. indices]);
    }
}
