using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Tests;

/// <summary>An independent look at a mesh, by exact position: which edges are open, shared by more than two triangles, or run the same way twice.</summary>
public sealed class EdgeCheck
{
    private EdgeCheck(int open, int crowded, int sameWay, int degenerate, IReadOnlyList<Shell> shells) =>
        (OpenEdges, CrowdedEdges, SameWayEdges, DegenerateTriangles, Shells) = (open, crowded, sameWay, degenerate, shells);

    public sealed record Shell(int Triangles, double VolumeMm3, BoundingBox Bounds);

    public int OpenEdges { get; }
    public int CrowdedEdges { get; }
    public int SameWayEdges { get; }

    /// <summary>Two equal corners after welding.</summary>
    public int DegenerateTriangles { get; }

    /// <summary>Connected pieces, largest enclosed volume first; a void is negative.</summary>
    public IReadOnlyList<Shell> Shells { get; }

    public static EdgeCheck Of(TriangleMesh mesh)
    {
        var weld = new Dictionary<(float, float, float), int>();
        var id = new int[mesh.VertexCount];
        for (var i = 0; i < id.Length; i++)
        {
            var v = mesh.Vertices[i];
            var key = (v.X, v.Y, v.Z);
            if (!weld.TryGetValue(key, out id[i])) id[i] = weld[key] = weld.Count;
        }

        var edges = new Dictionary<(int, int), (int Forward, int Backward)>();
        var parent = Enumerable.Range(0, weld.Count).ToArray();
        var degenerate = 0;
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (a, b, c) = (id[mesh.Indices[3 * t]], id[mesh.Indices[(3 * t) + 1]], id[mesh.Indices[(3 * t) + 2]]);
            if (a == b || b == c || c == a) degenerate++;
            foreach (var (p, q) in new[] { (a, b), (b, c), (c, a) })
            {
                var key = p < q ? (p, q) : (q, p);
                var (forward, backward) = edges.GetValueOrDefault(key);
                edges[key] = p < q ? (forward + 1, backward) : (forward, backward + 1);
                parent[Root(p)] = Root(q);
            }
        }

        var volumes = new Dictionary<int, (int Count, double Volume, BoundingBox Box)>();
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            var root = Root(id[mesh.Indices[3 * t]]);
            var (count, volume, box) = volumes.GetValueOrDefault(root, (0, 0.0, BoundingBox.Empty));
            volumes[root] = (count + 1, volume + (Vec3.Dot(a, Vec3.Cross(b, c)) / 6), box.Including(a).Including(b).Including(c));
        }

        var shells = volumes.Values.OrderByDescending(v => v.Volume).Select(v => new Shell(v.Count, v.Volume, v.Box)).ToList();
        return new(
            edges.Values.Count(e => e.Forward + e.Backward == 1),
            edges.Values.Count(e => e.Forward + e.Backward > 2),
            edges.Values.Count(e => e.Forward + e.Backward == 2 && e.Forward != 1),
            degenerate,
            shells);

        int Root(int i)
        {
            while (parent[i] != i) i = parent[i] = parent[parent[i]];
            return i;
        }
    }
}
