using Catalogue.Geometry.Health;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Liquids;

/// <summary>Trapped liquid in one pose, whole and by pools and suction alone. Tree and health are made before, not timed. On a part of 80 mm: 0.5 s.</summary>
internal static class LiquidGrowth
{
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("columns of the part", mesh => () => SolidColumns.Of(mesh, Rotation.Identity, 0.25)),
        new("liquid: pools and suction of one pose", mesh => () => LiquidInPose.Of(SolidColumns.Of(mesh, Rotation.Identity, 0.25))),
        new("liquid: the whole check", mesh =>
        {
            var (tree, health) = (TriangleTree.Build(mesh), MeshHealth.Of(mesh));
            return () => TrappedLiquid.Of(mesh, tree, health, Rotation.Identity);
        }),
    ];
}
