using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Limbs;

/// <summary>The material that a plane cuts around one place: exact from the mesh's triangles.</summary>
/// <param name="Area">mm².</param>
/// <param name="Second">Second moment of area about the weakest axis through the centroid, mm⁴.</param>
/// <param name="Fibre">From that axis to the farthest point, mm.</param>
/// <param name="Thickness">Across that axis from edge to edge, mm.</param>
internal readonly record struct PlaneSection(Vec3 Centroid, double Area, double Second, double Fibre, double Thickness)
{
    /// <summary>
    /// The section by the plane through <paramref name="at"/> square to <paramref name="axis"/>: the closed outline around that place, with the outlines of hollows in it; null when the
    /// place is not in material or the outline leaves the triangles given. O(triangles given).
    /// </summary>
    public static PlaneSection? Of(TriangleMesh mesh, ReadOnlySpan<int> triangles, Vec3 at, Vec3 axis)
    {
        var frame = Rotation.BringingToZ(axis);
        var next = new Dictionary<(int, int), ((int, int) To, double X, double Y)>();
        Span<double> height = stackalloc double[3];
        Span<Vec3> corner = stackalloc Vec3[3];
        foreach (var triangle in triangles)
        {
            for (var k = 0; k < 3; k++)
            {
                corner[k] = mesh.Vertex(mesh.Indices[(3 * triangle) + k]) - at;
                height[k] = Vec3.Dot(corner[k], frame.RowZ);
            }

            var above = (height[0] >= 0 ? 1 : 0) + (height[1] >= 0 ? 1 : 0) + (height[2] >= 0 ? 1 : 0);
            if (above is 0 or 3) continue;

            // Along an outward-facing triangle, from the edge going up to the edge going down, matter lies on the right seen from above: turned round here.
            int up = 0, down = 0;
            for (var k = 0; k < 3; k++)
            {
                var (from, to) = (height[k] >= 0, height[(k + 1) % 3] >= 0);
                if (!from && to) up = k;
                else if (from && !to) down = k;
            }

            var start = Crossing(down, height, corner);
            next[Key(mesh, triangle, down)] = (Key(mesh, triangle, up), Vec3.Dot(start, frame.RowX), Vec3.Dot(start, frame.RowY));
        }

        return Around(Loops(next), at, frame);
    }

    private static Vec3 Crossing(int edge, ReadOnlySpan<double> height, ReadOnlySpan<Vec3> corner)
    {
        var other = (edge + 1) % 3;
        return corner[edge] + ((corner[other] - corner[edge]) * (height[edge] / (height[edge] - height[other])));
    }

    private static (int, int) Key(TriangleMesh mesh, int triangle, int edge)
    {
        var (a, b) = (mesh.Indices[(3 * triangle) + edge], mesh.Indices[(3 * triangle) + ((edge + 1) % 3)]);
        return a < b ? (a, b) : (b, a);
    }

    private static List<(List<(double X, double Y)> Points, double Area)> Loops(Dictionary<(int, int), ((int, int) To, double X, double Y)> next)
    {
        var loops = new List<(List<(double X, double Y)> Points, double Area)>();
        var used = new HashSet<(int, int)>();
        foreach (var first in next.Keys)
        {
            if (used.Contains(first)) continue;
            var points = new List<(double X, double Y)>();
            var at = first;
            var closed = false;
            while (next.TryGetValue(at, out var step) && used.Add(at))
            {
                points.Add((step.X, step.Y));
                at = step.To;
                closed = at == first;
                if (closed) break;
            }

            if (!closed || points.Count < 3) continue;
            var area = 0.0;
            for (var i = 0; i < points.Count; i++)
            {
                var (p, q) = (points[i], points[(i + 1) % points.Count]);
                area += ((p.X * q.Y) - (p.Y * q.X)) / 2;
            }

            loops.Add((points, area));
        }

        return loops;
    }

    private static PlaneSection? Around(List<(List<(double X, double Y)> Points, double Area)> loops, Vec3 at, Rotation frame)
    {
        // The largest outline around the place, where pieces run into each other; a limb's middle may lie outside a bent section, then the nearest outline.
        var outer = loops.Where(l => l.Area > 0 && Holds(l.Points, 0, 0)).OrderByDescending(l => l.Area).FirstOrDefault();
        if (outer.Points is null) outer = loops.Where(l => l.Area > 0).OrderBy(l => l.Points.Min(p => (p.X * p.X) + (p.Y * p.Y))).FirstOrDefault();
        if (outer.Points is null) return null;
        double area = 0, mx = 0, my = 0, xx = 0, yy = 0, xy = 0;
        foreach (var (points, signed) in loops)
        {
            if (!ReferenceEquals(points, outer.Points) && (signed >= 0 || !Holds(outer.Points, points[0].X, points[0].Y))) continue;
            for (var i = 0; i < points.Count; i++)
            {
                var (p, q) = (points[i], points[(i + 1) % points.Count]);
                var cross = (p.X * q.Y) - (p.Y * q.X);
                area += cross / 2;
                mx += (p.X + q.X) * cross / 6;
                my += (p.Y + q.Y) * cross / 6;
                xx += ((p.X * p.X) + (p.X * q.X) + (q.X * q.X)) * cross / 12;
                yy += ((p.Y * p.Y) + (p.Y * q.Y) + (q.Y * q.Y)) * cross / 12;
                xy += ((p.X * q.Y) + (2 * p.X * p.Y) + (2 * q.X * q.Y) + (q.X * p.Y)) * cross / 24;
            }
        }

        if (!(area > 0)) return null;
        var (cx, cy) = (mx / area, my / area);
        (xx, yy, xy) = (xx - (area * cx * cx), yy - (area * cy * cy), xy - (area * cx * cy));
        var angle = Math.Atan2(2 * xy, xx - yy) / 2;
        PlaneSection? weakest = null;
        for (var k = 0; k < 2; k++)
        {
            // Bending about the axis square to (c, s): second moment of distances along (c, s).
            var (s, c) = Math.SinCos(angle + (k * Math.PI / 2));
            var second = (c * c * xx) + (2 * s * c * xy) + (s * s * yy);
            var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
            foreach (var (x, y) in outer.Points)
            {
                var d = (c * (x - cx)) + (s * (y - cy));
                (low, high) = (Math.Min(low, d), Math.Max(high, d));
            }

            var fibre = Math.Max(-low, high);
            if (!(second > 0 && fibre > 0)) return null;
            if (weakest is { } other && other.Second / other.Fibre <= second / fibre) continue;
            weakest = new(at + (frame.RowX * cx) + (frame.RowY * cy), area, second, fibre, high - low);
        }

        return weakest;
    }

    private static bool Holds(List<(double X, double Y)> points, double x, double y)
    {
        var inside = false;
        for (var i = 0; i < points.Count; i++)
        {
            var (p, q) = (points[i], points[(i + 1) % points.Count]);
            if (p.Y > y != q.Y > y && x < p.X + ((y - p.Y) / (q.Y - p.Y) * (q.X - p.X))) inside = !inside;
        }

        return inside;
    }
}
