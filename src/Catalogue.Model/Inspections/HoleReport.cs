using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Inspections;

/// <summary>A round hole, as reports say it.</summary>
/// <param name="DiameterMm">Of the circle the corners of the wall lie on.</param>
/// <param name="ClearMm">The widest rod that passes.</param>
/// <param name="Axis">Into the hole.</param>
/// <param name="At">Middle of the mouth.</param>
/// <param name="WallMm">Least matter around it, square to the axis.</param>
/// <param name="FloorMm">Least matter behind the floor of a blind hole.</param>
public sealed record HoleReport(
    double DiameterMm, double ClearMm, double DepthMm, bool Through, double[] Axis, double[] At, double[] Center, double? WallMm, double? FloorMm)
{
    public static HoleReport Of(RoundHole hole)
    {
        ArgumentNullException.ThrowIfNull(hole);
        return new(
            Tidy(hole.DiameterMm), Tidy(hole.ClearMm), Tidy(hole.DepthMm), hole.Through, Numbers(hole.Axis), Numbers(hole.Mouth), Numbers(hole.Center),
            hole.WallMm is { } wall ? Tidy(wall) : null, hole.FloorMm is { } floor ? Tidy(floor) : null);
    }

    internal static double[] Numbers(Vec3 v) => [Tidy(v.X), Tidy(v.Y), Tidy(v.Z)];

    internal static double Tidy(double x) => Math.Round(x, 4) + 0.0;
}

/// <summary>A round peg with a free end.</summary>
/// <param name="Axis">From the root to the free end.</param>
/// <param name="At">Where the straight wall ends, at the free end.</param>
public sealed record PegReport(double DiameterMm, double LengthMm, double[] Axis, double[] At)
{
    public static PegReport Of(RoundPeg peg)
    {
        ArgumentNullException.ThrowIfNull(peg);
        return new(HoleReport.Tidy(peg.DiameterMm), HoleReport.Tidy(peg.LengthMm), HoleReport.Numbers(peg.Axis), HoleReport.Numbers(peg.Tip));
    }
}
