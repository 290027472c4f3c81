using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>A hull's vertices about the centre of its box, laid out for wide instructions: how far it reaches in a direction.</summary>
/// <remarks>
/// <see cref="ExtentsIn"/> is exact to double rounding and decides; the single-precision lists serve searches, which allow
/// <see cref="Rounding"/> for them.
/// </remarks>
internal sealed class HullSupport
{
    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _z;

    public HullSupport(ConvexHull hull)
    {
        var n = hull.VertexCount;
        var center = hull.Bounds.Center;
        var padded = Math.Max(16, (n + 15) / 16 * 16);
        Padded = padded;
        Floats = new float[3 * padded];
        (_x, _y, _z) = (new double[padded], new double[padded], new double[padded]);
        Count = n;
        for (var i = 0; i < padded && n > 0; i++)
        {
            var exact = hull.Vertex(Math.Min(i, n - 1));
            (_x[i], _y[i], _z[i]) = (exact.X, exact.Y, exact.Z);
            var p = exact - center;
            (Floats[i], Floats[padded + i], Floats[(2 * padded) + i]) = ((float)p.X, (float)p.Y, (float)p.Z);
        }

        Radius = hull.Bounds.Size.Length / 2;
        Rounding = 4e-7 * Radius;
    }

    private HullSupport(HullSupport whole, List<int> some)
    {
        (Count, Radius, Rounding) = (some.Count, whole.Radius, whole.Rounding);
        Padded = (Count + 15) / 16 * 16;
        Floats = new float[3 * Padded];
        (_x, _y, _z) = (new double[Padded], new double[Padded], new double[Padded]);
        for (var i = 0; i < Padded; i++)
        {
            var from = some[Math.Min(i, Count - 1)];
            (_x[i], _y[i], _z[i]) = (whole._x[from], whole._y[from], whole._z[from]);
            for (var axis = 0; axis < 3; axis++) Floats[(axis * Padded) + i] = whole.Floats[(axis * whole.Padded) + from];
        }
    }

    public int Count { get; }

    /// <summary>The length of each of the three runs in <see cref="Floats"/>: a multiple of 16, filled up with copies of the last vertex.</summary>
    public int Padded { get; }

    /// <summary>All x, then all y, then all z, relative to the centre of the hull's box.</summary>
    public float[] Floats { get; }

    /// <summary>No vertex is farther from the centre (mm).</summary>
    public double Radius { get; }

    /// <summary>An extent taken from <see cref="Floats"/> is off by no more (mm).</summary>
    public double Rounding { get; }

    /// <summary>A vertex in double precision, in the mesh's own place.</summary>
    public Vec3 Point(int i) => new(_x[i], _y[i], _z[i]);

    /// <summary>From one to the other of the two vertices that are farthest apart (mm). O(n²).</summary>
    public Vec3 LongestSpan()
    {
        var (most, from, to) = (0.0, 0, 0);
        for (var i = 0; i < Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                var (x, y, z) = (_x[i] - _x[j], _y[i] - _y[j], _z[i] - _z[j]);
                var distance2 = (x * x) + (y * y) + (z * z);
                if (distance2 > most) (most, from, to) = (distance2, i, j);
            }
        }

        return Point(to) - Point(from);
    }

    /// <summary>
    /// Only the vertices that are extreme in one of some 1500 directions: nowhere larger than the whole, and smaller by hardly more than a thousandth of the
    /// radius of curvature there. O(vertices) a direction; itself when that would leave nearly all.
    /// </summary>
    public HullSupport Reduced()
    {
        const int Side = 16;
        if (Count <= 6 * Side * Side / 2) return this;
        var extreme = new bool[Count];
        for (var i = 0; i < Side; i++)
        {
            for (var j = 0; j < Side; j++)
            {
                var (u, v) = (Math.Tan(((2 * i) + 1 - Side) * Math.PI / (4 * Side)), Math.Tan(((2 * j) + 1 - Side) * Math.PI / (4 * Side)));
                MarkBothEnds(new(1, u, v), extreme);
                MarkBothEnds(new(v, 1, u), extreme);
                MarkBothEnds(new(u, v, 1), extreme);
            }
        }

        List<int> some = [.. Enumerable.Range(0, Count).Where(i => extreme[i])];
        return some.Count > Count / 2 ? this : new(this, some);
    }

    private void MarkBothEnds(Vec3 direction, bool[] extreme)
    {
        var wide = MemoryMarshal.Cast<float, Vector512<float>>(Floats);
        var n = Padded / 16;
        var (dx, dy, dz) = (Vector512.Create((float)direction.X), Vector512.Create((float)direction.Y), Vector512.Create((float)direction.Z));
        var low = Vector512.Create(float.PositiveInfinity);
        var high = Vector512.Create(float.NegativeInfinity);
        var (lowAt, highAt) = (Vector512<int>.Zero, Vector512<int>.Zero);
        for (var i = 0; i < n; i++)
        {
            var d = Vector512.FusedMultiplyAdd(wide[i], dx, Vector512.FusedMultiplyAdd(wide[n + i], dy, wide[(2 * n) + i] * dz));
            var at = Vector512.Create(i * 16);
            lowAt = Vector512.ConditionalSelect(Vector512.LessThan(d, low).AsInt32(), at, lowAt);
            low = Vector512.Min(low, d);
            highAt = Vector512.ConditionalSelect(Vector512.GreaterThan(d, high).AsInt32(), at, highAt);
            high = Vector512.Max(high, d);
        }

        var (least, most) = (0, 0);
        for (var lane = 1; lane < 16; lane++)
        {
            if (low[lane] < low[least]) least = lane;
            if (high[lane] > high[most]) most = lane;
        }

        extreme[Math.Min(Count - 1, lowAt[least] + least)] = true;
        extreme[Math.Min(Count - 1, highAt[most] + most)] = true;
    }

    /// <summary>The lengths of the hull along the three rows of a rotation, in double precision over all vertices. O(n).</summary>
    public Vec3 ExtentsIn(Rotation rotation) => Count == 0
        ? Vec3.Zero
        : new(ExtentAlong(rotation.RowX), ExtentAlong(rotation.RowY), ExtentAlong(rotation.RowZ));

    /// <summary>The length of the hull along a unit direction (mm).</summary>
    public double ExtentAlong(Vec3 direction)
    {
        var (dx, dy, dz) = (Vector512.Create(direction.X), Vector512.Create(direction.Y), Vector512.Create(direction.Z));
        var wx = MemoryMarshal.Cast<double, Vector512<double>>(_x);
        var wy = MemoryMarshal.Cast<double, Vector512<double>>(_y);
        var wz = MemoryMarshal.Cast<double, Vector512<double>>(_z);
        var low = Vector512.Create(double.PositiveInfinity);
        var high = Vector512.Create(double.NegativeInfinity);
        for (var i = 0; i < wx.Length; i++)
        {
            var d = (wx[i] * dx) + (wy[i] * dy) + (wz[i] * dz);
            low = Vector512.Min(low, d);
            high = Vector512.Max(high, d);
        }

        var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var lane = 0; lane < Vector512<double>.Count; lane++) (least, most) = (Math.Min(least, low[lane]), Math.Max(most, high[lane]));
        return most - least;
    }
}
