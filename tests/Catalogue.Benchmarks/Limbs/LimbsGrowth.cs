using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Limbs;

/// <summary>How the search for limbs grows with the mesh, tree given; most of it is by cubes, whose number does not. One thread.</summary>
internal static class LimbsGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("limbs", mesh =>
        {
            var tree = TriangleTree.Build(mesh);
            return () => LimbMeasures.Of(tree);
        }, 1_000_000),
    ];
}
