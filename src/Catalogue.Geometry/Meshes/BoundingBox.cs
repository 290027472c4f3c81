namespace Catalogue.Geometry.Meshes;

/// <summary>An axis-aligned box in mm; <see cref="Empty"/> holds nothing and grows with <see cref="Including"/>.</summary>
public readonly record struct BoundingBox(Vec3 Min, Vec3 Max)
{
    public static BoundingBox Empty => new(
        new(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity),
        new(double.NegativeInfinity, double.NegativeInfinity, double.NegativeInfinity));

    public bool IsEmpty => Min.X > Max.X;
    public Vec3 Size => IsEmpty ? Vec3.Zero : Max - Min;
    public Vec3 Center => IsEmpty ? Vec3.Zero : (Min + Max) * 0.5;

    public BoundingBox Including(Vec3 p) => new(
        new(Math.Min(Min.X, p.X), Math.Min(Min.Y, p.Y), Math.Min(Min.Z, p.Z)),
        new(Math.Max(Max.X, p.X), Math.Max(Max.Y, p.Y), Math.Max(Max.Z, p.Z)));
}
