using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>The smallest circle around a hull's shadow along a direction, and the hull's height along it (mm).</summary>
/// <remarks>
/// The circle of two or three points is grown by the point farthest outside it until none is (the pivoting of B. Gärtner, "Fast and Robust
/// Smallest Enclosing Balls", ESA 1999, in the plane). O(vertices) a step, a handful of steps. Single precision inside: off by at most
/// <see cref="HullSupport.Rounding"/> each way; <see cref="DiameterOf"/> measures a final answer in double precision. One object, one thread.
/// </remarks>
internal sealed class EnclosingCircle(HullSupport support)
{
    private const int Lanes = 16;
    private readonly float[] _a = new float[support.Padded];
    private readonly float[] _b = new float[support.Padded];
    private readonly float[] _depth = new float[support.Padded];
    private readonly int[] _basis = new int[4];
    private int _basisCount;

    /// <summary>What one direction gives.</summary>
    /// <param name="Diameter">Of the smallest circle around the shadow.</param>
    /// <param name="Depth">How far apart along the direction the points lie that hold the circle.</param>
    /// <param name="Height">The hull's length along the direction.</param>
    /// <param name="Lean">|g|: how fast the height can fall when the direction turns, mm per radian.</param>
    /// <param name="CenterA">The circle's centre along the first axis of the shadow's frame, about the centre of the hull's box.</param>
    /// <param name="CenterB">The same along the second axis.</param>
    public readonly record struct Shadow(double Diameter, double Depth, double Height, double Lean, double CenterA, double CenterB)
    {
        /// <summary>No direction within the angle has a smaller circle: tilting by θ keeps at least r cos θ of a radius and moves points by z sin θ.</summary>
        public double DiameterAtLeast(double sin, double cos) => (Diameter * cos) - (Depth * sin);

        /// <summary>No direction within the angle has a smaller height.</summary>
        public double HeightAtLeast(double sin, double cos) => (Height * cos) - (Lean * sin);
    }

    /// <summary>The shadow along the third row of <paramref name="frame"/>, in the plane of the other two.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public Shadow Along(Rotation frame)
    {
        var (low, high) = Project(frame);
        var (depthLow, depthHigh) = (_depth[low], _depth[high]);
        var p = Point(high) - Point(low);
        double height = depthHigh - depthLow;
        var lean = Math.Sqrt(Math.Max(0, p.LengthSquared - (height * height)));

        _basis[0] = FarthestFrom(0, 0, out _);
        _basisCount = 1;
        var (ca, cb, r2) = (_a[_basis[0]], _b[_basis[0]], 0.0);
        var (x, y) = ((double)ca, (double)cb);
        for (var step = 0; step < 64; step++)
        {
            var next = FarthestFrom((float)x, (float)y, out var distance2);
            if (distance2 <= r2 * (1 + 1e-6) || InBasis(next)) break;
            (x, y, r2) = Grow(next);
        }

        var (nearest, farthest) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var i = 0; i < _basisCount; i++)
        {
            nearest = Math.Min(nearest, _depth[_basis[i]]);
            farthest = Math.Max(farthest, _depth[_basis[i]]);
        }

        return new(2 * Math.Sqrt(r2), farthest - nearest, height, lean, x, y);
    }

    private Vec3 Point(int i) => new(support.Floats[i], support.Floats[support.Padded + i], support.Floats[(2 * support.Padded) + i]);

    private bool InBasis(int index) => _basis.AsSpan(0, _basisCount).Contains(index);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (int Low, int High) Project(Rotation frame)
    {
        var wide = MemoryMarshal.Cast<float, Vector512<float>>(support.Floats);
        var n = support.Padded / Lanes;
        var x = wide[..n];
        var y = wide.Slice(n, n);
        var z = wide.Slice(2 * n, n);
        var a = Wide(_a);
        var b = Wide(_b);
        var depth = Wide(_depth);
        var low = Vector512.Create(float.PositiveInfinity);
        var high = Vector512.Create(float.NegativeInfinity);
        var (lowAt, highAt) = (Vector512<int>.Zero, Vector512<int>.Zero);
        var (a1, a2, a3) = Broadcast(frame.RowX);
        var (b1, b2, b3) = Broadcast(frame.RowY);
        var (d1, d2, d3) = Broadcast(frame.RowZ);
        for (var i = 0; i < n; i++)
        {
            a[i] = Vector512.FusedMultiplyAdd(a1, x[i], Vector512.FusedMultiplyAdd(a2, y[i], a3 * z[i]));
            b[i] = Vector512.FusedMultiplyAdd(b1, x[i], Vector512.FusedMultiplyAdd(b2, y[i], b3 * z[i]));
            var d = Vector512.FusedMultiplyAdd(d1, x[i], Vector512.FusedMultiplyAdd(d2, y[i], d3 * z[i]));
            depth[i] = d;
            var at = Vector512.Create(i * Lanes);
            lowAt = Vector512.ConditionalSelect(Vector512.LessThan(d, low).AsInt32(), at, lowAt);
            low = Vector512.Min(low, d);
            highAt = Vector512.ConditionalSelect(Vector512.GreaterThan(d, high).AsInt32(), at, highAt);
            high = Vector512.Max(high, d);
        }

        return (Best(-low, lowAt), Best(high, highAt));
    }

    private static Span<Vector512<float>> Wide(float[] values) => MemoryMarshal.Cast<float, Vector512<float>>(values.AsSpan());

    private static (Vector512<float> X, Vector512<float> Y, Vector512<float> Z) Broadcast(Vec3 v) =>
        (Vector512.Create((float)v.X), Vector512.Create((float)v.Y), Vector512.Create((float)v.Z));

    private static int Best(Vector512<float> values, Vector512<int> where)
    {
        var eight = Vector256.Max(values.GetLower(), values.GetUpper());
        var four = Vector128.Max(eight.GetLower(), eight.GetUpper());
        four = Vector128.Max(four, Vector128.Shuffle(four, Vector128.Create(2, 3, 0, 1)));
        four = Vector128.Max(four, Vector128.Shuffle(four, Vector128.Create(1, 0, 3, 2)));
        var lane = BitOperations.TrailingZeroCount(Vector512.Equals(values, Vector512.Create(four.ToScalar())).ExtractMostSignificantBits());
        return where.GetElement(lane) + lane;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int FarthestFrom(float x, float y, out double distance2)
    {
        var a = Wide(_a);
        var b = Wide(_b);
        var (cx, cy) = (Vector512.Create(x), Vector512.Create(y));
        var most = Vector512.Create(-1f);
        var where = Vector512<int>.Zero;
        for (var i = 0; i < a.Length; i++)
        {
            var (dx, dy) = (a[i] - cx, b[i] - cy);
            var d = Vector512.FusedMultiplyAdd(dx, dx, dy * dy);
            where = Vector512.ConditionalSelect(Vector512.GreaterThan(d, most).AsInt32(), Vector512.Create(i * Lanes), where);
            most = Vector512.Max(most, d);
        }

        var at = Best(most, where);
        var (ex, ey) = ((double)_a[at] - x, (double)_b[at] - y);
        distance2 = (ex * ex) + (ey * ey);
        return at;
    }

    /// <summary>The smallest circle of the basis and one more point, which is on it: all pairs and triples with the new point are tried.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (double X, double Y, double R2) Grow(int added)
    {
        var best = (X: 0.0, Y: 0.0, R2: double.PositiveInfinity);
        Span<int> chosen = stackalloc int[3];
        var count = 0;
        for (var i = 0; i < _basisCount; i++)
        {
            var (px, py) = (_a[_basis[i]], _b[_basis[i]]);
            var (x, y) = ((_a[added] + (double)px) / 2, (_b[added] + (double)py) / 2);
            var (dx, dy) = (_a[added] - x, _b[added] - y);
            Try((x, y, (dx * dx) + (dy * dy)), [added, _basis[i]], chosen);
            for (var j = 0; j < i; j++)
            {
                if (Circumcircle(added, _basis[i], _basis[j], out var circle)) Try(circle, [added, _basis[i], _basis[j]], chosen);
            }
        }

        chosen[..count].CopyTo(_basis);
        _basisCount = count;
        return best;

        void Try((double X, double Y, double R2) circle, ReadOnlySpan<int> holders, Span<int> into)
        {
            if (circle.R2 >= best.R2) return;
            for (var i = 0; i < _basisCount; i++)
            {
                var (dx, dy) = (_a[_basis[i]] - circle.X, _b[_basis[i]] - circle.Y);
                if ((dx * dx) + (dy * dy) > circle.R2 * (1 + 1e-9)) return;
            }

            best = circle;
            holders.CopyTo(into);
            count = holders.Length;
        }
    }

    private bool Circumcircle(int p, int q, int s, out (double X, double Y, double R2) circle)
    {
        var (px, py) = ((double)_a[p], (double)_b[p]);
        var (bx, by) = (_a[q] - px, _b[q] - py);
        var (cx, cy) = (_a[s] - px, _b[s] - py);
        var d = 2 * ((bx * cy) - (by * cx));
        circle = default;
        if (d == 0) return false;
        var (b2, c2) = ((bx * bx) + (by * by), (cx * cx) + (cy * cy));
        var (ux, uy) = (((cy * b2) - (by * c2)) / d, ((bx * c2) - (cx * b2)) / d);
        circle = (px + ux, py + uy, (ux * ux) + (uy * uy));
        return double.IsFinite(circle.R2);
    }

    /// <summary>A circle of this diameter goes around the shadow, measured on every vertex in double precision; at most rounding above the smallest.</summary>
    public double DiameterOf(ConvexHull hull, Rotation frame)
    {
        if (hull.VertexCount == 0) return 0;
        var shadow = Along(frame);
        var center = hull.Bounds.Center;
        var most = 0.0;
        for (var i = 0; i < hull.VertexCount; i++)
        {
            var p = hull.Vertex(i) - center;
            var (x, y) = (Vec3.Dot(frame.RowX, p) - shadow.CenterA, Vec3.Dot(frame.RowY, p) - shadow.CenterB);
            most = Math.Max(most, (x * x) + (y * y));
        }

        return 2 * Math.Sqrt(most);
    }
}
