using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Overhangs;

/// <summary>How the overhangs of one orientation, and advice on orientations, grow with the mesh. Tree, hull and fit are made before, not timed. On all cores.</summary>
internal static class OverhangGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("overhangs: one orientation", mesh =>
        {
            var tree = TriangleTree.Build(mesh);
            return () => OverhangMeasures.Of(tree, Rotation.Identity);
        }, 1_000_000),
        new("overhangs: orientations in a volume", mesh =>
        {
            var (tree, hull, volume) = (TriangleTree.Build(mesh), ConvexHull.Of(mesh), BuildVolume.Rectangular(220, 220, 250));
            var fit = FitSearch.Fit(hull, volume);
            return () => OrientationAdvice.For(tree, hull, volume, fit);
        }, 1_000_000),
        new("overhangs: orientations in a vat", mesh =>
        {
            var (tree, hull, volume) = (TriangleTree.Build(mesh), ConvexHull.Of(mesh), BuildVolume.Rectangular(220, 220, 250));
            var fit = FitSearch.Fit(hull, volume);
            return () => OrientationAdvice.For(tree, hull, volume, fit, liquid: true);
        }, 1_000_000),
    ];
}
