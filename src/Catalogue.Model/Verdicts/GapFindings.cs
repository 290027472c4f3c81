using Catalogue.Geometry.Thickness;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>Gaps between a part's own walls, judged by the clearance a process keeps open.</summary>
/// <remarks>
/// Care, never more: whether two walls may fuse there only the designer knows. A slot counts when it is at least two clearances deep and has 3 mm² of walls; play between separate pieces of the mesh in any
/// case. Shallower grooves, pin holes and engraved lines that fill up are a note when there is much of them; the bottom of a crease, which closes to nothing, is no gap.
/// </remarks>
public static class GapFindings
{
    internal const double SlotDepth = 2;
    internal const double SlotAreaMm2 = 3;
    internal const double WorthTelling = 20;

    /// <param name="gaps">What was measured.</param>
    /// <param name="process">Whose limit counts.</param>
    public static IEnumerable<Finding> Of(GapMeasures gaps, Process process)
    {
        ArgumentNullException.ThrowIfNull(gaps);
        ArgumentNullException.ThrowIfNull(process);
        if (process.Limit(LimitKey.Clearance) is not { } limit) yield break;
        var play = ThinPlaces.Below(gaps.Gaps, GapMeasures.GapSteps, limit.Value, r => r.BetweenPieces && !r.Tapers);
        var slots = ThinPlaces.Below(gaps.Gaps, GapMeasures.GapSteps, limit.Value, r => !r.BetweenPieces && IsSlot(r, limit.Value));
        if (play.Thinnest is { } between)
        {
            yield return Finding(Rules.GapNarrow, Severity.Care, between, limit,
                (play.Count > 1
                    ? S($"Two pieces of the mesh stand only {between.MinMm:0.00} mm apart (the narrowest of {play.Count} places); closer than {limit.Value:0.##} mm they fuse.")
                    : $"Two pieces of the mesh stand only {between.MinMm:0.00} mm apart; closer than {limit.Value:0.##} mm they fuse.")
                + S($"Widen the gap if they are to move, or unite them if not."));
        }

        if (slots.Thinnest is { } slot)
        {
            yield return Finding(play.Thinnest is null ? Rules.GapNarrow : Rules.GapSlot, Severity.Care, slot, limit,
                (slots.Count > 1
                    ? S($"A slot or hole is only {slot.MinMm:0.00} mm wide (the narrowest of {slots.Count} places); narrower than {limit.Value:0.##} mm it fuses or fills.")
                    : $"A slot or hole is only {slot.MinMm:0.00} mm wide; narrower than {limit.Value:0.##} mm it fuses or fills.")
                + S($"Widen it, or close it if it is not meant to be open."));
        }

        if (play.Thinnest is null && slots.Thinnest is null && Grooves(gaps, limit) is { } grooves) yield return grooves;
    }

    private static bool IsSlot(ThinRegion region, double limit) => !region.Tapers && region.ReachMm >= SlotDepth * limit && region.AreaMm2 >= SlotAreaMm2;

    private static Finding? Grooves(GapMeasures gaps, ProcessLimit limit)
    {
        var step = ThinPlaces.StepFor(gaps.Gaps, GapMeasures.GapSteps, limit.Value);
        var grooves = step?.Regions.Where(r => !r.Tapers && r.MinMm < limit.Value * WallMeasures.Clearly).ToList() ?? [];
        if (grooves.Sum(r => r.AreaMm2) < WorthTelling * limit.Value * limit.Value) return null;
        var largest = grooves.MaxBy(r => r.AreaMm2)!;
        return Finding(Rules.GapGroove, Severity.Note, largest, limit,
            $"Grooves, pin holes or engraved lines are narrower than {limit.Value:0.##} mm; they may fill up and not show.");
    }

    private static Finding Finding(Rule rule, Severity severity, ThinRegion region, ProcessLimit limit, Sentence message) => rule.Found(severity, message) with
    {
        Measured = Math.Round(region.MinMm, 3),
        Limit = limit.Value,
        Unit = "mm",
        At = region.At,
        Source = Sentence.FromWords(limit.Origin),
    };
}
