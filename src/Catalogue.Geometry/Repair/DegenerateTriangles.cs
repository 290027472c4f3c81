using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>Takes triangles without area out of a mesh without opening it.</summary>
/// <remarks>
/// One with a repeated corner has no edges and is dropped. Of one whose corners lie on a line the longest edge is drawn anew, from the
/// corner in its middle to the far corner of the neighbour: the neighbour's area is divided in two and nothing is left over. At an open edge
/// it is dropped. Where three triangles or more meet, or the new edge exists already, it stays. Slivers can lie beside slivers: rounds are made
/// until none is left or nothing changes, at most <see cref="MostRounds"/>. O(m) a round.
/// </remarks>
internal static class DegenerateTriangles
{
    private const int MostRounds = 16;

    /// <summary>As <see cref="Health.MeshHealth"/> judges: twice the area over the square of the longest edge.</summary>
    private const double Flatness = 1e-12;

    public static RepairStep Dropped(TriangleMesh mesh)
    {
        var places = new FirstPlaces();
        for (var round = 0; round < MostRounds; round++)
        {
            if (OneRound(mesh, places) is not { } next) break;
            mesh = next;
        }

        return new(mesh, places.Count, places.All);
    }

    private static TriangleMesh? OneRound(TriangleMesh mesh, FirstPlaces places)
    {
        var found = new List<int>();
        for (var t = 0; t < mesh.TriangleCount; t++)
            if (IsDegenerate(mesh, t)) found.Add(t);
        if (found.Count == 0) return null;
        var opposite = EdgeAdjacency.Of(mesh).Opposite;
        var existing = EdgesAt(mesh, found);
        var indices = mesh.Indices.ToArray();
        var touched = new HashSet<int>();
        var dropped = new HashSet<int>();
        foreach (var t in found)
        {
            if (touched.Contains(t)) continue;
            var h = LongestEdge(mesh, t);
            var other = opposite[h];
            var place = (mesh.Vertex(mesh.Indices[3 * t]) + mesh.Vertex(mesh.Indices[(3 * t) + 1]) + mesh.Vertex(mesh.Indices[(3 * t) + 2])) / 3;
            if (other is EdgeAdjacency.None or EdgeAdjacency.Boundary)
            {
                dropped.Add(t);
                touched.Add(t);
                places.Add(place);
                continue;
            }

            if (other < 0 || touched.Contains(other / 3)) continue;
            var (p, q, b) = (mesh.Indices[h], mesh.Indices[EdgeAdjacency.Next(h)], mesh.Indices[EdgeAdjacency.Previous(h)]);
            var d = mesh.Indices[EdgeAdjacency.Previous(other)];
            if (mesh.Indices[other] != q || d == b || !existing.Add(Key(b, d))) continue;
            Put(t, b, p, d);
            Put(other / 3, d, q, b);
            touched.Add(t);
            touched.Add(other / 3);
            places.Add(place);
        }

        if (touched.Count == 0) return null;
        return mesh.WithTriangles(dropped.Count == 0 ? indices : Without(indices, dropped));

        void Put(int t, int a, int b, int c) => (indices[3 * t], indices[(3 * t) + 1], indices[(3 * t) + 2]) = (a, b, c);
    }

    /// <summary>The triangles but for some, in their order.</summary>
    internal static int[] Without(int[] indices, HashSet<int> dropped)
    {
        var kept = new int[indices.Length - (3 * dropped.Count)];
        var at = 0;
        for (var t = 0; 3 * t < indices.Length; t++)
        {
            if (dropped.Contains(t)) continue;
            indices.AsSpan(3 * t, 3).CopyTo(kept.AsSpan(at));
            at += 3;
        }

        return kept;
    }

    private static bool IsDegenerate(TriangleMesh mesh, int t)
    {
        var (a, b, c) = mesh.Triangle(t);
        var longest = Math.Max(Math.Max((b - a).LengthSquared, (c - a).LengthSquared), (c - b).LengthSquared);
        return Vec3.Cross(b - a, c - a).Length <= Flatness * longest;
    }

    private static int LongestEdge(TriangleMesh mesh, int t)
    {
        var (a, b, c) = mesh.Triangle(t);
        double ab = (b - a).LengthSquared, bc = (c - b).LengthSquared, ca = (a - c).LengthSquared;
        return (3 * t) + (ab >= bc && ab >= ca ? 0 : bc >= ca ? 1 : 2);
    }

    /// <summary>All edges that end at a corner of these triangles.</summary>
    private static HashSet<(int, int)> EdgesAt(TriangleMesh mesh, List<int> triangles)
    {
        var corners = new bool[mesh.VertexCount];
        foreach (var t in triangles)
            for (var k = 0; k < 3; k++) corners[mesh.Indices[(3 * t) + k]] = true;
        var edges = new HashSet<(int, int)>();
        for (var h = 0; h < mesh.Indices.Length; h++)
        {
            var (from, to) = (mesh.Indices[h], mesh.Indices[EdgeAdjacency.Next(h)]);
            if (corners[from] || corners[to]) edges.Add(Key(from, to));
        }

        return edges;
    }

    private static (int, int) Key(int a, int b) => a < b ? (a, b) : (b, a);
}
