using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Overhangs;

/// <summary>One orientation of a surface: heights above the plate, and of every triangle that faces the plate its angle and what of it hangs over.</summary>
internal sealed class OverhangPose
{
    /// <summary>Whole degrees from the vertical, 0 … 89.</summary>
    public const int Degrees = 90;

    /// <summary>In <see cref="Degree"/>: does not hang over.</summary>
    public const sbyte None = -1;

    private readonly double _plate;

    public OverhangPose(OverhangSurface surface, Rotation rotation, CancellationToken stop)
    {
        (Surface, Rotation) = (surface, rotation);
        var mesh = surface.Mesh;
        var up = rotation.RowZ;
        (_plate, var top) = Reach(mesh, up);
        Height = Math.Max(0, top - _plate);
        Heights = GC.AllocateUninitializedArray<float>(mesh.VertexCount);
        for (var v = 0; v < Heights.Length; v++) Heights[v] = (float)(Vec3.Dot(up, mesh.Vertex(v)) - _plate);
        Degree = GC.AllocateUninitializedArray<sbyte>(mesh.TriangleCount);
        Shadow = new float[mesh.TriangleCount];
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            if (t % (1 << 18) == 0) stop.ThrowIfCancellationRequested();
            Take(t);
        }
    }

    public OverhangSurface Surface { get; }
    public Rotation Rotation { get; }
    public TriangleMesh Mesh => Surface.Mesh;

    /// <summary>Of the part, mm.</summary>
    public double Height { get; }

    /// <summary>Of each vertex above the plate, mm.</summary>
    public float[] Heights { get; }

    /// <summary>Of each triangle: k when it hangs over and is steeper than k° and not than (k + 1)°; else <see cref="None"/>.</summary>
    public sbyte[] Degree { get; }

    /// <summary>Of each triangle that hangs over, its area seen from above without what rests (mm²).</summary>
    public float[] Shadow { get; }

    public double RestingMm2 { get; private set; }

    /// <summary>By degree: area (mm²), area seen from above (mm²), volume down to the plate (mm³).</summary>
    public double[] Areas { get; } = new double[Degrees];

    public double[] Shadows { get; } = new double[Degrees];
    public double[] Prisms { get; } = new double[Degrees];

    /// <summary>A point's height above the plate.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double HeightOf(Vec3 point) => Vec3.Dot(Rotation.RowZ, point) - _plate;

    /// <summary>A point seen from above: its place along the printer's x and y.</summary>
    public (double X, double Y) Seen(Vec3 point) => (Vec3.Dot(Rotation.RowX, point), Vec3.Dot(Rotation.RowY, point));

    /// <summary>The point, in the file's coordinates, that is seen there from above at a height over the plate.</summary>
    public Vec3 PointAt(double x, double y, double height) =>
        (Rotation.RowX * x) + (Rotation.RowY * y) + (Rotation.RowZ * (height + _plate));

    /// <summary>Volume between a triangle and the plate without what rests (mm³).</summary>
    public double PrismOf(int triangle)
    {
        var (a, b, c) = HeightsOf(triangle);
        var (below, belowMean) = Low(a, b, c);
        var shadow = below < 1 ? Shadow[triangle] / (1 - below) : 0;
        return Math.Max(0, shadow * (((a + b + c) / 3) - (below * belowMean)));
    }

    private (double A, double B, double C) HeightsOf(int triangle)
    {
        var corners = Mesh.Indices.Slice(3 * triangle, 3);
        return (Heights[corners[0]], Heights[corners[1]], Heights[corners[2]]);
    }

    private void Take(int t)
    {
        Degree[t] = None;
        var (a, b, c) = Mesh.Triangle(t);
        var cross = Vec3.Cross(b - a, c - a);
        var down = -Vec3.Dot(Rotation.RowZ, cross);
        var twiceArea = cross.Length;
        if (!(down > 0) || twiceArea == 0) return;
        var (ha, hb, hc) = HeightsOf(t);
        var (below, belowMean) = Low(ha, hb, hc);
        var shadow = down / 2;
        RestingMm2 += shadow * below;
        if (below >= 1) return;
        var degrees = Math.Asin(Math.Min(1, down / twiceArea)) * (180 / Math.PI);
        var k = Math.Min(Degrees, (int)Math.Ceiling(degrees - OverhangMeasures.AngleToleranceDegrees)) - 1;
        if (k < 0) return;
        Degree[t] = (sbyte)k;
        Shadow[t] = (float)(shadow * (1 - below));
        Areas[k] += twiceArea / 2 * (1 - below);
        Shadows[k] += shadow * (1 - below);
        Prisms[k] += Math.Max(0, shadow * (((ha + hb + hc) / 3) - (below * belowMean)));
    }

    /// <summary>The fraction of a triangle that lies below the resting height, and the mean height of that fraction.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static (double Fraction, double Mean) Low(double a, double b, double c)
    {
        const double H = OverhangMeasures.RestingMm;
        if (a > H && b > H && c > H) return (0, 0);
        if (a <= H && b <= H && c <= H) return (1, (a + b + c) / 3);
        var low = Math.Min(a, Math.Min(b, c));
        var high = Math.Max(a, Math.Max(b, c));
        var middle = a + b + c - low - high;
        if (middle > H)
        {
            // Only the lowest corner is below: a small triangle of heights low, H, H.
            return ((H - low) * (H - low) / ((middle - low) * (high - low)), (low + H + H) / 3);
        }

        // Only the highest is above: the whole less a small triangle of heights high, H, H.
        var above = (high - H) * (high - H) / ((high - low) * (high - middle));
        var below = 1 - above;
        return below > 0 ? (below, (((low + middle + high) / 3) - (above * (high + H + H) / 3)) / below) : (0, 0);
    }

    private static (double Low, double High) Reach(TriangleMesh mesh, Vec3 up)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var v in mesh.Indices)
        {
            var h = Vec3.Dot(up, mesh.Vertex(v));
            (low, high) = (Math.Min(low, h), Math.Max(high, h));
        }

        return low <= high ? (low, high) : (0, 0);
    }
}
