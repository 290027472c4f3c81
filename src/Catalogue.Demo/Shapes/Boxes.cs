using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>Small arithmetic on boxes and corners that several shapes share.</summary>
internal static class Boxes
{
    private const double Far = 1e6;

    public static BoundingBox Everything { get; } = new(new(-Far, -Far, -Far), new(Far, Far, Far));

    public static BoundingBox Around(Vec3 center, double radius)
    {
        var r = new Vec3(radius, radius, radius);
        return new(center - r, center + r);
    }

    public static BoundingBox Join(BoundingBox a, BoundingBox b) => a.Including(b.Min).Including(b.Max);

    public static BoundingBox Common(BoundingBox a, BoundingBox b) => new(
        new(Math.Max(a.Min.X, b.Min.X), Math.Max(a.Min.Y, b.Min.Y), Math.Max(a.Min.Z, b.Min.Z)),
        new(Math.Min(a.Max.X, b.Max.X), Math.Min(a.Max.Y, b.Max.Y), Math.Min(a.Max.Z, b.Max.Z)));

    public static BoundingBox Grown(BoundingBox box, double mm)
    {
        var by = new Vec3(mm, mm, mm);
        return new(box.Min - by, box.Max + by);
    }

    /// <summary>A flat-ended bar reaches aside by its radius times the sine of its angle to each axis.</summary>
    public static BoundingBox OfBar(Vec3 a, Vec3 b, double radius)
    {
        var u = (b - a).Normalized();
        var reach = new Vec3(
            radius * Math.Sqrt(Math.Max(0, 1 - (u.X * u.X))),
            radius * Math.Sqrt(Math.Max(0, 1 - (u.Y * u.Y))),
            radius * Math.Sqrt(Math.Max(0, 1 - (u.Z * u.Z))));
        return BoundingBox.Empty.Including(a - reach).Including(a + reach).Including(b - reach).Including(b + reach);
    }

    /// <summary>Distance to the box from outside; 0 inside.</summary>
    public static double Outside(in BoundingBox box, in Vec3 p) => Math.Sqrt(OutsideSquared(in box, in p));

    /// <summary>Its square, which most comparisons can do with.</summary>
    public static double OutsideSquared(in BoundingBox box, in Vec3 p)
    {
        var x = Math.Max(0, Math.Max(box.Min.X - p.X, p.X - box.Max.X));
        var y = Math.Max(0, Math.Max(box.Min.Y - p.Y, p.Y - box.Max.Y));
        var z = Math.Max(0, Math.Max(box.Min.Z - p.Z, p.Z - box.Max.Z));
        return (x * x) + (y * y) + (z * z);
    }

    /// <summary>True when the point is outside the box, by at least <paramref name="mm"/>.</summary>
    public static bool IsBeyond(in BoundingBox box, in Vec3 p, double mm)
    {
        var squared = OutsideSquared(in box, in p);
        return squared > 0 && (mm <= 0 || squared >= mm * mm);
    }

    /// <summary>Distance to where two perpendicular slabs meet, from the signed distances to both.</summary>
    public static double Corner(double a, double b) => a > 0 && b > 0 ? Math.Sqrt((a * a) + (b * b)) : Math.Max(a, b);
}
