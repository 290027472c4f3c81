namespace Catalogue.Geometry.Meshes;

/// <summary>A rotation as a 3 × 3 orthonormal matrix of determinant +1: three rows, the axes of the turned frame.</summary>
/// <remarks><c>Apply(p)</c> gives the coordinates of <c>p</c> after turning; row i · p is the new coordinate i.</remarks>
public readonly record struct Rotation(Vec3 RowX, Vec3 RowY, Vec3 RowZ)
{
    public static Rotation Identity => new(Vec3.UnitX, Vec3.UnitY, Vec3.UnitZ);

    public Vec3 Apply(Vec3 p) => new(Vec3.Dot(RowX, p), Vec3.Dot(RowY, p), Vec3.Dot(RowZ, p));

    /// <summary>The rotation that undoes this one.</summary>
    public Rotation Inverse() => new(
        new(RowX.X, RowY.X, RowZ.X),
        new(RowX.Y, RowY.Y, RowZ.Y),
        new(RowX.Z, RowY.Z, RowZ.Z));

    /// <summary>First <paramref name="first"/>, then this rotation.</summary>
    public Rotation After(Rotation first)
    {
        var columns = first.Inverse();
        return new(Row(RowX), Row(RowY), Row(RowZ));
        Vec3 Row(Vec3 row) => new(Vec3.Dot(row, columns.RowX), Vec3.Dot(row, columns.RowY), Vec3.Dot(row, columns.RowZ));
    }

    /// <summary>Turn by <paramref name="radians"/> about <paramref name="axis"/> (right-hand rule), Rodrigues' formula.</summary>
    public static Rotation About(Vec3 axis, double radians)
    {
        var u = axis.Normalized();
        var (s, c) = Math.SinCos(radians);
        var t = 1 - c;
        return new(
            new((t * u.X * u.X) + c, (t * u.X * u.Y) - (s * u.Z), (t * u.X * u.Z) + (s * u.Y)),
            new((t * u.X * u.Y) + (s * u.Z), (t * u.Y * u.Y) + c, (t * u.Y * u.Z) - (s * u.X)),
            new((t * u.X * u.Z) - (s * u.Y), (t * u.Y * u.Z) + (s * u.X), (t * u.Z * u.Z) + c));
    }

    /// <summary>A rotation that brings <paramref name="direction"/> to +z.</summary>
    public static Rotation BringingToZ(Vec3 direction)
    {
        var z = direction.Normalized();
        var helper = Math.Abs(z.X) < 0.9 ? Vec3.UnitX : Vec3.UnitY;
        var x = Vec3.Cross(helper, z).Normalized();
        return new(x, Vec3.Cross(z, x), z);
    }

    /// <summary>The same in three turns that can be typed in: degrees about the fixed x, then about the fixed y, then about the fixed z axis (right-hand rule).</summary>
    public (double X, double Y, double Z) ToTurns()
    {
        const double Degrees = 180 / Math.PI;
        var level = double.Hypot(RowZ.Y, RowZ.Z);
        var y = Math.Atan2(-RowZ.X, level);

        // With the old x axis upright the first and the last turn are about the same line: the last is left out.
        return level < 1e-9
            ? (Math.Atan2(-RowY.Z, RowY.Y) * Degrees, y * Degrees, 0)
            : (Math.Atan2(RowZ.Y, RowZ.Z) * Degrees, y * Degrees, Math.Atan2(RowY.X, RowX.X) * Degrees);
    }

    /// <summary>The nine numbers in row-major order, as the JSON contract writes them.</summary>
    public double[] ToRowMajor() => [RowX.X, RowX.Y, RowX.Z, RowY.X, RowY.Y, RowY.Z, RowZ.X, RowZ.Y, RowZ.Z];

    public static Rotation FromRowMajor(ReadOnlySpan<double> m) => m.Length == 9
        ? new(new(m[0], m[1], m[2]), new(m[3], m[4], m[5]), new(m[6], m[7], m[8]))
        : throw new ArgumentException("A rotation is nine numbers in row-major order.", nameof(m));
}
