using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;

namespace Catalogue.Model.Inspections;

/// <summary>A handful of ways to lay a part in the build volume asked about, from the least contact with supports to the most.</summary>
/// <param name="LimitDegrees">Supports go under what is steeper, from the vertical.</param>
/// <param name="Advised">None is beaten by another in everything; empty when nothing that was tried fits.</param>
/// <param name="AsTheFileLies">For comparison; absent when it does not fit.</param>
public sealed record OrientationsReport(double LimitDegrees, IReadOnlyList<OrientationReport> Advised, OrientationReport? AsTheFileLies)
{
    /// <param name="limitDegrees">What the advice was asked with.</param>
    public static OrientationsReport Of(OrientationAdvice advice, double limitDegrees = OverhangMeasures.ReferenceDegrees)
    {
        ArgumentNullException.ThrowIfNull(advice);
        return new(limitDegrees, [.. advice.Orientations.Select(OrientationReport.Of)],
            advice.AsTheFileLies is { } filed ? OrientationReport.Of(filed) : null);
    }
}

/// <param name="Size">Width, depth and height on the plate, mm.</param>
/// <param name="ContactMm2">Surface that supports touch.</param>
/// <param name="RestingMm2">Footprint on the plate.</param>
/// <param name="MarkedMm2">Surface that supports or the plate touch.</param>
/// <param name="IslandCount">Places that start in mid-air.</param>
/// <param name="PooledMm3">Liquid that stays in it; absent when no resin process was asked about.</param>
/// <param name="SuctionMm2">Largest area that the film seals in one layer; absent likewise.</param>
/// <param name="Stands">False: it would fall over by itself, and needs to be held.</param>
/// <param name="BestIn">What none of the others is better at: <c>contact</c>, <c>height</c>, <c>marked</c>, <c>pools</c>, <c>suction</c>.</param>
/// <param name="TurnDegrees">The same rotation as three turns from the file's pose: about x, then y, then z.</param>
/// <param name="Rotation">From the file's pose; nine numbers, row-major.</param>
public sealed record OrientationReport(
    double[] Size, double SpareMm, double HeightMm, double ContactMm2, double SupportVolumeMm3, double RestingMm2, double MarkedMm2, int IslandCount,
    double? PooledMm3, double? SuctionMm2, bool Stands, IReadOnlyList<string> BestIn, double[] TurnDegrees, double[] Rotation)
{
    public static OrientationReport Of(AdvisedOrientation orientation)
    {
        ArgumentNullException.ThrowIfNull(orientation);
        var size = orientation.Size;
        return new(
            [Math.Round(size.X, 3), Math.Round(size.Y, 3), Math.Round(size.Z, 3)], Math.Round(orientation.SpareMm, 3), Math.Round(size.Z, 3), orientation.ContactMm2,
            orientation.SupportVolumeMm3, orientation.RestingMm2, Math.Round(orientation.MarkedMm2, 2), orientation.IslandCount,
            orientation.PooledMm3, orientation.SuctionMm2, orientation.Stands,
            [.. orientation.BestIn.Select(Words.Of)], Turns(orientation.Rotation), orientation.Rotation.ToRowMajor());
    }

    private static double[] Turns(Rotation rotation)
    {
        var (x, y, z) = rotation.ToTurns();
        return [Tidy(x), Tidy(y), Tidy(z)];
        static double Tidy(double degrees) => Math.Round(degrees, 2) + 0.0; // no minus before a zero
    }
}
