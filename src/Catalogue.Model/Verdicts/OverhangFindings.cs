using Catalogue.Geometry.Overhangs;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>What hangs over in the file's own pose, judged by a process's limits.</summary>
/// <remarks>
/// Notes, never more: the file's pose is often not the one a part is printed in, and supports help, at a price that is told. Filament is judged by its steepest overhang and its longest bridge,
/// resin by islands (supports are planned there in any case, but a start in mid-air without one is a failed print); powder holds everything up. A process is judged
/// by the limits it has, and resin by its category.
/// </remarks>
public static class OverhangFindings
{
    /// <summary>Less surface to support than this is not spoken of (mm²).</summary>
    internal const double WorthTellingMm2 = 1;

    public static IEnumerable<Finding> Of(OverhangMeasures overhangs, double partVolumeMm3, Process process)
    {
        ArgumentNullException.ThrowIfNull(overhangs);
        ArgumentNullException.ThrowIfNull(process);
        if (process.Limit(LimitKey.OverhangAngle) is { } angle)
        {
            var bridge = process.Limit(LimitKey.BridgeLength);
            if (Area(overhangs, partVolumeMm3, angle, bridge) is { } area) yield return area;
            if (bridge is not null && Bridges(overhangs, bridge) is { } bridges) yield return bridges;
        }

        if (process.Limit(LimitKey.OverhangAngle) is not null || ProcessCode.Category(process.Code) == "VPP")
            if (Islands(overhangs, process) is { } islands) yield return islands;
    }

    /// <summary>Surface beyond the limit without the bridges that print unsupported, with what supports under it cost.</summary>
    private static Finding? Area(OverhangMeasures overhangs, double partVolumeMm3, ProcessLimit angle, ProcessLimit? bridge)
    {
        var free = bridge is null ? [] : overhangs.Bridges.Where(b => b.SpanMm <= bridge.Value).ToList();
        var area = overhangs.AreaSteeperThan(angle.Value) - free.Sum(b => b.AreaMm2);
        if (area < WorthTellingMm2) return null;
        var volume = Math.Max(0, overhangs.SupportVolumeAt(angle.Value) - free.Sum(b => b.SupportVolumeMm3));
        return Rules.OverhangArea.Found(Severity.Note,
            S($"As the file lies, {area:0} mm² hang over more than {angle.Value:0.#}° from the vertical.")
            + (partVolumeMm3 > 0
                ? S($"Straight supports would take up to {volume / 1000:0.0} cm³, {100 * volume / partVolumeMm3:0} % of the part’s own volume.")
                : $"Straight supports would take up to {volume / 1000:0.0} cm³.")
            + S($"Turn the part, or plan for supports and the marks they leave.")) with
        {
            Measured = Math.Round(area, 2),
            Limit = 0,
            Unit = "mm²",
            Source = Sentence.FromWords(angle.Origin),
        };
    }

    private static Finding? Bridges(OverhangMeasures overhangs, ProcessLimit limit)
    {
        var longest = overhangs.Bridges.MaxBy(b => b.SpanMm);
        if (longest is null || longest.SpanMm <= limit.Value) return null;
        return Rules.OverhangBridge.Found(Severity.Note,
            $"As the file lies, an underside is held {longest.SpanMm:0.0} mm apart; filament bridges {limit.Value:0.#} mm without sagging. Turn the part, or support the middle.") with
        {
            Measured = Math.Round(longest.SpanMm, 2),
            Limit = limit.Value,
            Unit = "mm",
            At = longest.At,
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    /// <summary>Starts in mid-air that last longer than the process's thickest layer, so that none is saved by its neighbour.</summary>
    private static Finding? Islands(OverhangMeasures overhangs, Process process)
    {
        var layer = process.Limit(LimitKey.LayerHeightMax)?.Value ?? 0;
        var (longest, count) = (overhangs.Islands.MaxBy(i => i.RiseMm), overhangs.Islands.Count(i => i.RiseMm > layer));
        if (longest is null || count == 0) return null;
        var more = count == overhangs.Islands.Count && overhangs.IslandCount > count;
        if (more) count = overhangs.IslandCount;
        Sentence what = (ProcessCode.Category(process.Code) == "VPP", count == 1) switch
        {
            (true, true) => S($"As the file lies, it starts in mid-air in one place, {longest.HeightMm:0.0} mm from the plate: without a support it is washed off and the print fails."),
            (true, false) => $"As the file lies, it starts in mid-air in {count} places, one of them {longest.HeightMm:0.0} mm from the plate: without a support it is washed off and the print fails.",
            (false, true) => $"As the file lies, it starts in mid-air in one place, {longest.HeightMm:0.0} mm from the plate: without a support nothing holds its first layer.",
            (false, false) => $"As the file lies, it starts in mid-air in {count} places, one of them {longest.HeightMm:0.0} mm from the plate: without a support nothing holds its first layer.",
        };
        var inside = longest.OverPart ? S($"The part itself is below, so the support has to stand on it.") : Sentence.Empty;
        return Rules.OverhangIsland.Found(Severity.Note, what + inside + S($"Support it or turn the part.")) with
        {
            Measured = count,
            Limit = 0,
            Unit = count == 1 ? "place" : "places",
            At = longest.At,
            Source = Rules.OverhangIsland.Origin,
        };
    }
}
