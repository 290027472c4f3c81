using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>Two to four of the points that lie far apart, and with them how many dimensions the points fill.</summary>
/// <remarks>Points closer together, to a line or to a plane than the tolerance count as one, on it, in it. O(n).</remarks>
internal readonly record struct HullSimplex(int Dimension, int A, int B, int C, int D)
{
    public static HullSimplex Of(HullPoints points, ReadOnlySpan<int> extremes, double tolerance)
    {
        var (a, b, distance) = (extremes[0], extremes[0], 0.0);
        foreach (var i in extremes)
        {
            foreach (var j in extremes)
            {
                var d = Vec3.Distance(points[i], points[j]);
                if (d > distance) (a, b, distance) = (i, j, d);
            }
        }

        if (distance == 0) return new(0, a, a, a, a);
        var origin = points[a];
        var along = (points[b] - origin) / distance;
        var (c, fromLine) = Farthest(points, extremes, distance, p => Vec3.Cross(p - origin, along).Length);
        if (fromLine <= tolerance) return new(1, a, b, a, a);
        var normal = Vec3.Cross(along, points[c] - origin).Normalized();
        var (e, fromPlane) = Farthest(points, extremes, distance, p => Math.Abs(Vec3.Dot(p - origin, normal)));
        return fromPlane <= 2 * tolerance ? new(2, a, b, c, a) : new(3, a, b, c, e);
    }

    /// <summary>The extremes nearly always answer; all points are asked only when these hardly leave the line or the plane.</summary>
    private static (int Index, double Distance) Farthest(HullPoints points, ReadOnlySpan<int> extremes, double size, Func<Vec3, double> measure)
    {
        var (at, most) = (extremes[0], 0.0);
        foreach (var i in extremes) Look(i);
        if (most > size / 1000) return (at, most);
        for (var i = 0; i < points.Count; i++) Look(i);
        return (at, most);

        void Look(int i)
        {
            var distance = measure(points[i]);
            if (distance > most) (at, most) = (i, distance);
        }
    }
}
