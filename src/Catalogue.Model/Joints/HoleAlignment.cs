using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;

namespace Catalogue.Model.Joints;

/// <summary>Two holes of two parts in the assembled figure, and the straight rod through both. Lengths in mm.</summary>
/// <param name="AngleDegrees">Between the axes, 0 to 90.</param>
/// <param name="OffsetMm">How far the farther end of either axis is from the line that fits all four ends best.</param>
/// <param name="WidestRodMm">That still passes both; 0 or less when none does.</param>
/// <param name="GapMm">Along the line between the two holes; negative where they lie side by side instead of one behind the other.</param>
/// <param name="LengthMm">From the outer end of one to the outer end of the other: the length in place, before the rod is cut.</param>
/// <param name="OpenEnds">0 to 2: where the rod can be put in and pushed out again.</param>
public sealed record HoleAlignment(double AngleDegrees, double OffsetMm, double WidestRodMm, double GapMm, double LengthMm, int OpenEnds)
{
    /// <summary>A rod is cut this much shorter than the length marked in place (common practice: 1 to 2 mm).</summary>
    public const double CutShorterMm = 1.5;

    public double CutLengthMm => Math.Max(0, LengthMm - CutShorterMm);

    /// <summary>One behind the other, and a rod of that diameter passes both.</summary>
    public bool LineUp(double rodMm) => GapMm >= -1e-3 && WidestRodMm >= rodMm && OpenEnds > 0;

    /// <param name="one">In its part's coordinates.</param>
    /// <param name="onePose">Of that part in the assembled figure.</param>
    /// <param name="other">Of the other part.</param>
    /// <param name="otherPose">Of the other part in the assembled figure.</param>
    public static HoleAlignment Of(RoundHole one, Pose onePose, RoundHole other, Pose otherPose)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        var (a, b) = (Placed(one, onePose), Placed(other, otherPose));
        var cosine = Vec3.Dot(a.Axis, b.Axis);
        var second = cosine < 0 ? -b.Axis : b.Axis;
        var line = Line(a, b, a.Axis, second);
        Vec3[] ends = [a.Mouth, a.End, b.Mouth, b.End];
        var middle = (ends[0] + ends[1] + ends[2] + ends[3]) * 0.25;
        var (offset, widest) = (0.0, double.PositiveInfinity);
        foreach (var (end, clear) in new[] { (a.Mouth, one.ClearMm), (a.End, one.ClearMm), (b.Mouth, other.ClearMm), (b.End, other.ClearMm) })
        {
            var off = Vec3.Cross(end - middle, line).Length;
            (offset, widest) = (Math.Max(offset, off), Math.Min(widest, clear - (2 * off)));
        }

        var (aFrom, aTo) = Along(a, middle, line);
        var (bFrom, bTo) = Along(b, middle, line);
        var aFirst = aFrom + aTo <= bFrom + bTo;
        var gap = aFirst ? bFrom - aTo : aFrom - bTo;
        var (from, to) = (Math.Min(aFrom, bFrom), Math.Max(aTo, bTo));

        // The outer ends: of the first hole the one that points away from the second, and the other way round.
        var outer = aFirst ? line : -line;
        var open = (IsOpen(one, a, -outer) ? 1 : 0) + (IsOpen(other, b, outer) ? 1 : 0);
        return new(Math.Acos(Math.Min(1, Math.Abs(cosine))) * 180 / Math.PI, offset, widest, gap, to - from, open);
    }

    private readonly record struct PlacedHole(Vec3 Mouth, Vec3 End, Vec3 Axis);

    private static PlacedHole Placed(RoundHole hole, Pose pose)
    {
        ArgumentNullException.ThrowIfNull(pose);
        var rotation = Rotation.FromRowMajor(pose.Rotation);
        var shift = new Vec3(pose.X, pose.Y, pose.Z);
        var axis = rotation.Apply(hole.Axis);
        var mouth = rotation.Apply(hole.Mouth) + shift;
        return new(mouth, mouth + (axis * hole.DepthMm), axis);
    }

    /// <summary>Between the middles where they are apart; the mean of the axes where they are not.</summary>
    private static Vec3 Line(PlacedHole a, PlacedHole b, Vec3 first, Vec3 second)
    {
        var between = ((b.Mouth + b.End) - (a.Mouth + a.End)) * 0.5;
        var mean = (first + second).Normalized();
        if (Vec3.Dot(between, mean) < 0) between = -between;
        return between.Length < (a.End - a.Mouth).Length / 4 || Vec3.Cross(between.Normalized(), mean).Length > 0.5 ? mean : between.Normalized();
    }

    private static (double From, double To) Along(PlacedHole hole, Vec3 middle, Vec3 line)
    {
        var (p, q) = (Vec3.Dot(hole.Mouth - middle, line), Vec3.Dot(hole.End - middle, line));
        return (Math.Min(p, q), Math.Max(p, q));
    }

    /// <summary>A blind hole is open where its axis enters.</summary>
    private static bool IsOpen(RoundHole hole, PlacedHole placed, Vec3 outward) => hole.Through || Vec3.Dot(placed.Axis, outward) < 0;
}
