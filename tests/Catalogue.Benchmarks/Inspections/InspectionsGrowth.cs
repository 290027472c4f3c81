using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;

namespace Catalogue.Benchmarks.Inspections;

/// <summary>A whole inspection of a binary STL in memory, as an upload has it.</summary>
internal static class InspectionsGrowth
{
    /// <summary>Of the figure that the bounds of issue 4 are meant for, mm.</summary>
    private const double PartHeight = 80;

    public static IEnumerable<GrowthLine> Lines =>
    [
        new("inspection as a whole", mesh => Inspection(mesh, new InspectionRequest { ForRange = true, Processes = BuiltInProcesses.Create() })),
        new("inspection of the mesh alone, no process", mesh => Inspection(mesh, new InspectionRequest { ForRange = true })),
        new("all checks of one process", mesh => Inspection(mesh, OneProcess)),
        new("all checks of one process, 80 mm", mesh => Inspection(Scaled(mesh, PartHeight / mesh.Bounds.Size.Z), OneProcess), 100_000),
    ];

    private static InspectionRequest OneProcess => new() { Processes = [.. BuiltInProcesses.Create().Where(p => p.Code == "VPP-rigid")] };

    private static Action Inspection(TriangleMesh mesh, InspectionRequest request)
    {
        var stream = new MemoryStream();
        StlWriter.Write(mesh, stream);
        return () =>
        {
            stream.Position = 0;
            MeshInspector.Inspect(stream, stream.Length, request);
        };
    }

    private static TriangleMesh Scaled(TriangleMesh mesh, double factor)
    {
        var positions = mesh.Positions.ToArray();
        for (var i = 0; i < positions.Length; i++) positions[i] = (float)(positions[i] * factor);
        return new(positions, mesh.Indices.ToArray());
    }
}
