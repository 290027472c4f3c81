using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>On which side points lie: exact signs for points whose coordinates are single-precision numbers, as a mesh's are.</summary>
/// <remarks>
/// The determinant is computed in double precision and believed when it is larger than its error bound; else it is summed
/// exactly, which its single-precision inputs make short work (J. R. Shewchuk, "Adaptive Precision Floating-Point Arithmetic
/// and Fast Robust Geometric Predicates", Discrete and Computational Geometry 18, 1997: the bounds and the expansion sum).
/// </remarks>
public static class Orientation
{
    private const double Epsilon = 1.1102230246251565e-16; // 2⁻⁵³
    private const double Bound3 = (7 + (56 * Epsilon)) * Epsilon;
    private const double Bound2 = (3 + (16 * Epsilon)) * Epsilon;

    /// <summary>+1 when <paramref name="p"/> lies on the side from which a, b, c run counter-clockwise, −1 on the other, 0 in their plane (or when they have none).</summary>
    public static int Side(Vec3 a, Vec3 b, Vec3 c, Vec3 p)
    {
        var (ax, ay, az) = (a.X - p.X, a.Y - p.Y, a.Z - p.Z);
        var (bx, by, bz) = (b.X - p.X, b.Y - p.Y, b.Z - p.Z);
        var (cx, cy, cz) = (c.X - p.X, c.Y - p.Y, c.Z - p.Z);
        var (bxcy, cxby) = (bx * cy, cx * by);
        var (cxay, axcy) = (cx * ay, ax * cy);
        var (axby, bxay) = (ax * by, bx * ay);
        var det = (az * (bxcy - cxby)) + (bz * (cxay - axcy)) + (cz * (axby - bxay));
        var bound = Bound3 * (((Math.Abs(bxcy) + Math.Abs(cxby)) * Math.Abs(az))
            + ((Math.Abs(cxay) + Math.Abs(axcy)) * Math.Abs(bz))
            + ((Math.Abs(axby) + Math.Abs(bxay)) * Math.Abs(cz)));

        // The determinant of the corners as seen from p is positive when they run clockwise seen from p.
        if (det > bound) return -1;
        if (det < -bound) return 1;
        return bound == 0 ? 0 : ExactSide(a, b, c, p);
    }

    /// <summary>+1 when (cx, cy) lies left of the way from a to b, −1 right of it, 0 on its line.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Turn(double ax, double ay, double bx, double by, double cx, double cy)
    {
        var left = (bx - ax) * (cy - ay);
        var right = (by - ay) * (cx - ax);
        var det = left - right;
        var bound = Bound2 * (Math.Abs(left) + Math.Abs(right));
        if (det > bound) return 1;
        if (det < -bound) return -1;
        return bound == 0 ? 0 : ExactTurn(ax, ay, bx, by, cx, cy);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static int ExactSide(Vec3 a, Vec3 b, Vec3 c, Vec3 p)
    {
        Span<double> sum = stackalloc double[49];
        var length = 0;
        Add(sum, ref length, b, c, p, 1);
        Add(sum, ref length, a, c, p, -1);
        Add(sum, ref length, a, b, p, 1);
        Add(sum, ref length, a, b, c, -1);
        return length == 0 ? 0 : Math.Sign(sum[length - 1]);

        // The 3 × 3 determinant of the rows u, v, w: six products of three single-precision numbers, each two doubles exactly.
        static void Add(Span<double> sum, ref int length, Vec3 u, Vec3 v, Vec3 w, int sign)
        {
            Product(sum, ref length, sign * u.X * v.Y, w.Z);
            Product(sum, ref length, -sign * u.X * v.Z, w.Y);
            Product(sum, ref length, sign * u.Y * v.Z, w.X);
            Product(sum, ref length, -sign * u.Y * v.X, w.Z);
            Product(sum, ref length, sign * u.Z * v.X, w.Y);
            Product(sum, ref length, -sign * u.Z * v.Y, w.X);
        }

        static void Product(Span<double> sum, ref int length, double xy, double z)
        {
            var product = xy * z;
            Grow(sum, ref length, Math.FusedMultiplyAdd(xy, z, -product));
            Grow(sum, ref length, product);
        }
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static int ExactTurn(double ax, double ay, double bx, double by, double cx, double cy)
    {
        Span<double> sum = stackalloc double[7];
        var length = 0;
        Grow(sum, ref length, ax * by);
        Grow(sum, ref length, -ay * bx);
        Grow(sum, ref length, bx * cy);
        Grow(sum, ref length, -by * cx);
        Grow(sum, ref length, cx * ay);
        Grow(sum, ref length, -cy * ax);
        return length == 0 ? 0 : Math.Sign(sum[length - 1]);
    }

    /// <summary>Adds a number to an expansion (parts that do not overlap, smallest first, none zero), exactly.</summary>
    private static void Grow(Span<double> sum, ref int length, double value)
    {
        var kept = 0;
        for (var i = 0; i < length; i++)
        {
            var total = value + sum[i];
            var virtualPart = total - value;
            var error = (value - (total - virtualPart)) + (sum[i] - virtualPart);
            if (error != 0) sum[kept++] = error;
            value = total;
        }

        if (value != 0) sum[kept++] = value;
        length = kept;
    }
}
