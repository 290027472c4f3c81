using Catalogue.Geometry.Thickness;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>Thin walls and narrow limbs, judged by a process's limits.</summary>
/// <remarks>
/// <para>
/// A wall below its limit is care: it may print, warped or with holes. It stops when it is thinner than half the limit over more than three limits' reach: that much is
/// certainly missing from the print (common practice). What reaches no farther than one and a half limits, or is smaller than a limit squared on both faces, is a ridge or an edge, and what runs out to nothing within
/// three is the edge of a blade: they come out blunt, which is a note when there is much of it.
/// </para>
/// <para>
/// A limb is narrow both ways and at least one and a half times as long as wide. Below the limit it is a note, below 0.4 of it (of 5 mm: 2 mm, five lines of a 0.4 mm nozzle) care: the limit is
/// where limbs print and clean up well, not where they fail (common practice). Where the surface runs through itself the measurements are not certain, and nothing stops.
/// </para>
/// </remarks>
public static class ThicknessFindings
{
    internal const double CertainShare = 0.5;
    internal const double CertainReach = 3;
    internal const double WallReach = 1.5;
    private const double BladeReach = 3;
    private const double WallArea = 2;
    private const double LimbLength = 1.5;
    internal const double NarrowLimb = 0.4;

    // Edges and ridges are told of from so many squares of the limit on.
    internal const double WorthTelling = 20;

    /// <param name="walls">What was measured.</param>
    /// <param name="isCertain">False where the surface runs through itself.</param>
    /// <param name="process">Whose limits count.</param>
    public static IEnumerable<Finding> Of(WallMeasures walls, bool isCertain, Process process)
    {
        ArgumentNullException.ThrowIfNull(walls);
        ArgumentNullException.ThrowIfNull(process);
        var (held, free) = (process.Limit(LimitKey.WallSupported), process.Limit(LimitKey.WallFree));
        var found = new List<Finding>();
        if (held is not null && Wall(walls, held, false, isCertain) is { } thin) found.Add(thin);
        if (free is not null && Wall(walls, free, true, isCertain) is { } thinFree) found.Add(thinFree);
        if (found.Count == 0 && (held ?? free) is { } limit && Edges(walls, limit) is { } edges) found.Add(edges);
        if (process.Limit(LimitKey.LimbWidth) is { } width && Limb(walls, width) is { } limb) found.Add(limb);
        return found;
    }

    private static Finding? Wall(WallMeasures walls, ProcessLimit limit, bool free, bool isCertain)
    {
        var thin = ThinPlaces.Below(walls.Walls, WallMeasures.WallSteps, limit.Value, r => r.FreeStanding == free && IsWall(r, limit.Value));
        if (thin.Thinnest is not { } thinnest) return null;
        var certain = ThinPlaces.Below(walls.Walls, WallMeasures.WallSteps, limit.Value * CertainShare,
            r => r.FreeStanding == free && !r.Tapers && IsWall(r, limit.Value) && r.ReachMm >= CertainReach * limit.Value).Thinnest;
        var where = thin.Count > 1 ? S($"The thinnest of {thin.Count} places.") : Sentence.Empty;
        var what = free
            ? S($"A fin, rod or other free-standing piece is only {thinnest.MinMm:0.00} mm thick; such need {limit.Value:0.##} mm here.")
            : $"A wall is only {thinnest.MinMm:0.00} mm thick; walls need {limit.Value:0.##} mm here.";
        var then = certain is not null
            ? S($"So much of it is thinner than half of that that it will be missing or in holes.")
            : $"It may print warped or with holes, or break when cleaned.";
        var doubt = isCertain ? Sentence.Empty : S($"The surface runs through itself, so this may be wrong; unite the pieces first.");
        return (free ? Rules.WallThinFree : Rules.WallThin).Found(certain is not null && isCertain ? Severity.Stop : Severity.Care, what + where + then + S($"Thicken it.") + doubt) with
        {
            Measured = Math.Round(thinnest.MinMm, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = thinnest.At,
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    /// <summary>Whether a thin region is a wall, not a ridge or the edge of a blade.</summary>
    public static bool IsWall(ThinRegion region, double limit)
    {
        ArgumentNullException.ThrowIfNull(region);
        return region.ReachMm >= (region.Tapers ? BladeReach : WallReach) * limit && region.AreaMm2 >= WallArea * limit * limit;
    }

    private static Finding? Edges(WallMeasures walls, ProcessLimit limit)
    {
        var step = ThinPlaces.StepFor(walls.Walls, WallMeasures.WallSteps, limit.Value);
        var edges = step?.Regions.Where(r => !IsWall(r, limit.Value) && r.MinMm < limit.Value * WallMeasures.Clearly).ToList() ?? [];
        if (edges.Sum(r => r.AreaMm2) < WorthTelling * limit.Value * limit.Value) return null;
        var largest = edges.MaxBy(r => r.AreaMm2)!;
        return Rules.WallEdge.Found(Severity.Note, $"Sharp edges or fine ridges are thinner than {limit.Value:0.##} mm; they come out blunt or not at all.") with
        {
            Measured = Math.Round(largest.MinMm, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = largest.At,
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    private static Finding? Limb(WallMeasures walls, ProcessLimit limit)
    {
        var limbs = ThinPlaces.Below(walls.Limbs, WallMeasures.LimbSteps, limit.Value, r => r.ReachMm >= LimbLength * r.TypicalMm, r => r.TypicalMm);
        if (limbs.Thinnest is not { } narrowest) return null;
        var narrow = narrowest.TypicalMm < NarrowLimb * limit.Value;
        var where = limbs.Count > 1 ? S($"The narrowest of {limbs.Count}.") : Sentence.Empty;
        return Rules.LimbThin.Found(narrow ? Severity.Care : Severity.Note,
            S($"A limb or peg is only about {narrowest.TypicalMm:0.0} mm wide; from {limit.Value:0.##} mm on they print and clean up well.") + where
            + (narrow ? S($"It wobbles while it is printed and snaps easily: thicken it, or print it lying down, slowly.") : $"Print it slowly.")) with
        {
            Measured = Math.Round(narrowest.TypicalMm, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = narrowest.At,
            Source = Sentence.FromWords(limit.Origin),
        };
    }
}
