using Catalogue.Geometry.Holes;
using Catalogue.Model.Figures;

namespace Catalogue.Model.Joints;

/// <summary>The rod of a pinned hinge where the figure is assembled: the two holes it goes through, of all that the two parts have.</summary>
/// <param name="RodMm">Diameter.</param>
/// <param name="Holes">How the two holes stand to each other.</param>
public sealed record RodInPlace(double RodMm, HoleAlignment Holes)
{
    /// <summary>Holes farther off one line than this, or more askew, are not meant for the same rod.</summary>
    private const double FarMm = 2;

    private const double AskewDegrees = 10;

    /// <summary>A hole this much wider or narrower than the designer says of the joint is another one.</summary>
    private const double SameShare = 0.25;

    /// <summary>How much has to come off the diameter, as drawn, until the rod passes both.</summary>
    public double ReamMm => Math.Max(0, RodMm - Holes.WidestRodMm);

    /// <summary>The rod goes through both, after no more reaming than printed holes want anyway (<see cref="RodPassage.MostShrinkMm"/>).</summary>
    public bool LinesUp => Holes.GapMm >= -1e-3 && Holes.OpenEnds > 0 && ReamMm <= RodPassage.MostShrinkMm;

    /// <summary>
    /// The pair that lies best on one line and nearest to each other. Null when the joint is no hinge or its rod is not said, a part has no place in the assembled figure, or no two holes come near one line.
    /// </summary>
    /// <param name="first">Holes of the first part's mesh.</param>
    /// <param name="firstPoses">Where copies of it sit.</param>
    public static RodInPlace? Of(JointSpec joint, IReadOnlyList<RoundHole> first, IReadOnlyList<Pose> firstPoses, IReadOnlyList<RoundHole> second, IReadOnlyList<Pose> secondPoses)
    {
        ArgumentNullException.ThrowIfNull(joint);
        ArgumentNullException.ThrowIfNull(firstPoses);
        ArgumentNullException.ThrowIfNull(secondPoses);
        if (joint.Kind != JointKind.PinnedHinge || joint.InnerDiameterMm is not { } rod) return null;
        return (
            from a in first.Where(Wanted)
            from b in second.Where(Wanted)
            from pose in firstPoses
            from other in secondPoses
            let holes = HoleAlignment.Of(a, pose, b, other)
            where holes.AngleDegrees <= AskewDegrees && holes.OffsetMm <= FarMm
            orderby holes.OffsetMm + Math.Abs(holes.GapMm)
            select new RodInPlace(rod, holes)).FirstOrDefault();

        bool Wanted(RoundHole hole) => joint.OuterDiameterMm is not { } said || Math.Abs(hole.DiameterMm - said) <= SameShare * said;
    }

    /// <summary>What that means to somebody with the rod in hand, without a full stop.</summary>
    public Sentence Advice
    {
        get
        {
            if (LinesUp)
            {
                return Holes.OpenEnds == 1
                    ? S($"both holes lie on one line, {Holes.LengthMm:0.#} mm from end to end: mark the rod in place and cut it about {Holes.CutLengthMm:0.#} mm long, put in from the open side")
                    : $"both holes lie on one line, {Holes.LengthMm:0.#} mm from end to end: mark the rod in place and cut it about {Holes.CutLengthMm:0.#} mm long";
            }

            if (Holes.GapMm < -1e-3) return $"the two holes lie {-Holes.GapMm:0.0#} mm into each other where the figure is assembled: one of the parts sits in the wrong place";
            if (Holes.OpenEnds == 0 && ReamMm <= RodPassage.MostShrinkMm)
                return $"both holes lie on one line, {Holes.LengthMm:0.#} mm from end to end, and are shut at their outer ends: the rod goes in before the parts meet";
            return $"the holes are {Holes.OffsetMm:0.0#} mm off one line and {Holes.AngleDegrees:0.#}° askew: for a {RodMm:0.##} mm rod {ReamMm:0.0#} mm has to come off their diameter, more than reaming takes";
        }
    }
}
