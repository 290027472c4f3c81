using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>The convex polygon around points that lie in one plane (Andrew's monotone chain, 1979). O(n log n).</summary>
internal static class FlatHull
{
    /// <summary>The polygon's corners in order around it, as numbers of the points.</summary>
    public static int[] Ring(HullPoints points, HullSimplex simplex, double tolerance)
    {
        var origin = points[simplex.A];
        var u = (points[simplex.B] - origin).Normalized();
        var normal = Vec3.Cross(u, points[simplex.C] - origin).Normalized();
        var v = Vec3.Cross(normal, u);
        var flat = new (double X, double Y, int Index)[points.Count];
        for (var i = 0; i < flat.Length; i++)
        {
            var p = points[i] - origin;
            flat[i] = (Vec3.Dot(u, p), Vec3.Dot(v, p), i);
        }

        Array.Sort(flat, (p, q) => p.X != q.X ? p.X.CompareTo(q.X) : p.Y != q.Y ? p.Y.CompareTo(q.Y) : p.Index.CompareTo(q.Index));
        var ring = new List<(double X, double Y, int Index)>();
        foreach (var p in flat) Push(ring, p, 1);
        var half = ring.Count;
        for (var i = flat.Length - 2; i >= 0; i--) Push(ring, flat[i], half);
        if (ring.Count > 1) ring.RemoveAt(ring.Count - 1);
        return [.. Straightened(ring, tolerance).Select(p => p.Index)];

        void Push(List<(double X, double Y, int Index)> chain, (double X, double Y, int Index) p, int floor)
        {
            while (chain.Count > floor && Bulge(chain[^2], chain[^1], p) <= 0) chain.RemoveAt(chain.Count - 1);
            if (chain.Count > 0 && chain[^1].X == p.X && chain[^1].Y == p.Y) return;
            chain.Add(p);
        }
    }

    /// <summary>
    /// Leaves out corners that only rounding makes: as long as those left out in a row stand out by no more than the tolerance in all.
    /// </summary>
    private static List<(double X, double Y, int Index)> Straightened(List<(double X, double Y, int Index)> ring, double tolerance)
    {
        if (ring.Count < 4) return ring;
        List<(double X, double Y, int Index)> kept = [ring[0]];
        var lost = 0.0;
        for (var i = 1; i < ring.Count; i++)
        {
            var (a, c) = (kept[^1], ring[(i + 1) % ring.Count]);
            var bulge = Bulge(a, ring[i], c) / Math.Sqrt(((c.X - a.X) * (c.X - a.X)) + ((c.Y - a.Y) * (c.Y - a.Y)));
            lost += bulge;
            if (lost <= tolerance) continue;
            kept.Add(ring[i]);
            lost = 0;
        }

        return kept.Count >= 3 ? kept : ring;
    }

    /// <summary>Positive when <paramref name="b"/> stands out to the right of the line from a to c.</summary>
    private static double Bulge((double X, double Y, int Index) a, (double X, double Y, int Index) b, (double X, double Y, int Index) c)
    {
        var (x, y) = (c.X - a.X, c.Y - a.Y);
        return ((b.X - a.X) * y) - ((b.Y - a.Y) * x);
    }
}
