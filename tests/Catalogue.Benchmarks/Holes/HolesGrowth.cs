using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Holes;

/// <summary>How the search for holes and pegs grows with the mesh. The tree is made before, not timed. Two cores for the first rays, else one.</summary>
internal static class HolesGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("holes and pegs", mesh =>
        {
            var tree = TriangleTree.Build(mesh);
            return () => PinHoles.Find(mesh, tree);
        }),
    ];
}
