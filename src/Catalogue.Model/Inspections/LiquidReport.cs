using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Inspections;

/// <summary>Where the part keeps liquid, as reports say it; pools and suction for the pose <see cref="Rotation"/> (platform at low z, film at high z).</summary>
/// <param name="SealedVoids">Closed on all sides.</param>
/// <param name="Cavities">Wider inside than their ways out, widest way first.</param>
/// <param name="PooledMm3">What cannot drain after the print, small pools included.</param>
/// <param name="SuctionMm2">The largest area the film seals in one layer.</param>
/// <param name="SuctionLastsMm">Height of the layers that seal something.</param>
public sealed record LiquidReport(
    IReadOnlyList<SealedVoidReport> SealedVoids, IReadOnlyList<CavityReport> Cavities, double PooledMm3, IReadOnlyList<PoolReport> Pools,
    double SuctionMm2, double SuctionLastsMm, IReadOnlyList<SuctionReport> SuctionCups, double[] Rotation)
{
    public static LiquidReport Of(TrappedLiquid liquid)
    {
        ArgumentNullException.ThrowIfNull(liquid);
        return new(
            [
                .. liquid.Cavities.Where(c => c.Sealed)
                    .Select(c => new SealedVoidReport(c.VolumeMm3, At(c.At), c.SkinMm, c.SkinAt is { } s ? At(s) : null, DrillingReport.Of(c.Drain), DrillingReport.Of(c.Vent))),
            ],
            [
                .. liquid.Cavities.Where(c => !c.Sealed).Select(c => new CavityReport(
                    c.VolumeMm3, At(c.At), [.. c.Openings.Select(o => new OpeningReport(o.DiameterMm, At(o.At), o.Beyond < 0))], c.SkinMm, DrillingReport.Of(c.Drain), DrillingReport.Of(c.Vent))),
            ],
            liquid.PooledMm3, [.. liquid.Pools.Select(p => new PoolReport(p.VolumeMm3, p.DepthMm, At(p.At), DrillingReport.Of(p.Drain)))],
            liquid.SuctionMm2, liquid.SuctionLastsMm, [.. liquid.SuctionCups.Select(s => new SuctionReport(s.AreaMm2, s.LastsMm, s.VolumeMm3, At(s.At), DrillingReport.Of(s.Vent)))],
            liquid.Rotation);
    }

    internal static double[] At(Vec3 p) => [p.X, p.Y, p.Z];
}

/// <param name="SkinMm">Least wall to the outside.</param>
public sealed record SealedVoidReport(double VolumeMm3, double[] At, double? SkinMm, double[]? SkinAt, DrillingReport? Drain, DrillingReport? Vent);

public sealed record CavityReport(double VolumeMm3, double[] At, IReadOnlyList<OpeningReport> Openings, double? SkinMm, DrillingReport? Drain, DrillingReport? Vent);

/// <param name="DiameterMm">Of the largest ball that passes.</param>
/// <param name="Outward">False when it leads to another cavity.</param>
public sealed record OpeningReport(double DiameterMm, double[] At, bool Outward);

public sealed record PoolReport(double VolumeMm3, double DepthMm, double[] At, DrillingReport? Drain);

/// <param name="LastsMm">Height of the layers during which it is sealed.</param>
public sealed record SuctionReport(double AreaMm2, double LastsMm, double VolumeMm3, double[] At, DrillingReport? Vent);

/// <param name="At">On the outer skin.</param>
/// <param name="Direction">Into the part.</param>
public sealed record DrillingReport(double[] At, double[] Direction, double WallMm)
{
    internal static DrillingReport? Of(Drilling? drilling) => drilling is null ? null : new(LiquidReport.At(drilling.At), LiquidReport.At(drilling.Direction), drilling.WallMm);
}
