using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>
/// An ellipsoid about its centre, axes along x, y, z. First order: k₀(k₀ − 1)/k₁ with k₀ = |p/r| and k₁ = |p/r²|, right to first order at
/// the surface and within about 10 % of the distance near it for the mild aspect ratios used here.
/// </summary>
internal sealed class Ellipsoid(Vec3 center, Vec3 radii)
    : Shape(new(center - radii, center + radii), growth: 1.25)
{
    private readonly double _least = Math.Min(radii.X, Math.Min(radii.Y, radii.Z));

    public override double Distance(Vec3 p)
    {
        var x = (p.X - center.X) / radii.X;
        var y = (p.Y - center.Y) / radii.Y;
        var z = (p.Z - center.Z) / radii.Z;
        var k0 = Math.Sqrt((x * x) + (y * y) + (z * z));
        if (k0 < 0.05) return -_least * (1 - k0);
        x /= radii.X;
        y /= radii.Y;
        z /= radii.Z;
        return k0 * (k0 - 1) / Math.Sqrt((x * x) + (y * y) + (z * z));
    }
}
