using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>What a search over rotations wants to know of a box of them.</summary>
internal interface IRotationGoal
{
    /// <summary>Told of one box; true to look closer, false when the box is settled.</summary>
    bool LookCloser(in RotationBox box);
}

/// <summary>A hull's extents at the centre of a box of rotations, and bounds of them all over it (mm).</summary>
/// <param name="Center">Rodrigues vector of the centre.</param>
/// <param name="Half">Half the sides of the box.</param>
/// <param name="Extents">Along the three axes at the centre.</param>
/// <param name="IsLinear">False for boxes so large that the slopes say nothing; the least extents hold always.</param>
internal readonly record struct RotationBox(Vec3 Center, Vec3 Half, Vec3 Extents, bool IsLinear)
{
    public required ExtentBound X { get; init; }
    public required ExtentBound Y { get; init; }
    public required ExtentBound Z { get; init; }

    public SortedExtents Sorted => SortedExtents.Of(Extents);

    /// <summary>What the three extents, sorted, are at least all over the box.</summary>
    public SortedExtents Least => SortedExtents.Of(X.Least, Y.Least, Z.Least);

    /// <summary>The half box along the side that the bounds lose most by.</summary>
    public Vec3 HalfOfCostliestSide()
    {
        var cost = X.CostOf(Half) + Y.CostOf(Half) + Z.CostOf(Half);
        return cost.X >= cost.Y && cost.X >= cost.Z ? new(Half.X / 2, 0, 0)
            : cost.Y >= cost.Z ? new(0, Half.Y / 2, 0) : new(0, 0, Half.Z / 2);
    }
}

/// <summary>One extent over a box: at least <c>Base − Slope · f</c> where f, each in −1 … 1, says where in the box; the same f for all three extents.</summary>
internal readonly struct ExtentBound
{
    private readonly double _extent;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ExtentBound(double extent, Vec3 axis, Vec3 across, Vec3 r, Vec3 half, double k, double sigma2, double rounding)
    {
        _extent = extent;
        var g = Vec3.Cross(axis, across);
        var m = g + Vec3.Cross(r, g);
        Slope = new(2 * k * half.X * m.X, 2 * k * half.Y * m.Y, 2 * k * half.Z * m.Z);
        var lean = g.Length;
        Base = extent - (2 * sigma2 * (extent + (lean / 2))) - rounding;
        var cone = (((extent * (1 - sigma2)) - (2 * lean * Math.Sqrt(sigma2))) / (1 + sigma2)) - rounding;
        Least = Math.Max(0, k > 0 ? Math.Max(cone, Base - Math.Abs(Slope.X) - Math.Abs(Slope.Y) - Math.Abs(Slope.Z)) : cone);
    }

    /// <summary>The extent at the centre less what curvature and rounding can take.</summary>
    public double Base { get; }

    public Vec3 Slope { get; }

    /// <summary>The extent is nowhere in the box less.</summary>
    public double Least { get; }

    public Vec3 CostOf(Vec3 half) => new(
        Math.Abs(Slope.X) + (half.X * half.X * _extent),
        Math.Abs(Slope.Y) + (half.Y * half.Y * _extent),
        Math.Abs(Slope.Z) + (half.Z * half.Z * _extent));
}
