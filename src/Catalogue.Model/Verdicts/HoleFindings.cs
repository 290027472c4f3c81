using Catalogue.Geometry.Holes;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>The round holes of a part, judged by a process's smallest hole and least supported wall.</summary>
/// <remarks>
/// A narrow hole is a note where a drill in the hand opens it: printed holes come out small and are reamed in any case (common practice), so it is a step of
/// putting the figure together, not a reason to doubt it. It asks for care where no hand opens it. A hole is judged by what its facets let pass. Which rod goes into which hole is known to the figure's joints, not to a file: joints are judged in
/// <see cref="JointMechanics"/>. Of a file only the commonest rod is spoken of, in a note.
/// </remarks>
public static class HoleFindings
{
    /// <summary>Hinge pins are made of metal rod of this diameter, mm (common practice).</summary>
    public const double UsualRodMm = 1.5;

    /// <summary>Holes from this much narrower to this much wider than the usual rod are taken to be meant for it, mm.</summary>
    internal const double MeantForRodMm = 0.35;

    /// <summary>
    /// Pins, rods and screws of figures go into holes up to this wide, mm (common practice). Wider ones are windows and sockets: nothing is pushed
    /// through them, and their walls are the thickness check's business.
    /// </summary>
    public const double WidestPinMm = 3.6;

    /// <summary>Narrower holes give a drill no mouth to follow once they are printed, and drills this thin break in the hand, mm (common practice).</summary>
    public const double LeastOpenedMm = 1;

    /// <summary>So many diameters long are the flutes of a common twist drill (DIN 338, from memory): a hand opens no deeper from one side.</summary>
    public const double MostOpenedDepths = 12;

    public static IEnumerable<Finding> Of(PinHoles found, Process process)
    {
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(process);
        var rod = Rod(found.Holes, process);
        if (process.Limit(LimitKey.HoleDiameter) is { } narrowest)
        {
            var narrow = found.Holes.Where(h => h.DiameterMm < narrowest.Value - 0.005).ToLookup(IsOpenedByHand);
            if (Closing([.. narrow[false]], narrowest) is { } closing) yield return closing;
            if (Opened([.. narrow[true].Where(h => rod is null || !IsForRod(h))], narrowest) is { } opened) yield return opened;
        }

        if (process.Limit(LimitKey.WallSupported) is { } wall)
        {
            if (ThinWall(found.Holes, wall) is { } thin) yield return thin;
            if (ThinFloor(found.Holes, wall) is { } floor) yield return floor;
        }

        if (rod is not null) yield return rod;
    }

    /// <summary>Wide and shallow enough for a drill in the hand; a through hole is reached from both sides.</summary>
    private static bool IsOpenedByHand(RoundHole hole) =>
        hole.DiameterMm >= LeastOpenedMm && (hole.Through ? hole.DepthMm / 2 : hole.DepthMm) <= MostOpenedDepths * hole.DiameterMm;

    private static bool IsForRod(RoundHole hole) => Math.Abs(hole.DiameterMm - UsualRodMm) <= MeantForRodMm;

    private static Finding? Closing(List<RoundHole> holes, ProcessLimit limit)
    {
        if (holes.Count == 0) return null;
        var least = holes.MinBy(h => h.DiameterMm)!;
        return Narrow(Severity.Care, least, limit,
            (holes.Count > 1
                ? S($"{holes.Count} holes are narrower than the {limit.Value:0.##} mm that print open and cannot be drilled open by hand, the narrowest {least.DiameterMm:0.00} mm: they close up in part or whole.")
                : least.DiameterMm < LeastOpenedMm
                ? S($"A hole of {least.DiameterMm:0.00} mm is narrower than the {limit.Value:0.##} mm that print open, and too narrow to be drilled open by hand: it closes up in part or whole.")
                : $"A hole of {least.DiameterMm:0.00} mm is narrower than the {limit.Value:0.##} mm that print open, and too deep, {least.DepthMm:0} mm, to be drilled open by hand: it closes up in part or whole.")
            + S($"Draw it wider."));
    }

    private static Finding? Opened(List<RoundHole> holes, ProcessLimit limit)
    {
        if (holes.Count == 0) return null;
        var least = holes.MinBy(h => h.DiameterMm)!;
        return Narrow(Severity.Note, least, limit,
            holes.Count == 1
                ? S($"A hole of {least.DiameterMm:0.00} mm is narrower than the {limit.Value:0.##} mm that print open: open it with a drill of {least.DiameterMm:0.0#} mm when you put it together, by hand and slowly.")
                : $"{holes.Count} holes are narrower than the {limit.Value:0.##} mm that print open: open each with a drill of its diameter, the narrowest of {least.DiameterMm:0.0#} mm when you put it together, by hand and slowly.");
    }

    private static Finding Narrow(Severity severity, RoundHole hole, ProcessLimit limit, Sentence message) => Rules.HoleNarrow.Found(severity, message) with
    {
        Measured = Math.Round(hole.DiameterMm, 3),
        Limit = limit.Value,
        Unit = "mm",
        At = hole.Mouth,
        Source = Sentence.FromWords(limit.Origin),
    };

    private static Finding? ThinWall(IReadOnlyList<RoundHole> holes, ProcessLimit limit)
    {
        var thin = holes.Where(h => h.DiameterMm <= WidestPinMm && h.WallMm < limit.Value - 0.005).ToList();
        if (thin.Count == 0) return null;
        var least = thin.MinBy(h => h.WallMm)!;
        return Rules.HoleThinWall.Found(Severity.Care,
            S($"Beside a hole of {least.DiameterMm:0.00} mm only {least.WallMm:0.00} mm of wall are left; {limit.Value:0.##} mm print well. It breaks out when a pin is pushed in or the hole is reamed.")
            + (thin.Count > 1 ? S($"So it is at {thin.Count} holes.") : Sentence.Empty) + S($"Move the hole or make the part thicker there.")) with
        {
            Measured = Math.Round(least.WallMm!.Value, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = least.Center,
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    private static Finding? ThinFloor(IReadOnlyList<RoundHole> holes, ProcessLimit limit)
    {
        var least = holes.Where(h => h.FloorMm < limit.Value - 0.005).MinBy(h => h.FloorMm);
        return least is null ? null : Rules.HoleThinFloor.Found(Severity.Note,
            $"A blind hole of {least.DiameterMm:0.00} mm ends {least.FloorMm:0.00} mm below the surface behind it; {limit.Value:0.##} mm print well. Push no pin hard against its floor.") with
        {
            Measured = Math.Round(least.FloorMm!.Value, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = least.Mouth + (least.Axis * least.DepthMm),
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    private static Finding? Rod(IReadOnlyList<RoundHole> holes, Process process)
    {
        var meant = holes.Where(IsForRod).ToList();
        if (meant.Count == 0) return null;
        var least = meant.MinBy(h => h.ClearMm)!;
        var passage = RodPassage.Of(least, UsualRodMm, process);
        if (passage.Passing is RodPassing.Free or RodPassing.Loose) return null;
        var wall = passage.WallHolds || passage.WallAfterMm is not { } after ? Sentence.Empty : S($"That leaves {after:0.0#} mm of wall: hold the part close to the hole while you drill.");
        return Rules.HoleRod.Found(Severity.Note,
            (meant.Count == 1
                ? S($"The hole of {least.DiameterMm:0.00} mm lets {passage.HoleMm:0.00} mm pass as drawn and prints narrower: {passage.Advice}.")
                : $"The narrowest of {meant.Count} pin holes, {least.DiameterMm:0.00} mm, lets {passage.HoleMm:0.00} mm pass as drawn and prints narrower: {passage.Advice}.")
            + wall) with
        {
            Measured = Math.Round(passage.HoleMm, 3),
            Limit = UsualRodMm,
            Unit = "mm",
            At = least.Mouth,
            Arithmetic = passage.Arithmetic,
            Source = Rules.HoleRod.Origin,
        };
    }
}
