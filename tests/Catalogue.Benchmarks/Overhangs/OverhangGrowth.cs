using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Overhangs;

/// <summary>How the overhangs of one orientation grow with the mesh. The tree is made before, not timed. Two cores for the rays, else one.</summary>
internal static class OverhangGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("overhangs: one orientation", mesh =>
        {
            var tree = TriangleTree.Build(mesh);
            return () => OverhangMeasures.Of(tree, Rotation.Identity);
        }, 1_000_000),
    ];
}
