namespace Catalogue.Geometry.Fit;

/// <summary>The rectangle of least area around points in the plane.</summary>
/// <remarks>
/// One side lies along an edge of the points' convex polygon (Freeman and Shapira 1975), so each edge is tried while the farthest corners move on around the polygon
/// (rotating calipers, Toussaint 1983). O(n log n) for n points; exact up to rounding.
/// </remarks>
internal static class SmallestRectangle
{
    /// <summary>The unit direction of one of its sides; x when all points coincide.</summary>
    public static (double X, double Y) Of((double X, double Y)[] points)
    {
        var ring = Ring(points);
        var n = ring.Count;
        if (n < 2) return (1, 0);
        if (n == 2) return Direction(ring[0], ring[1]);
        var best = (X: 1.0, Y: 0.0);
        var least = double.PositiveInfinity;
        var (right, top, left) = (1, 1, 1);
        for (var i = 0; i < n; i++)
        {
            var (x, y) = Direction(ring[i], ring[(i + 1) % n]);
            right = Advance(right, x, y);
            if (i == 0) top = right;
            top = Advance(top, -y, x);
            if (i == 0) left = top;
            left = Advance(left, -x, -y);
            var width = Along(right, x, y) - Along(left, x, y);
            var depth = Along(top, -y, x) - Along(i, -y, x);
            if (width * depth >= least) continue;
            (least, best) = (width * depth, (x, y));
        }

        return best;

        double Along(int i, double x, double y) => (ring[i].X * x) + (ring[i].Y * y);

        int Advance(int from, double x, double y)
        {
            for (var step = 0; step < n && Along((from + 1) % n, x, y) >= Along(from, x, y); step++) from = (from + 1) % n;
            return from;
        }
    }

    private static (double X, double Y) Direction((double X, double Y) from, (double X, double Y) to)
    {
        var (x, y) = (to.X - from.X, to.Y - from.Y);
        var length = Math.Sqrt((x * x) + (y * y));
        return (x / length, y / length);
    }

    /// <summary>The convex polygon, counter-clockwise (Andrew's monotone chain, 1979).</summary>
    internal static List<(double X, double Y)> Ring((double X, double Y)[] points)
    {
        Array.Sort(points, (p, q) => p.X != q.X ? p.X.CompareTo(q.X) : p.Y.CompareTo(q.Y));
        var ring = new List<(double X, double Y)>();
        foreach (var p in points) Push(p, 1);
        var half = ring.Count;
        for (var i = points.Length - 2; i >= 0; i--) Push(points[i], half);
        if (ring.Count > 1) ring.RemoveAt(ring.Count - 1);
        return ring;

        void Push((double X, double Y) p, int floor)
        {
            while (ring.Count > floor && Left(ring[^2], ring[^1], p) <= 0) ring.RemoveAt(ring.Count - 1);
            if (ring.Count == 0 || ring[^1] != p) ring.Add(p);
        }

        static double Left((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
            ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
    }
}
