using Catalogue.Geometry.Formats.Stl;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;

namespace Catalogue.Benchmarks.Inspections;

/// <summary>A whole inspection of a binary STL in memory, as an upload has it: every check, every built-in process, 2 cores.</summary>
internal static class InspectionsGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("inspection as a whole", mesh =>
        {
            var stream = new MemoryStream();
            StlWriter.Write(mesh, stream);
            var request = new InspectionRequest { ForRange = true, Processes = BuiltInProcesses.Create() };
            return () =>
            {
                stream.Position = 0;
                MeshInspector.Inspect(stream, stream.Length, request);
            };
        }),
    ];
}
