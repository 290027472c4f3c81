using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>The circle that the corners of a round wall lie on.</summary>
/// <remarks>
/// Programs put the corners of a faceted cylinder on the circle that was drawn, so its facets undershoot: by 3.4 % of the radius at 12 sides. Points within
/// a facet lie on chords; the corners are those on the convex hull of the wall seen along its axis. Where these agree on a circle within 0.4 %, and
/// chords between them would lie where the facets were measured, it is the nominal one. Where not, the wall is rough and the outermost points are its
/// bumps: then the mean over all points is taken. O(k log k).
/// </remarks>
internal static class NominalCircle
{
    private const double CornersAgree = 0.004;

    /// <summary>Nearly straight corners of the hull (0.2°) are points within a facet.</summary>
    private const double Straight = 0.0035;

    /// <param name="low">Where the wall begins along the frame's axis, and <paramref name="high"/> where it ends.</param>
    /// <param name="triangles">Of the wall; repeats do no harm.</param>
    /// <returns>The radius, mm; never below the frame's.</returns>
    public static double Radius(TriangleMesh mesh, in CylinderFrame frame, double low, double high, IEnumerable<int> triangles)
    {
        var slack = 0.02 * frame.Radius;
        var seen = new HashSet<int>();
        var points = new List<(double X, double Y)>();
        foreach (var triangle in triangles.Distinct())
        {
            for (var k = 0; k < 3; k++)
            {
                var number = mesh.Indices[(3 * triangle) + k];
                if (!seen.Add(number)) continue;
                var p = mesh.Vertex(number);
                var (along, distance) = frame.Coordinates(p);
                if (along < low - slack || along > high + slack) continue;
                if (Math.Abs(distance - frame.Radius) > 0.12 * frame.Radius) continue;
                points.Add((Vec3.Dot(p - frame.Center, frame.U), Vec3.Dot(p - frame.Center, frame.V)));
            }
        }

        if (points.Count < 6) return frame.Radius;
        var corners = Hull(points);
        if (corners.Count >= 6 && Fit(corners) is { } circle && circle.Spread <= (CornersAgree * circle.Radius) + 1e-4
            && Math.Abs((circle.Radius * Undershoot(corners)) - frame.Radius) <= CornersAgree * circle.Radius)
        {
            return Math.Max(circle.Radius, frame.Radius);
        }

        return Math.Max(points.Average(p => double.Hypot(p.X, p.Y)), frame.Radius);
    }

    /// <summary>How far the chords between corners are from the middle as a part of the radius, each weighed by its angle.</summary>
    private static double Undershoot(List<(double X, double Y)> corners)
    {
        var sum = 0.0;
        for (var i = 0; i < corners.Count; i++)
        {
            var (p, q) = (corners[i], corners[(i + 1) % corners.Count]);
            var gap = Math.Atan2((p.X * q.Y) - (p.Y * q.X), (p.X * q.X) + (p.Y * q.Y));
            sum += gap * Math.Cos(gap / 2);
        }

        return sum / (2 * Math.PI);
    }

    /// <summary>Least squares for x² + y² + ax + by + c = 0 (Kåsa's method, from memory): exact for points on a circle, little biased all round one.</summary>
    private static (double Radius, double Spread)? Fit(List<(double X, double Y)> points)
    {
        double n = points.Count, sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0, sxz = 0, syz = 0;
        foreach (var (x, y) in points) (sx, sy) = (sx + x, sy + y);
        var (mx, my) = (sx / n, sy / n);
        var sz = 0.0;
        foreach (var (px, py) in points)
        {
            var (x, y) = (px - mx, py - my);
            var z = (x * x) + (y * y);
            (sxx, syy, sxy, sxz, syz, sz) = (sxx + (x * x), syy + (y * y), sxy + (x * y), sxz + (x * z), syz + (y * z), sz + z);
        }

        var det = (sxx * syy) - (sxy * sxy);
        if (!(det > 1e-9 * sxx * syy)) return null;
        var cx = ((sxz * syy) - (syz * sxy)) / (2 * det);
        var cy = ((syz * sxx) - (sxz * sxy)) / (2 * det);
        var radius = Math.Sqrt((sz / n) + (cx * cx) + (cy * cy));
        var spread = Math.Sqrt(points.Average(p =>
        {
            var off = double.Hypot(p.X - mx - cx, p.Y - my - cy) - radius;
            return off * off;
        }));
        return (radius, spread);
    }

    private static List<(double X, double Y)> Hull(List<(double X, double Y)> points)
    {
        points.Sort();
        var hull = new List<(double X, double Y)>();
        for (var pass = 0; pass < 2; pass++)
        {
            var from = hull.Count;
            foreach (var p in points)
            {
                while (hull.Count >= from + 2 && !TurnsLeft(hull[^2], hull[^1], p)) hull.RemoveAt(hull.Count - 1);
                hull.Add(p);
            }

            hull.RemoveAt(hull.Count - 1);
            points.Reverse();
        }

        return hull;
    }

    private static bool TurnsLeft((double X, double Y) a, (double X, double Y) b, (double X, double Y) c)
    {
        var (ux, uy, vx, vy) = (b.X - a.X, b.Y - a.Y, c.X - b.X, c.Y - b.Y);
        return (ux * vy) - (uy * vx) > Straight * double.Hypot(ux, uy) * double.Hypot(vx, vy);
    }
}
