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

    public int Count { get; }

    /// <summary>The length of each of the three runs in <see cref="Floats"/>: a multiple of 16, filled up with copies of the last vertex.</summary>
    public int Padded { get; }

    /// <summary>All x, then all y, then all z, relative to the centre of the hull's box.</summary>
    public float[] Floats { get; }

    /// <summary>No vertex is farther from the centre (mm).</summary>
    public double Radius { get; }

    /// <summary>An extent taken from <see cref="Floats"/> is off by no more (mm).</summary>
    public double Rounding { get; }

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
