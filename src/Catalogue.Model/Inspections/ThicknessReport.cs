using Catalogue.Geometry.Thickness;

namespace Catalogue.Model.Inspections;

/// <summary>How thick the part is, as reports say it.</summary>
/// <param name="Samples">Places measured.</param>
/// <param name="MinMm">The least thickness; absent when no wall faces another.</param>
/// <param name="P01Mm">1 % of the surface is thinner than this.</param>
/// <param name="P05Mm">5 % is.</param>
/// <param name="MedianMm">Half of it is.</param>
/// <param name="BelowMm">Thin regions are clearly thinner than this.</param>
/// <param name="ThinRegionCount">How many there are; the largest are listed.</param>
/// <param name="LimbsBelowMm">Limbs are clearly narrower, both ways, than this.</param>
public sealed record ThicknessReport(
    int Samples, double? MinMm, double? P01Mm, double? P05Mm, double? MedianMm, double BelowMm, int ThinRegionCount, IReadOnlyList<ThinRegionReport> ThinRegions,
    double LimbsBelowMm, IReadOnlyList<ThinRegionReport> Limbs)
{
    // The largest of the built-in limits for walls and for limbs.
    private const double WallStep = 1;
    private const double LimbStep = 5;

    public static ThicknessReport Of(WallMeasures walls)
    {
        ArgumentNullException.ThrowIfNull(walls);
        var (thin, limbs) = (walls.Walls.FirstOrDefault(s => s.BelowMm == WallStep), walls.Limbs.FirstOrDefault(s => s.BelowMm == LimbStep));
        var shares = walls.Distribution;
        return new(
            walls.Samples, Rounded(shares?.MinMm), Rounded(shares?.P01Mm), Rounded(shares?.P05Mm), Rounded(shares?.MedianMm),
            WallStep, thin?.Count ?? 0, [.. (thin?.Regions ?? []).Select(r => ThinRegionReport.Of(r, r.FreeStanding))],
            LimbStep, [.. (limbs?.Regions ?? []).Select(r => ThinRegionReport.Of(r))]);
    }

    internal static double? Rounded(double? value) => value is { } v ? Math.Round(v, 4) : null;
}

/// <summary>The gaps between the part's own walls, as reports say them.</summary>
/// <param name="MinMm">The narrowest; absent when none is narrower than 1 mm.</param>
/// <param name="BelowMm">Narrow regions are clearly narrower than this.</param>
/// <param name="NarrowRegionCount">How many there are; the largest are listed.</param>
public sealed record GapsReport(double? MinMm, double BelowMm, int NarrowRegionCount, IReadOnlyList<ThinRegionReport> NarrowRegions)
{
    // The largest of the built-in clearances.
    private const double Step = 0.5;

    public static GapsReport Of(GapMeasures gaps)
    {
        ArgumentNullException.ThrowIfNull(gaps);
        var narrow = gaps.Gaps.FirstOrDefault(s => s.BelowMm == Step);
        return new(ThicknessReport.Rounded(gaps.MinMm), Step, narrow?.Count ?? 0, [.. (narrow?.Regions ?? []).Select(r => ThinRegionReport.Of(r))]);
    }
}

/// <param name="ReachMm">How far it reaches from where it is held, or open.</param>
/// <param name="Tapers">It runs out to nothing: an edge or a crease.</param>
/// <param name="FreeStanding">Of walls: held on one side at most.</param>
public sealed record ThinRegionReport(double MinMm, double TypicalMm, double AreaMm2, double ReachMm, bool Tapers, bool? FreeStanding, double[] At)
{
    public static ThinRegionReport Of(ThinRegion region, bool? freeStanding = null)
    {
        ArgumentNullException.ThrowIfNull(region);
        return new(region.MinMm, region.TypicalMm, region.AreaMm2, region.ReachMm, region.Tapers, freeStanding, [region.At.X, region.At.Y, region.At.Z]);
    }
}
