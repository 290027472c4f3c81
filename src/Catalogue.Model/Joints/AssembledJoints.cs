using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;

namespace Catalogue.Model.Joints;

/// <summary>A copy of a part where it sits in the assembled figure.</summary>
/// <param name="Holes">Found in its mesh; null where that is not known.</param>
/// <param name="Middle">About where it is, in the figure’s coordinates.</param>
public sealed record PlacedCopy(Guid PartId, Pose Pose, PinHoles? Holes, double VolumeMm3, Vec3 Middle);

/// <summary>Two copies that a joint holds together: when it moves, the carried one turns, with all that hangs on it.</summary>
/// <param name="Carrier">Number of the copy nearer to the heart of the figure.</param>
/// <param name="Carried">Number of the other.</param>
/// <param name="At">A point on the axis, in the figure's coordinates; null where the meshes tell no axis.</param>
/// <param name="Axis">A unit vector; null likewise.</param>
public sealed record AssembledJoint(Joint Joint, int Carrier, int Carried, Vec3? At, Vec3? Axis)
{
    public string Name => Joint.Name;
}

/// <summary>How the copies of an assembled figure hang together, and about which axes they turn, read off holes and pegs that line up where the parts sit.</summary>
/// <remarks>
/// A pinned hinge turns about two holes in line, a plug in its sleeve (or a pop-in shaft, or a press fit) about a peg in a hole. Axes count as in line when they are within <see cref="MostDegrees"/> and
/// <see cref="MostOffMm"/> of each other (our own bounds: parts are placed by hand). A ball tells no axis: it turns freely about its centre, which the meshes tell (<see cref="RoundBalls"/>). Glued parts do not move. The copy of the greatest volume carries all others; what joints do
/// not reach stands by itself.
/// </remarks>
public static class AssembledJoints
{
    private const double MostDegrees = 4;
    private const double MostOffMm = 0.6;
    private const double MostApartMm = 12;

    public static IReadOnlyList<AssembledJoint> Of(IReadOnlyList<PlacedCopy> copies, IEnumerable<Joint> joints)
    {
        ArgumentNullException.ThrowIfNull(copies);
        ArgumentNullException.ThrowIfNull(joints);
        var links = joints.SelectMany(j => Links(copies, j)).ToList();
        var found = new List<AssembledJoint>();
        var carried = new bool[copies.Count];
        foreach (var heart in Enumerable.Range(0, copies.Count).OrderByDescending(c => copies[c].VolumeMm3))
        {
            if (carried[heart]) continue;
            carried[heart] = true;
            var next = new Queue<int>([heart]);
            while (next.TryDequeue(out var carrier))
            {
                // A joint that tells its axis before one that does not, where two parts are joined twice.
                foreach (var link in links.Where(l => l.One == carrier || l.Other == carrier).OrderBy(l => l.Axis is null))
                {
                    var other = link.One == carrier ? link.Other : link.One;
                    if (carried[other]) continue;
                    carried[other] = true;
                    found.Add(new(link.Joint, carrier, other, link.At, link.Axis));
                    next.Enqueue(other);
                }
            }
        }

        return found;
    }

    private readonly record struct Link(Joint Joint, int One, int Other, Vec3? At, Vec3? Axis);

    /// <summary>Each copy of the part that is there more often, with the copy of the other part that it is joined to.</summary>
    private static IEnumerable<Link> Links(IReadOnlyList<PlacedCopy> copies, Joint joint)
    {
        int[] first = [.. Numbers(copies, joint.FirstPartId)], second = [.. Numbers(copies, joint.SecondPartId)];
        var (many, few) = first.Length > second.Length ? (first, second) : (second, first);
        if (few.Length == 0) yield break;
        foreach (var one in many)
        {
            var best = few.Select(other => (Other: other, Line: LineOf(copies[one], copies[other], joint)))
                .OrderBy(b => b.Line is null).ThenBy(b => (copies[b.Other].Middle - copies[one].Middle).LengthSquared).First();
            yield return new(joint, one, best.Other, best.Line?.At, best.Line?.Axis);
        }
    }

    private static IEnumerable<int> Numbers(IReadOnlyList<PlacedCopy> copies, Guid part) => Enumerable.Range(0, copies.Count).Where(c => copies[c].PartId == part);

    private static (Vec3 At, Vec3 Axis)? LineOf(PlacedCopy one, PlacedCopy other, Joint joint)
    {
        if (one.Holes is not { } a || other.Holes is not { } b || joint.Kind is JointKind.Glued or JointKind.Retracting) return null;
        var lines = joint.Kind == JointKind.PinnedHinge
            ? a.Holes.SelectMany(h => b.Holes.Select(g => InLine(one.Pose, h.Center, h.Axis, h.DepthMm, other.Pose, g.Center, g.Axis, g.DepthMm)))
            : a.Holes.SelectMany(h => b.Pegs.Select(p => InLine(one.Pose, h.Center, h.Axis, h.DepthMm, other.Pose, p.Center, p.Axis, p.LengthMm)))
                .Concat(b.Holes.SelectMany(h => a.Pegs.Select(p => InLine(other.Pose, h.Center, h.Axis, h.DepthMm, one.Pose, p.Center, p.Axis, p.LengthMm))));
        return lines.Where(l => l is not null).OrderBy(l => l!.Value.Off).Select(l => ((Vec3, Vec3)?)(l!.Value.At, l.Value.Axis)).FirstOrDefault();
    }

    private static (Vec3 At, Vec3 Axis, double Off)? InLine(Pose pose, Vec3 center, Vec3 axis, double length, Pose otherPose, Vec3 otherCenter, Vec3 otherAxis, double otherLength)
    {
        var (p, u) = Placed(pose, center, axis);
        var (q, w) = Placed(otherPose, otherCenter, otherAxis);
        if (Math.Abs(Vec3.Dot(u, w)) < Math.Cos(MostDegrees * Math.PI / 180)) return null;
        var between = q - p;
        var along = Vec3.Dot(between, u);
        var off = (between - (u * along)).Length;
        return off > MostOffMm || Math.Abs(along) > ((length + otherLength) / 2) + MostApartMm ? null : ((p + q) / 2, u, off + (0.01 * Math.Abs(along)));
    }

    private static (Vec3 At, Vec3 Axis) Placed(Pose pose, Vec3 at, Vec3 axis)
    {
        var rotation = Rotation.FromRowMajor(pose.Rotation);
        return (rotation.Apply(at) + new Vec3(pose.X, pose.Y, pose.Z), rotation.Apply(axis));
    }
}
