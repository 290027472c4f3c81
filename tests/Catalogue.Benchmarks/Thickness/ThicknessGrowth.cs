using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Thickness;

namespace Catalogue.Benchmarks.Thickness;

/// <summary>Bounds, matter and gaps together: 20 k triangles ≤ 0.4 s, 100 k ≤ 1.2 s, 1 M ≤ 4 s.</summary>
internal static class ThicknessGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("thickness, matter", mesh => Of(mesh, tree => WallMeasures.Of(tree)), 1_000_000),
        new("thickness, gaps", mesh => Of(mesh, tree => GapMeasures.Of(tree)), 1_000_000),
    ];

    private static Action Of(TriangleMesh mesh, Action<TriangleTree> measure)
    {
        var tree = TriangleTree.Build(mesh);
        return () => measure(tree);
    }
}
