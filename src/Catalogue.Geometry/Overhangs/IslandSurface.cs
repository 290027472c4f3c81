using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Overhangs;

/// <summary>The surface of one island below some height: what can be reached from a triangle at its lowest vertex without going above.</summary>
internal sealed class IslandSurface(OverhangPose pose, int first)
{
    private const int MostTriangles = 200_000;

    /// <summary>
    /// Area of the section at a height, mm²: by the divergence theorem what the surface below shows downward less what it shows upward.
    /// </summary>
    public double SectionAt(double height)
    {
        var section = 0.0;
        var up = pose.Rotation.RowZ;
        foreach (var t in Below(height))
        {
            var (a, b, c) = pose.Mesh.Triangle(t);
            section -= Vec3.Dot(up, Vec3.Cross(b - a, c - a)) / 2 * FractionBelow(t, height);
        }

        return Math.Max(0, section);
    }

    /// <summary>Its vertices between two heights, from low to high, with the outward normal there.</summary>
    public List<(int Vertex, Vec3 Outward)> Vertices(double from, double to)
    {
        var normals = new Dictionary<int, Vec3>();
        foreach (var t in Below(to))
        {
            var (a, b, c) = pose.Mesh.Triangle(t);
            var normal = Vec3.Cross(b - a, c - a);
            foreach (var v in pose.Mesh.Indices.Slice(3 * t, 3))
                if (pose.Heights[v] >= from && pose.Heights[v] <= to) normals[v] = normals.GetValueOrDefault(v) + normal;
        }

        return [.. normals.OrderBy(n => pose.Heights[n.Key]).ThenBy(n => n.Key).Select(n => (n.Key, n.Value.Normalized()))];
    }

    /// <summary>Triangles with a corner below the height that are joined to the lowest vertex below it.</summary>
    private List<int> Below(double height)
    {
        var indices = pose.Mesh.Indices;
        var opposite = pose.Surface.Edges.Opposite;
        var taken = new HashSet<int> { first };
        var found = new List<int> { first };
        for (var next = 0; next < found.Count && found.Count < MostTriangles; next++)
        {
            for (var h = 3 * found[next]; h < (3 * found[next]) + 3; h++)
            {
                var other = opposite[h];
                if (other < 0 || (pose.Heights[indices[h]] >= height && pose.Heights[indices[EdgeAdjacency.Next(h)]] >= height)) continue;
                if (taken.Add(other / 3)) found.Add(other / 3);
            }
        }

        return found;
    }

    private double FractionBelow(int triangle, double height)
    {
        var corners = pose.Mesh.Indices.Slice(3 * triangle, 3);
        Span<double> h = [pose.Heights[corners[0]] - height, pose.Heights[corners[1]] - height, pose.Heights[corners[2]] - height];
        h.Sort();
        if (h[2] <= 0) return 1;
        if (h[0] >= 0) return 0;
        return h[1] > 0 ? h[0] * h[0] / ((h[1] - h[0]) * (h[2] - h[0])) : 1 - (h[2] * h[2] / ((h[2] - h[0]) * (h[2] - h[1])));
    }
}
