using Catalogue.Geometry.Details;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Details;

/// <summary>Fine relief; the number of samples is bounded, so its cost should hardly grow. The tree is made before, not timed.</summary>
internal static class DetailGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("detail: relief by height and width", mesh =>
        {
            var tree = TriangleTree.Build(mesh);
            return () => DetailMeasures.Of(tree);
        }),
    ];
}
