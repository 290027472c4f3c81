using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>The box of least volume around a part, in any orientation.</summary>
/// <param name="Size">Lengths along the rows of <paramref name="Rotation"/>, ascending (mm), measured in double precision on every vertex of the hull.</param>
/// <param name="Rotation">Turns the part as the file has it so that the box stands along the axes.</param>
/// <param name="ErrorShare">No box has less than (1 − this) of the volume: proven by exhausting all rotations. At most 0.0005 unless the work allowed ran out.</param>
/// <remarks>
/// <para>
/// Branch and bound over all rotations (<see cref="RotationSearch{TGoal}"/>). Over a box of rotations the three lengths are at least linear functions of where in it, so
/// their product, whose logarithm is concave, is least at one of the eight corners. The best rotation of each pass is polished by turning it about each of its
/// axes in turn to the smallest rectangle around the shadow (<see cref="SmallestRectangle"/>), which ends where two neighbouring sides of the box lie on edges of the hull,
/// as those of the smallest box do (O'Rourke, "Finding minimal enclosing boxes", 1985). Unlike a search from random starts (Chang, Gorissen and Melchior,
/// "Fast oriented bounding box optimization on the rotation group", 2011) the answer comes with a proof of how much smaller any other box can be.
/// </para>
/// Flat parts get the smallest rectangle in their plane, volume 0. Cost: a few ms to about 150 ms, whatever the mesh. Deterministic, thread-safe.
/// </remarks>
public sealed record SmallestBox(Vec3 Size, Rotation Rotation, double ErrorShare)
{
    private const double FinestShare = 0.0004;
    private const long Budget = 400_000;

    /// <summary>mm³.</summary>
    public double Volume => Size.X * Size.Y * Size.Z;

    /// <param name="hull">Of the part, in mm.</param>
    /// <param name="stop">Ends the search with <see cref="OperationCanceledException"/>.</param>
    public static SmallestBox Of(ConvexHull hull, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(hull);
        var whole = hull.Support;
        if (hull.Dimension < 3) return Ascending(whole, OfFlat(hull, whole), 0);
        var few = whole.Reduced();
        var best = Polished(few, Start(hull, few));
        var (floor, budget) = (0.0, Budget);
        (best, floor) = Descend(few, best, 0.1, floor, ref budget, stop);
        if (few != whole) (best, floor) = Descend(whole, Polished(whole, best), 5 * FinestShare, floor, ref budget, stop);
        return Ascending(whole, best, Math.Max(0, 1 - (floor / VolumeIn(whole, best))));
    }

    /// <summary>Looks through all rotations with ever smaller tolerance, while the work allowed lasts; the floor is what no box has less than.</summary>
    private static (Rotation Best, double Floor) Descend(
        HullSupport support, Rotation best, double share, double floor, ref long budget, CancellationToken stop)
    {
        var search = new RotationSearch<Least>(support, new() { Best = VolumeIn(support, best) }, stop);
        for (; ; share = Math.Max(FinestShare, share / 5))
        {
            search.Goal.Share = share;
            var before = search.Visited;
            var complete = search.Complete(budget);
            budget -= search.Visited - before;
            if (complete) floor = Math.Max(floor, search.Goal.Best * (1 - share));
            if (search.Goal.BestCenter is { } center)
            {
                var polished = Polished(support, Rodrigues.ToRotation(center));
                var volume = VolumeIn(support, polished);
                if (volume < VolumeIn(support, best)) best = polished;
                search.Goal.Best = Math.Min(search.Goal.Best, volume);
                search.Goal.BestCenter = null;
            }

            if (!complete || share <= FinestShare) return (best, floor);
        }
    }

    /// <summary>The best of the file's own axes, those along the longest span and those on the largest faces, each turned to its smallest rectangle.</summary>
    private static Rotation Start(ConvexHull hull, HullSupport support)
    {
        const int MostFaces = 32;
        var faces = new PriorityQueue<Vec3, double>();
        for (var i = 0; i < hull.FaceCount; i++)
        {
            var (a, b, c) = (hull.Vertex(hull.Faces[3 * i]), hull.Vertex(hull.Faces[(3 * i) + 1]), hull.Vertex(hull.Faces[(3 * i) + 2]));
            var normal = Vec3.Cross(b - a, c - a);
            if (faces.Count < MostFaces) faces.Enqueue(normal, normal.LengthSquared);
            else faces.EnqueueDequeue(normal, normal.LengthSquared);
        }

        var shadow = new (double X, double Y)[support.Count];
        var (best, least) = (Rotation.Identity, VolumeIn(support, Rotation.Identity));
        foreach (var axis in faces.UnorderedItems.OrderByDescending(f => f.Priority).Select(f => f.Element).Prepend(support.LongestSpan()))
        {
            if (axis.LengthSquared == 0) continue;
            var turned = Turned(support, Rotation.BringingToZ(axis), shadow);
            var volume = VolumeIn(support, turned);
            if (volume < least) (best, least) = (turned, volume);
        }

        return best;
    }

    private static double VolumeIn(HullSupport support, Rotation rotation)
    {
        var size = support.ExtentsIn(rotation);
        return size.X * size.Y * size.Z;
    }

    /// <summary>
    /// Turns about one axis after another to the smallest rectangle around the shadow, until three turns make the box hardly smaller or after a dozen: from
    /// afar the turns can get ever shorter, and the search over all rotations finds a better start.
    /// </summary>
    private static Rotation Polished(HullSupport support, Rotation rotation)
    {
        var volume = VolumeIn(support, rotation);
        var shadow = new (double X, double Y)[support.Count];
        for (var (turn, still) = (0, 0); still < 3 && turn < 12; turn++)
        {
            rotation = new(rotation.RowY, rotation.RowZ, rotation.RowX); // the next axis comes up; no mirror
            var turned = Turned(support, rotation, shadow);
            var smaller = VolumeIn(support, turned);
            still = smaller < volume * (1 - 1e-7) ? 0 : still + 1;
            if (smaller < volume) (rotation, volume) = (turned, smaller);
        }

        return rotation;
    }

    private static Rotation Turned(HullSupport support, Rotation rotation, (double X, double Y)[] shadow)
    {
        for (var i = 0; i < shadow.Length; i++)
        {
            var p = support.Point(i);
            shadow[i] = (Vec3.Dot(rotation.RowX, p), Vec3.Dot(rotation.RowY, p));
        }

        var (x, y) = SmallestRectangle.Of(shadow);
        var row = ((rotation.RowX * x) + (rotation.RowY * y)).Normalized();
        return new(row, Vec3.Cross(rotation.RowZ, row), rotation.RowZ);
    }

    private static Rotation OfFlat(ConvexHull hull, HullSupport support) => hull.Dimension switch
    {
        2 => Turned(support, Rotation.BringingToZ(hull.FaceNormal(0)), new (double X, double Y)[support.Count]),
        1 => Rotation.BringingToZ(hull.Vertex(1) - hull.Vertex(0)),
        _ => Rotation.Identity,
    };

    private static SmallestBox Ascending(HullSupport support, Rotation rotation, double error)
    {
        var size = support.ExtentsIn(rotation);
        Span<double> lengths = [size.X, size.Y, size.Z];
        Span<Vec3> rows = [rotation.RowX, rotation.RowY, rotation.RowZ];
        lengths.Sort(rows);
        if (Vec3.Dot(Vec3.Cross(rows[0], rows[1]), rows[2]) < 0) rows[0] = -rows[0];
        return new(new(lengths[0], lengths[1], lengths[2]), new(rows[0], rows[1], rows[2]), error);
    }

    private struct Least : IRotationGoal
    {
        public required double Best;
        public Vec3? BestCenter;
        public double Share;

        public bool LookCloser(in RotationBox box)
        {
            var volume = box.Extents.X * box.Extents.Y * box.Extents.Z;
            if (volume < Best) (Best, BestCenter) = (volume, box.Center);
            var enough = Best * (1 - Share);
            return box.Least.Volume < enough && (!box.IsLinear || LeastAtCorners(box) < enough);
        }

        private static double LeastAtCorners(in RotationBox box)
        {
            var (x, y, z) = (box.X, box.Y, box.Z);
            var least = double.PositiveInfinity;
            for (var corner = 0; corner < 8; corner++)
            {
                var f = new Vec3((corner & 1) - 0.5, ((corner >> 1) & 1) - 0.5, ((corner >> 2) & 1) - 0.5) * 2;
                var (a, b, c) = (x.Base - Vec3.Dot(x.Slope, f), y.Base - Vec3.Dot(y.Slope, f), z.Base - Vec3.Dot(z.Slope, f));
                if (a <= 0 || b <= 0 || c <= 0) return 0;
                least = Math.Min(least, a * b * c);
            }

            return least;
        }
    }
}
