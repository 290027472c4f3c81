using System.Globalization;
using Catalogue.Geometry.Holes;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>The round holes of a part, judged by a process's smallest hole and least supported wall.</summary>
/// <remarks>
/// A hole is judged by what its facets let pass. Which rod goes into which hole is known to the figure's joints, not to a file: joints are judged in
/// <see cref="JointMechanics"/>. Of a file only the commonest rod is spoken of, in a note.
/// </remarks>
public static class HoleFindings
{
    /// <summary>Hinge pins are made of metal rod of this diameter, mm (common practice).</summary>
    public const double UsualRodMm = 1.5;

    /// <summary>Holes from this much narrower to this much wider than the usual rod are taken to be meant for it, mm.</summary>
    private const double MeantForRodMm = 0.35;

    /// <summary>
    /// Pins, rods and screws of figures go into holes up to this wide, mm (common practice). Wider ones are windows and sockets: nothing is pushed
    /// through them, and their walls are the thickness check's business.
    /// </summary>
    public const double WidestPinMm = 3.6;

    public static IEnumerable<Finding> Of(PinHoles found, Process process)
    {
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(process);
        if (process.Limit(LimitKey.HoleDiameter) is { } narrowest && Narrow(found.Holes, narrowest) is { } narrow) yield return narrow;
        if (process.Limit(LimitKey.WallSupported) is { } wall)
        {
            if (ThinWall(found.Holes, wall) is { } thin) yield return thin;
            if (ThinFloor(found.Holes, wall) is { } floor) yield return floor;
        }

        if (Rod(found.Holes, process) is { } rod) yield return rod;
    }

    private static Finding? Narrow(IReadOnlyList<RoundHole> holes, ProcessLimit limit)
    {
        var narrow = holes.Where(h => h.DiameterMm < limit.Value - 0.005).ToList();
        if (narrow.Count == 0) return null;
        var least = narrow.MinBy(h => h.DiameterMm)!;
        return new("hole.narrow", Severity.Care,
            (narrow.Count == 1
                ? Text($"A hole of {least.DiameterMm:0.00} mm is narrower than the {limit.Value:0.##} mm that print open: it closes up in part or whole.")
                : Text($"{narrow.Count} holes are narrower than the {limit.Value:0.##} mm that print open, the narrowest {least.DiameterMm:0.00} mm: they close up in part or whole."))
            + " Drill through after printing, slowly and in steps.")
        {
            Measured = Math.Round(least.DiameterMm, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = least.Mouth,
            Source = limit.Origin,
        };
    }

    private static Finding? ThinWall(IReadOnlyList<RoundHole> holes, ProcessLimit limit)
    {
        var thin = holes.Where(h => h.DiameterMm <= WidestPinMm && h.WallMm < limit.Value - 0.005).ToList();
        if (thin.Count == 0) return null;
        var least = thin.MinBy(h => h.WallMm)!;
        var others = thin.Count > 1 ? Text($" So it is at {thin.Count} holes.") : "";
        return new("hole.thin-wall", Severity.Care,
            Text($"Beside a hole of {least.DiameterMm:0.00} mm only {least.WallMm:0.00} mm of wall are left; {limit.Value:0.##} mm print well. It breaks out when a pin is pushed in or the hole is reamed.")
            + others + " Move the hole or make the part thicker there.")
        {
            Measured = Math.Round(least.WallMm!.Value, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = least.Center,
            Source = limit.Origin,
        };
    }

    private static Finding? ThinFloor(IReadOnlyList<RoundHole> holes, ProcessLimit limit)
    {
        var least = holes.Where(h => h.FloorMm < limit.Value - 0.005).MinBy(h => h.FloorMm);
        return least is null ? null : new("hole.thin-floor", Severity.Note,
            Text($"A blind hole of {least.DiameterMm:0.00} mm ends {least.FloorMm:0.00} mm below the surface behind it; {limit.Value:0.##} mm print well. Push no pin hard against its floor."))
        {
            Measured = Math.Round(least.FloorMm!.Value, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = least.Mouth + (least.Axis * least.DepthMm),
            Source = limit.Origin,
        };
    }

    private static Finding? Rod(IReadOnlyList<RoundHole> holes, Process process)
    {
        var meant = holes.Where(h => Math.Abs(h.DiameterMm - UsualRodMm) <= MeantForRodMm).ToList();
        if (meant.Count == 0) return null;
        var least = meant.MinBy(h => h.ClearMm)!;
        var passage = RodPassage.Of(least, UsualRodMm, process);
        if (passage.Passing is RodPassing.Free or RodPassing.Loose) return null;
        var which = meant.Count == 1 ? Text($"The hole of {least.DiameterMm:0.00} mm") : Text($"The narrowest of {meant.Count} pin holes, {least.DiameterMm:0.00} mm,");
        var wall = passage.WallHolds || passage.WallAfterMm is not { } after ? "" : Text($" That leaves {after:0.0#} mm of wall: hold the part close to the hole while you drill.");
        return new("hole.rod", Severity.Note, Text($"{which} lets {passage.HoleMm:0.00} mm pass as drawn and prints narrower: {passage.Advice}.") + wall)
        {
            Measured = Math.Round(passage.HoleMm, 3),
            Limit = UsualRodMm,
            Unit = "mm",
            At = least.Mouth,
            Arithmetic = passage.Arithmetic,
            Source = "printed holes come out 0.1–0.3 mm small, hinge pins are 1.5 mm rod (common practice); sliding fit 1.5 H7/h6 (ISO 286-2)",
        };
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
