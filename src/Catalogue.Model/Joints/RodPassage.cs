using Catalogue.Geometry.Holes;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Joints;

/// <summary>How a rod goes into a printed hole.</summary>
public enum RodPassing
{
    /// <summary>Even if the hole comes out as small as usual holes do.</summary>
    Free,

    /// <summary>Or does so after a few turns of a drill by hand: it depends on how the hole comes out.</summary>
    Ream,

    /// <summary>The hole has to be drilled wider.</summary>
    Drill,

    /// <summary>With so much play that it rattles.</summary>
    Loose,
}

/// <summary>A straight round metal rod (h6 or so) in a hole as it comes off the printer. Lengths in mm.</summary>
/// <param name="AsPrinted">The least and the most width to expect of the printed hole.</param>
/// <param name="ReamMm">How much has to come off the diameter, at most, until the rod slides; 0 when nothing has to.</param>
/// <param name="WallAfterMm">What is left of the wall then; null when the wall is not known.</param>
/// <param name="WallLimitMm">The least supported wall of the process; null when it states none.</param>
public sealed record RodPassage(
    RodPassing Passing, double HoleMm, double RodMm, (double Least, double Most) AsPrinted, double ReamMm, double? WallAfterMm, double? WallLimitMm)
{
    /// <summary>Printed holes come out smaller than drawn by this much on the diameter (common practice: 0.1 to 0.3 mm, then ream by hand).</summary>
    public const double LeastShrinkMm = 0.1;

    public const double MostShrinkMm = 0.3;

    /// <summary>A pin with more play than this rattles (common practice).</summary>
    public const double MostPlayMm = 0.4;

    /// <summary>
    /// What a sliding fit adds to the rod: 1.5 H7/h6 has 0 to 16 µm of clearance (ISO 286-2: H7 0/+10 µm, h6 0/−6 µm up to 3 mm), so the hole is reamed to the rod's own size.
    /// </summary>
    public const double SlidingFitMm = 0.01;

    /// <summary>False when reaming leaves less wall than the process supports, or there is less from the start.</summary>
    public bool WallHolds => WallAfterMm is not { } wall || WallLimitMm is not { } limit || wall >= limit - 1e-6;

    /// <param name="holeMm">Diameter as drawn: the widest rod the drawn hole passes, where facets narrow it.</param>
    /// <param name="rodMm">Nominal diameter of the rod.</param>
    /// <param name="process">Gives the least supported wall.</param>
    /// <param name="wallMm">Least wall around the hole as drawn, when known.</param>
    public static RodPassage Of(double holeMm, double rodMm, Process process, double? wallMm = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(holeMm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rodMm);
        ArgumentNullException.ThrowIfNull(process);
        var (least, most) = (Math.Max(0, holeMm - MostShrinkMm), Math.Max(0, holeMm - LeastShrinkMm));
        var passing = most < rodMm ? RodPassing.Drill : least >= rodMm ? least > rodMm + MostPlayMm ? RodPassing.Loose : RodPassing.Free : RodPassing.Ream;
        var ream = Math.Max(0, rodMm + SlidingFitMm - least);
        var after = wallMm is { } wall ? wall - (Math.Max(0, rodMm + SlidingFitMm - holeMm) / 2) : (double?)null;
        return new(passing, holeMm, rodMm, (least, most), passing is RodPassing.Free or RodPassing.Loose ? 0 : ream, after, process.Limit(LimitKey.WallSupported)?.Value);
    }

    /// <summary>The same for a hole found in a mesh: what counts is the rod its facets let pass.</summary>
    public static RodPassage Of(RoundHole hole, double rodMm, Process process)
    {
        ArgumentNullException.ThrowIfNull(hole);
        return Of(hole.ClearMm, rodMm, process, hole.WallMm);
    }

    /// <summary>“1.7 mm − 0.3…0.1 = 1.4…1.6 mm”.</summary>
    public Sentence Arithmetic => $"{HoleMm:0.##} − {MostShrinkMm:0.#}…{LeastShrinkMm:0.#} = {AsPrinted.Least:0.##}…{AsPrinted.Most:0.##} mm";

    /// <summary>What that means to somebody with a rod in hand, without a full stop.</summary>
    public Sentence Advice => Passing switch
    {
        RodPassing.Free => S($"a {RodMm:0.##} mm rod slides in as printed"),
        RodPassing.Ream => $"a {RodMm:0.##} mm rod may need a few turns of a {RodMm:0.##} mm drill by hand, {ReamMm:0.0#} mm off the diameter at most",
        RodPassing.Drill => $"a {RodMm:0.##} mm rod does not go in; drill the hole to {RodMm:0.##} mm in steps, {ReamMm:0.0#} mm off the diameter at most",
        _ => $"a {RodMm:0.##} mm rod rattles in it; line the hole, or take a thicker rod",
    };
}
