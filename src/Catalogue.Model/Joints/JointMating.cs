using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;

namespace Catalogue.Model.Joints;

/// <summary>The ways in which a part can be put to another one at their joint, read off the holes and pegs of both meshes.</summary>
/// <remarks>
/// A peg goes into a hole from its mouth until its root is there; of a hole that is open at both ends, from either. Two holes for one pin come in line, and the part keeps its place along the pin. In each case
/// the part is turned as little as brings the axes together: how far it is then turned about the axis, and what is in its way, is for a person to see.
/// </remarks>
public static class JointMating
{
    /// <summary>No more are told of.</summary>
    public const int MostWays = 24;

    /// <summary>Holes that one pin goes through differ by less than this, mm (our own bound: a running side and a tight one).</summary>
    private const double MostApartMm = 0.6;

    /// <summary>A peg is at most so much wider than a hole that it is pressed into, mm (our own bound).</summary>
    private const double MostPressMm = 0.3;

    /// <summary>Best first: those whose widths agree with each other and with the joint’s, then those that move the part least.</summary>
    /// <param name="moving">The part that is put.</param>
    /// <param name="still">The part that stays.</param>
    /// <returns>Empty where the joint is glued or retracting, or where the meshes tell no hole or peg that goes with another.</returns>
    public static IReadOnlyList<Pose> Ways(Joint joint, PlacedCopy moving, PlacedCopy still)
    {
        ArgumentNullException.ThrowIfNull(joint);
        ArgumentNullException.ThrowIfNull(moving);
        ArgumentNullException.ThrowIfNull(still);
        if (moving.Holes is not { } a || still.Holes is not { } b) return [];
        var ways = joint.Kind switch
        {
            JointKind.PinnedHinge => InLine(a, b, moving.Pose, still.Pose),
            JointKind.PlugInSleeve or JointKind.PressFit or JointKind.PopInBall => Entering(a, b),
            _ => [],
        };
        return
        [
            .. ways.Select(w => (Pose: Put(moving.Pose, still.Pose, w), w.Misfit, Off: Math.Abs((joint.InnerDiameterMm ?? w.DiameterMm) - w.DiameterMm)))
                .OrderBy(w => Math.Round(w.Misfit + w.Off, 1)).ThenBy(w => Motion(moving.Pose, w.Pose)).Take(MostWays).Select(w => w.Pose),
        ];
    }

    /// <summary>A point and a direction of the moving part that are brought onto a point and a direction of the other, each in its file.</summary>
    /// <param name="Misfit">How far the widths are from going together, mm.</param>
    private readonly record struct Way(Vec3 Point, Vec3 Direction, Vec3 OntoPoint, Vec3 OntoDirection, bool KeepsPlaceAlong, double DiameterMm, double Misfit);

    private static IEnumerable<Way> InLine(PinHoles moving, PinHoles still, Pose now, Pose other) =>
        from h in moving.Holes
        from g in still.Holes
        let apart = Math.Abs(h.DiameterMm - g.DiameterMm)
        where apart <= MostApartMm
        from turned in Towards(now, h.Axis, other, g.Axis)
        select new Way(h.Center, turned, g.Center, g.Axis, true, Math.Min(h.DiameterMm, g.DiameterMm), apart);

    /// <summary>The nearer of the two directions of an axis first.</summary>
    private static Vec3[] Towards(Pose now, Vec3 axis, Pose other, Vec3 onto) =>
        Vec3.Dot(Turn(now).Apply(axis), Turn(other).Apply(onto)) < 0 ? [-axis, axis] : [axis, -axis];

    private static IEnumerable<Way> Entering(PinHoles moving, PinHoles still)
    {
        foreach (var (peg, hole) in from p in moving.Pegs from h in still.Holes select (p, h))
            foreach (var (mouth, into) in Mouths(hole))
                if (Misfit(peg, hole) is { } misfit) yield return new(Root(peg), peg.Axis, mouth, into, false, peg.DiameterMm, misfit);
        foreach (var (peg, hole) in from p in still.Pegs from h in moving.Holes select (p, h))
            foreach (var (mouth, into) in Mouths(hole))
                if (Misfit(peg, hole) is { } misfit) yield return new(mouth, into, Root(peg), peg.Axis, false, peg.DiameterMm, misfit);
    }

    private static Vec3 Root(RoundPeg peg) => peg.Tip - (peg.Axis * peg.LengthMm);

    private static IEnumerable<(Vec3 Mouth, Vec3 Into)> Mouths(RoundHole hole)
    {
        yield return (hole.Mouth, hole.Axis);
        if (hole.Through) yield return (hole.Mouth + (hole.Axis * hole.DepthMm), -hole.Axis);
    }

    private static double? Misfit(RoundPeg peg, RoundHole hole)
    {
        var room = hole.DiameterMm - peg.DiameterMm;
        return room < -MostPressMm || room > MostApartMm + (0.1 * peg.DiameterMm) ? null : Math.Abs(room);
    }

    private static Pose Put(Pose now, Pose other, Way way)
    {
        var (turn, onto) = (Turn(now), Turn(other));
        var axis = onto.Apply(way.OntoDirection);
        var rotation = Bringing(turn.Apply(way.Direction), axis).After(turn);
        var target = onto.Apply(way.OntoPoint) + Shift(other);
        if (way.KeepsPlaceAlong) target += axis * Vec3.Dot(turn.Apply(way.Point) + Shift(now) - target, axis);
        var shift = target - rotation.Apply(way.Point);
        return new(shift.X, shift.Y, shift.Z, rotation.ToRowMajor());
    }

    /// <summary>The least turn that brings one unit vector onto another.</summary>
    private static Rotation Bringing(Vec3 from, Vec3 onto)
    {
        var across = Vec3.Cross(from, onto);
        if (across.Length > 1e-9) return Rotation.About(across, Math.Atan2(across.Length, Vec3.Dot(from, onto)));
        return Vec3.Dot(from, onto) > 0 ? Rotation.Identity : Rotation.About(Rotation.BringingToZ(from).RowX, Math.PI);
    }

    /// <summary>How much a part is moved: mm, and ten degrees count as one.</summary>
    private static double Motion(Pose from, Pose to)
    {
        var turn = Turn(to).After(Turn(from).Inverse());
        var cosine = Math.Clamp((turn.RowX.X + turn.RowY.Y + turn.RowZ.Z - 1) / 2, -1, 1);
        return (Shift(to) - Shift(from)).Length + (Math.Acos(cosine) * 180 / Math.PI / 10);
    }

    private static Rotation Turn(Pose pose) => Rotation.FromRowMajor(pose.Rotation);

    private static Vec3 Shift(Pose pose) => new(pose.X, pose.Y, pose.Z);
}
