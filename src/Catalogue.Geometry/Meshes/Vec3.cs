using System.Runtime.CompilerServices;

namespace Catalogue.Geometry.Meshes;

/// <summary>A point or direction in double precision, in the mesh's millimetres.</summary>
/// <remarks>Meshes store single precision; sums, rotations and decisions are made in double.</remarks>
public readonly record struct Vec3(double X, double Y, double Z)
{
    public static Vec3 Zero => default;
    public static Vec3 UnitX => new(1, 0, 0);
    public static Vec3 UnitY => new(0, 1, 0);
    public static Vec3 UnitZ => new(0, 0, 1);

    public double LengthSquared => (X * X) + (Y * Y) + (Z * Z);
    public double Length => Math.Sqrt(LengthSquared);

    /// <summary>The vector of length 1 in the same direction; zero stays zero.</summary>
    public Vec3 Normalized()
    {
        var length = Length;
        return length > 0 ? this / length : Zero;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Dot(Vec3 a, Vec3 b) => (a.X * b.X) + (a.Y * b.Y) + (a.Z * b.Z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 Cross(Vec3 a, Vec3 b) =>
        new((a.Y * b.Z) - (a.Z * b.Y), (a.Z * b.X) - (a.X * b.Z), (a.X * b.Y) - (a.Y * b.X));

    public static double Distance(Vec3 a, Vec3 b) => (a - b).Length;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator +(Vec3 a, Vec3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator -(Vec3 a, Vec3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Vec3 operator -(Vec3 a) => new(-a.X, -a.Y, -a.Z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator *(Vec3 a, double s) => new(a.X * s, a.Y * s, a.Z * s);

    public static Vec3 operator *(double s, Vec3 a) => a * s;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vec3 operator /(Vec3 a, double s) => new(a.X / s, a.Y / s, a.Z / s);
}
