using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>Gathers the least extents a hull can have, over all rotations, so densely as a given amount of work allows.</summary>
/// <remarks>
/// Passes over all rotations with ever smaller slack; the result is that of the last one that came to an end: each rotation's three extents, sorted, are
/// nowhere more than the slack below those of one member. The amount of work counts boxes, not time: the same hull gives the same front anywhere.
/// </remarks>
internal static class FrontSearch
{
    public const int MostMembers = 1024;
    private const double FinestMm = 0.25;
    private const long Boxes = 140_000;
    private const long Patches = 12_000; // a direction's circle costs some twenty times a box

    public static (ParetoFront Front, double Slack) Rectangular(HullSupport support, CancellationToken stop)
    {
        var front = new ParetoFront();
        front.Add(SortedExtents.Of(support.ExtentsIn(Rotation.Identity)), Vec3.Zero);
        var search = new RotationSearch<Boxed>(support, new() { Front = front }, stop);
        var slack = Descend(
            support, front, Boxes, 3,
            (slack, budget) =>
            {
                search.Goal.Slack = slack;
                var before = search.Visited;
                return (search.Complete(budget), search.Visited - before);
            });
        return (front, slack);
    }

    public static (ParetoFront Front, double Slack) Round(HullSupport support, CancellationToken stop)
    {
        var front = new ParetoFront();
        var circle = new EnclosingCircle(support);
        front.Add(Pair(circle.Along(Rotation.Identity)), Vec3.UnitZ);
        var search = new DirectionSearch<Standing>(circle, support.Rounding, new() { Front = front }, stop);
        var slack = Descend(
            support, front, Patches, 2,
            (slack, budget) =>
            {
                search.Goal.Slack = slack;
                var before = search.Visited;
                return (search.Complete(budget), search.Visited - before);
            });
        return (front, slack);
    }

    /// <summary>Narrows the slack pass by pass, each as far as the work left should reach when cost grows with its power <paramref name="growth"/>.</summary>
    private static double Descend(
        HullSupport support, ParetoFront front, long budget, int growth, Func<double, long, (bool Complete, long Visited)> pass)
    {
        var reached = 2 * support.Radius; // no two rotations differ by more
        for (var slack = support.Radius / 4; ;)
        {
            var members = front.Count;
            var (complete, visited) = pass(slack, budget);
            budget -= visited;
            if (!complete || front.Count > MostMembers)
            {
                front.Shorten(members);
                return reached;
            }

            reached = slack;
            var narrower = slack * Math.Max(0.5, Math.Pow(1.2 * visited / Math.Max(1, budget), 1.0 / growth));
            if (slack <= FinestMm || narrower > 0.9 * slack) return reached;
            slack = Math.Max(FinestMm, narrower);
        }
    }

    private static SortedExtents Pair(in EnclosingCircle.Shadow shadow) => new(shadow.Diameter, shadow.Height, 0);

    private struct Boxed : IRotationGoal
    {
        public required ParetoFront Front;
        public double Slack;

        public readonly bool LookCloser(in RotationBox box)
        {
            var least = box.Least;
            if (Front.Dominates(least, Slack)) return false;
            var extents = box.Sorted;
            if (Front.Dominates(extents, Slack / 2)) return true;
            Front.Add(extents, box.Center);
            return !Front.Dominates(least, Slack);
        }
    }

    private struct Standing : IDirectionGoal
    {
        public required ParetoFront Front;
        public double Slack;

        public readonly bool LookCloser(Vec3 direction, in EnclosingCircle.Shadow shadow, double diameterAtLeast, double heightAtLeast)
        {
            var least = new SortedExtents(diameterAtLeast, heightAtLeast, 0);
            if (Front.Dominates(least, Slack)) return false;
            var extents = Pair(shadow);
            if (Front.Dominates(extents, Slack / 2)) return true;
            Front.Add(extents, direction);
            return !Front.Dominates(least, Slack);
        }
    }
}
