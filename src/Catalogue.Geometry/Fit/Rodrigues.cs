using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>Rotations as Rodrigues vectors: the axis, as long as the tangent of half the angle.</summary>
internal static class Rodrigues
{
    /// <summary>
    /// tan(45° / 2) = √2 − 1. Up to the 24 rotations of a cube, which only exchange axes, the rotations with |rᵢ| ≤ this and
    /// |r₁| + |r₂| + |r₃| ≤ 1 are all there are (the fundamental zone of cubic symmetry in texture analysis).
    /// </summary>
    public const double Reach = 0.41421356237309515;

    public static Rotation ToRotation(Vec3 r)
    {
        var n = 1 / (1 + r.LengthSquared);
        var (xx, yy, zz) = (r.X * r.X, r.Y * r.Y, r.Z * r.Z);
        var (xy, yz, zx) = (2 * r.X * r.Y * n, 2 * r.Y * r.Z * n, 2 * r.Z * r.X * n);
        var (x2, y2, z2) = (2 * r.X * n, 2 * r.Y * n, 2 * r.Z * n);
        return new(
            new((1 + xx - yy - zz) * n, xy - z2, zx + y2),
            new(xy + z2, (1 - xx + yy - zz) * n, yz - x2),
            new(zx - y2, yz + x2, (1 - xx - yy + zz) * n));
    }
}
