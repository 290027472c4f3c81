using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>Does a part go into a build volume in some rotation, and how much is spare in the best one?</summary>
/// <remarks>
/// The spare of a rotation is the smallest difference between room and part over the axes; the answer is the rotation with the largest, found by branch and
/// bound over all rotations (<see cref="RotationSearch{TGoal}"/>; for round plates over all directions, <see cref="DirectionSearch{TGoal}"/>). The bound
/// proves that no other rotation spares more than <see cref="FitResult.ErrorBoundMm"/> above it: 0.05 mm unless the work allowed
/// runs out, usually a few µm. "Fits" is said only of a rotation whose extents, measured in double precision on every vertex of the hull, are
/// within the room; a part that fits by less than 0.05 mm may be called too long, never the other way round. Cost: 1 to 30 ms; near-limit parts of high
/// symmetry up to about a second. Thread-safe.
/// </remarks>
public static class FitSearch
{
    /// <summary>Decisions are right when the true spare is farther than this from 0 (mm).</summary>
    public const double DecisionToleranceMm = 0.05;

    /// <summary>A search that starts as if it had found this little too long looks at nothing that spares less than nothing.</summary>
    private const double Nearly = 0.98 * DecisionToleranceMm;

    private const long Budget = 3_000_000;
    private const long PolishBudget = 60_000;
    private const long RoundPolishBudget = 3_000; // a direction costs some twenty times a rotation

    /// <param name="hull">Of the part, in mm.</param>
    /// <param name="volume">Its margin is kept free on every side.</param>
    /// <param name="stop">Ends a long search with <see cref="OperationCanceledException"/>.</param>
    public static FitResult Fit(ConvexHull hull, BuildVolume volume, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(hull);
        return volume.IsRound ? FitRound(hull, volume, stop) : FitRectangular(hull, volume, stop);
    }

    /// <summary>
    /// Only whether the part goes in, not how well: one walk that looks no closer than it has to and ends with the first rotation that will do.
    /// Null when it is so close that <see cref="Fit"/> has to tell. Never contradicts it.
    /// </summary>
    /// <param name="hull">Of the part, in mm.</param>
    /// <param name="volume">Its margin is kept free on every side.</param>
    /// <param name="stop">Ends a long search with <see cref="OperationCanceledException"/>.</param>
    public static bool? Decide(ConvexHull hull, BuildVolume volume, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(hull);
        return volume.IsRound ? DecideRound(hull, volume, stop) : DecideRectangular(hull, volume, stop);
    }

    private static bool? DecideRectangular(ConvexHull hull, BuildVolume volume, CancellationToken stop)
    {
        var room = SortedExtents.Of(volume.UsableWidth, volume.UsableDepth, volume.UsableHeight);
        var goal = new Deciding { Largest = new() { Room = room, Best = -Nearly, Tolerance = Nearly } };
        var search = new RotationSearch<Deciding>(hull.Support, goal, stop);
        var complete = search.Complete(Budget);
        if (search.Goal.Largest.Best <= -Nearly) return complete ? false : null;
        var rotation = Rodrigues.ToRotation(search.Goal.Largest.BestCenter);
        return SortedExtents.Of(hull.Support.ExtentsIn(rotation)).MarginIn(room) >= DecisionToleranceMm ? true : null;
    }

    private static bool? DecideRound(ConvexHull hull, BuildVolume volume, CancellationToken stop)
    {
        var circle = new EnclosingCircle(hull.Support);
        var goal = new DecidingRound
        {
            Largest = new() { Diameter = volume.UsableWidth, Height = volume.UsableHeight, Best = -Nearly, Tolerance = Nearly },
        };
        var search = new DirectionSearch<DecidingRound>(circle, hull.Support.Rounding, goal, stop);
        var complete = search.Complete(Budget);
        if (search.Goal.Largest.Best <= -Nearly) return complete ? false : null;
        var rotation = Rotation.BringingToZ(search.Goal.Largest.BestDirection);
        var height = hull.VertexCount == 0 ? 0 : hull.Support.ExtentAlong(rotation.RowZ);
        return Math.Min(volume.UsableWidth - circle.DiameterOf(hull, rotation), volume.UsableHeight - height) >= DecisionToleranceMm ? true : null;
    }

    private static FitResult FitRectangular(ConvexHull hull, BuildVolume volume, CancellationToken stop)
    {
        var room = SortedExtents.Of(volume.UsableWidth, volume.UsableDepth, volume.UsableHeight);
        var support = hull.Support;
        var asIs = SortedExtents.Of(support.ExtentsIn(Rotation.Identity)).MarginIn(room);
        var search = new RotationSearch<Largest>(support, new() { Room = room, Best = asIs }, stop);
        var bound = Descend(search.Complete, tolerance => search.Goal.Tolerance = tolerance, hull, PolishBudget);
        var rotation = ToAxesOf(volume, support, Rodrigues.ToRotation(search.Goal.BestCenter));
        var size = support.ExtentsIn(rotation);
        var spare = SpareOf(size, volume);
        return Result(spare, search.Goal.Best + bound + support.Rounding - spare, size, rotation);
    }

    private static FitResult FitRound(ConvexHull hull, BuildVolume volume, CancellationToken stop)
    {
        var support = hull.Support;
        var circle = new EnclosingCircle(support);
        var search = new DirectionSearch<LargestRound>(
            circle, support.Rounding, new() { Diameter = volume.UsableWidth, Height = volume.UsableHeight, Best = double.NegativeInfinity }, stop);
        search.Goal.Consider(Vec3.UnitZ, circle.Along(Rotation.Identity));
        var bound = Descend(search.Complete, tolerance => search.Goal.Tolerance = tolerance, hull, RoundPolishBudget);
        var up = search.Goal.BestDirection;
        var rotation = up == Vec3.UnitZ ? Rotation.Identity : Rotation.BringingToZ(up);
        var diameter = circle.DiameterOf(hull, rotation);
        var size = new Vec3(diameter, diameter, hull.VertexCount == 0 ? 0 : support.ExtentAlong(rotation.RowZ));
        var spare = SpareOf(size, volume);
        return Result(spare, search.Goal.Best + bound + support.Rounding - spare, size, rotation);
    }

    /// <summary>
    /// Exhausts all rotations with ever smaller tolerance, so that each pass starts with a nearly best rotation and throws most of the tree
    /// away at once; gives the tolerance of the last pass that came to an end.
    /// </summary>
    private static double Descend(Func<long, bool> complete, Action<double> setTolerance, ConvexHull hull, long polish)
    {
        var finest = Math.Max(0.003, 20 * hull.Support.Rounding);
        var reached = 4 * hull.Support.Radius; // no two rotations differ by more
        for (var tolerance = Math.Max(3.2, hull.Support.Radius / 16); tolerance >= finest; tolerance /= 4)
        {
            // a step to exactly the tolerance that decides
            if (tolerance < DecisionToleranceMm && reached > DecisionToleranceMm) tolerance = Math.Max(finest, DecisionToleranceMm * 0.98);
            setTolerance(tolerance);
            if (!complete(tolerance < 0.9 * DecisionToleranceMm ? polish : Budget)) break;
            reached = tolerance;
        }

        return reached;
    }

    private static FitResult Result(double spare, double error, Vec3 size, Rotation rotation)
    {
        error = Math.Max(0, error);
        var decision = spare >= 0 ? FitDecision.Fits : spare + error <= DecisionToleranceMm ? FitDecision.DoesNotFit : FitDecision.Undecided;
        return new(decision, spare, error, size, rotation);
    }

    private static double SpareOf(Vec3 size, BuildVolume volume) =>
        Math.Min(volume.UsableWidth - size.X, Math.Min(volume.UsableDepth - size.Y, volume.UsableHeight - size.Z));

    /// <summary>The same pose with its axes exchanged so that the longest extent lies along the volume's longest side, and so on; still no mirror.</summary>
    internal static Rotation ToAxesOf(BuildVolume volume, HullSupport support, Rotation rotation)
    {
        var size = support.ExtentsIn(rotation);
        Span<Vec3> rows = [rotation.RowX, rotation.RowY, rotation.RowZ];
        Span<double> lengths = [size.X, size.Y, size.Z];
        Span<double> sides = [volume.UsableWidth, volume.UsableDepth, volume.UsableHeight];
        Span<int> axes = [0, 1, 2];
        if (SpareOf(size, volume) >= SortedExtents.Of(size).MarginIn(SortedExtents.Of(sides[0], sides[1], sides[2]))) return rotation;
        lengths.Sort(rows);
        sides.Sort(axes);
        Span<Vec3> placed = [default, default, default];
        for (var i = 0; i < 3; i++) placed[axes[i]] = rows[i];
        if (Vec3.Dot(Vec3.Cross(placed[0], placed[1]), placed[2]) < 0) placed[0] = -placed[0];
        return new(placed[0], placed[1], placed[2]);
    }

    private struct Largest : IRotationGoal
    {
        public required SortedExtents Room;
        public required double Best;
        public Vec3 BestCenter; // starts as the part's own pose
        public double Tolerance;

        public bool LookCloser(in RotationBox box)
        {
            var margin = box.Sorted.MarginIn(Room);
            if (margin > Best + 1e-6) (Best, BestCenter) = (margin, box.Center);
            var enough = Best + Tolerance;
            if (box.Least.MarginIn(Room) <= enough) return false;
            if (!box.IsLinear) return true;
            var (x, y, z) = (box.X, box.Y, box.Z);
            return CanSpare(x, y, z, enough) || CanSpare(x, z, y, enough) || CanSpare(y, x, z, enough)
                || CanSpare(y, z, x, enough) || CanSpare(z, x, y, enough) || CanSpare(z, y, x, enough);
        }

        /// <summary>
        /// Could some rotation of the box spare more, with these extents along the room's sides in ascending order? No when a weighted mean of the three
        /// spares, which is never less than the smallest of them, stays below.
        /// </summary>
        private readonly bool CanSpare(in ExtentBound a, in ExtentBound b, in ExtentBound c, double enough)
        {
            if (Room.Small - a.Least <= enough || Room.Middle - b.Least <= enough || Room.Large - c.Least <= enough) return false;
            var (ra, rb, rc) = (Room.Small - a.Base, Room.Middle - b.Base, Room.Large - c.Base);
            var ab = Balance.OfTwo(a.Slope, b.Slope);
            if (Mean(ra, a.Slope, rb, b.Slope, ab) <= enough) return false;
            var bc = Balance.OfTwo(b.Slope, c.Slope);
            if (Mean(rb, b.Slope, rc, c.Slope, bc) <= enough) return false;
            var ca = Balance.OfTwo(c.Slope, a.Slope);
            if (Mean(rc, c.Slope, ra, a.Slope, ca) <= enough) return false;
            var (wa, wb, wc) = Balance.Of(a.Slope, b.Slope, c.Slope);
            return (wa * ra) + (wb * rb) + (wc * rc) + Sum((a.Slope * wa) + (b.Slope * wb) + (c.Slope * wc)) > enough;
        }

        private static double Mean(double p, Vec3 slopeP, double q, Vec3 slopeQ, double share) =>
            (p * (1 - share)) + (q * share) + Sum((slopeP * (1 - share)) + (slopeQ * share));

        private static double Sum(Vec3 slope) => Math.Abs(slope.X) + Math.Abs(slope.Y) + Math.Abs(slope.Z);
    }

    /// <summary>Ends with the first rotation that spares enough.</summary>
    private struct Deciding : IRotationGoal
    {
        public Largest Largest;

        public bool LookCloser(in RotationBox box) =>
            Largest.Best < DecisionToleranceMm && Largest.LookCloser(box) && Largest.Best < DecisionToleranceMm;
    }

    private struct DecidingRound : IDirectionGoal
    {
        public LargestRound Largest;

        public bool LookCloser(Vec3 direction, in EnclosingCircle.Shadow shadow, double diameterAtLeast, double heightAtLeast) =>
            Largest.Best < DecisionToleranceMm && Largest.LookCloser(direction, shadow, diameterAtLeast, heightAtLeast)
            && Largest.Best < DecisionToleranceMm;
    }

    private struct LargestRound : IDirectionGoal
    {
        public required double Diameter;
        public required double Height;
        public required double Best;
        public Vec3 BestDirection;
        public double Tolerance;

        public void Consider(Vec3 direction, in EnclosingCircle.Shadow shadow)
        {
            var margin = Math.Min(Diameter - shadow.Diameter, Height - shadow.Height);
            if (margin > Best + 1e-6) (Best, BestDirection) = (margin, direction);
        }

        public bool LookCloser(Vec3 direction, in EnclosingCircle.Shadow shadow, double diameterAtLeast, double heightAtLeast)
        {
            Consider(direction, shadow);
            return Math.Min(Diameter - diameterAtLeast, Height - heightAtLeast) > Best + Tolerance;
        }
    }
}
