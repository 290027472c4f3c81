using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>Where the wall between a hollow and the outside is least, and where a drain or a vent would do most.</summary>
/// <remarks>
/// From places in the hollow the wall is entered at its nearest point and gone through along its normal, and along z; the far side must be outside, not
/// another hollow that keeps liquid. A drain's place is judged by wall plus the height by which it misses the hollow's end, so a hole a little off the
/// end may win through a thinner wall. At most 96 places are tried.
/// </remarks>
internal sealed class WallSearch(TriangleTree tree, SolidColumns columns, Rooms rooms, LiquidInPose pose)
{
    private const int MostTries = 96;

    /// <param name="points">In the hollow near the end, (x, y, height) of the turned frame.</param>
    /// <param name="down">Whether the end is the one that hangs lowest (highest z).</param>
    public Drilling? From(IEnumerable<Vec3> points, bool down)
    {
        var tries = Sampled(points);
        if (tries.Count == 0) return null;
        var end = down ? tries.Max(p => p.Z) : tries.Min(p => p.Z);
        var straight = columns.Rotation.Inverse().Apply(down ? Vec3.UnitZ : -Vec3.UnitZ);
        Drilling? best = null;
        var bestScore = double.PositiveInfinity;
        foreach (var p in tries)
        {
            var start = columns.InFile(p);
            Consider(Through(start, straight), Math.Abs(p.Z - end));
            if (tree.Nearest(start) is { Distance: > 1e-6 } near) Consider(Through(start, near.Point - start), Math.Abs(p.Z - end));
        }

        return best;

        void Consider(Drilling? drilling, double miss)
        {
            if (drilling is null || drilling.WallMm + miss >= bestScore) return;
            (best, bestScore) = (drilling, drilling.WallMm + miss);
        }
    }

    /// <summary>The least wall around a hollow, from points near its walls.</summary>
    public Drilling? Thinnest(IEnumerable<Vec3> points)
    {
        Drilling? best = null;
        foreach (var p in Sampled(points))
        {
            var start = columns.InFile(p);
            if (tree.Nearest(start) is not { Distance: > 1e-6 } near) continue;
            if (Through(start, near.Point - start) is { } wall && (best is null || wall.WallMm < best.WallMm)) best = wall;
        }

        return best;
    }

    /// <summary>The wall a ray from inside a hollow goes through, if it leads outside.</summary>
    private Drilling? Through(Vec3 start, Vec3 direction)
    {
        const double Hair = 1e-5;
        var ray = new Ray(start, direction);
        if (tree.FirstHit(ray) is not { FromFront: true } entry) return null;
        var inside = new Ray(ray.At(entry.Distance + Hair), ray.Direction);
        if (tree.FirstHit(inside) is not { FromFront: false } exit) return null;
        var at = inside.At(exit.Distance);
        return LeadsOutside(at, ray.Direction) ? new(at, -ray.Direction, exit.Distance + Hair) : null;
    }

    /// <summary>Whether the first place beyond a wall that grid and columns both see as empty is outside.</summary>
    private bool LeadsOutside(Vec3 at, Vec3 direction)
    {
        var room = tree.FirstHit(new(at + (direction * 1e-4), direction))?.Distance ?? double.PositiveInfinity;
        for (var step = 1; step <= 4; step++)
        {
            var away = step * rooms.Grid.Size / 2;
            if (away >= room) return false;
            var p = columns.InPose(at + (direction * away));
            var (i, j) = columns.Nearest(p.X, p.Y);
            if (i < 0 || i >= columns.Width || j < 0 || j >= columns.Depth) return true;
            var column = (j * columns.Width) + i;
            var there = rooms.RoomOf(rooms.Grid.CubeAt(p));
            if (there < 0 || pose.IsMaterial(column, p.Z)) continue;
            return there == 0 && pose.IsReached(column, p.Z) && !pose.IsTrapped(column, p.Z);
        }

        return false;
    }

    private static List<Vec3> Sampled(IEnumerable<Vec3> points)
    {
        var all = points.ToList();
        if (all.Count <= MostTries) return all;
        return [.. Enumerable.Range(0, MostTries).Select(k => all[(int)((long)k * all.Count / MostTries)])];
    }
}
