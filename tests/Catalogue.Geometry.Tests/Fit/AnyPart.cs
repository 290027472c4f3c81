using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using CsCheck;

namespace Catalogue.Geometry.Tests.Fit;

/// <summary>Hulls and rotations for properties.</summary>
internal static class AnyPart
{
    public static readonly Gen<Rotation> Rotations =
        Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0, 3]).Select((x, y, z, a) => Rotation.About(new(x, y, z + 1e-3), a));

    /// <summary>Hulls of 4 to 20 points in a box of 10 to 120 mm a side, lying askew.</summary>
    public static readonly Gen<ConvexHull> Hulls = Gen.Select(
        Gen.Float[5, 60], Gen.Float[5, 60], Gen.Float[5, 60], Gen.Float[-1, 1].Array[12, 60], Rotations).Select((x, y, z, cloud, turn) =>
        {
            for (var i = 0; i + 2 < cloud.Length; i += 3) (cloud[i], cloud[i + 1], cloud[i + 2]) = (cloud[i] * x, cloud[i + 1] * y, cloud[i + 2] * z);
            return ConvexHull.Of(new TriangleMesh(cloud[..(cloud.Length / 3 * 3)], [.. Enumerable.Range(0, cloud.Length / 3 / 3 * 3)]).Transformed(turn));
        });
}
