using Catalogue.Geometry.Overhangs;

namespace Catalogue.Model.Inspections;

/// <summary>What hangs over, as reports say it: angles from the vertical, supports under everything steeper than <see cref="LimitDegrees"/>.</summary>
/// <param name="AreaMm2">Surface that faces the plate and is steeper than the limit, without what rests on the plate.</param>
/// <param name="SupportVolumeMm3">Of straight columns under it, bridges included.</param>
/// <param name="ContactMm2">Surface that those columns touch.</param>
/// <param name="RestingMm2">Footprint on the plate.</param>
/// <param name="ByAngle">The same at other limits.</param>
/// <param name="Rotation">From the file's pose; nine numbers, row-major.</param>
public sealed record OverhangReport(
    double AreaMm2, double SupportVolumeMm3, double ContactMm2, double LimitDegrees, double RestingMm2, double HeightMm, IReadOnlyList<OverhangAtAngle> ByAngle,
    int BridgeCount, IReadOnlyList<BridgeReport> Bridges, int IslandCount, IReadOnlyList<IslandReport> Islands, double[] Rotation)
{
    private const int StepDegrees = 5;

    public static OverhangReport Of(OverhangMeasures overhangs)
    {
        ArgumentNullException.ThrowIfNull(overhangs);
        const double Limit = OverhangMeasures.ReferenceDegrees;
        return new(
            overhangs.AreaSteeperThan(Limit), overhangs.SupportVolumeAt(Limit), overhangs.ContactAt(Limit), Limit, overhangs.RestingMm2, overhangs.HeightMm,
            [
                .. Enumerable.Range(0, 90 / StepDegrees).Select(i => i * StepDegrees)
                    .Select(k => new OverhangAtAngle(k, overhangs.AreaSteeperThan(k), overhangs.SupportVolumeAt(k), overhangs.ContactAt(k))),
            ],
            overhangs.BridgeCount, [.. overhangs.Bridges.Select(b => new BridgeReport(b.SpanMm, b.AreaMm2, [b.At.X, b.At.Y, b.At.Z]))],
            overhangs.IslandCount, [.. overhangs.Islands.Select(i => new IslandReport(i.HeightMm, i.RiseMm, i.AreaMm2, [i.At.X, i.At.Y, i.At.Z]))],
            overhangs.Rotation.ToRowMajor());
    }
}

public sealed record OverhangAtAngle(double Degrees, double AreaMm2, double SupportVolumeMm3, double ContactMm2);

public sealed record BridgeReport(double SpanMm, double AreaMm2, double[] At);

/// <param name="HeightMm">Of its lowest point above the plate.</param>
/// <param name="RiseMm">From there to where it joins the rest.</param>
public sealed record IslandReport(double HeightMm, double RiseMm, double AreaMm2, double[] At);
