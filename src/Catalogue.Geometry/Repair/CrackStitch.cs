using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>Joins pairs of open edges that lie side by side, run against each other and have both ends within a tolerance.</summary>
/// <remarks>
/// The closest pairs first; ends are merged onto the vertex of lower number, and a pair is left alone when a vertex would move farther
/// than the tolerance. Edges no longer than the tolerance are never paired. Open edges are found by hashing their middles: O(k log k) for k
/// open edges; of more than <see cref="MostCandidates"/> edges in one place only as many are looked at.
/// Cracks whose sides are divided differently stay open.
/// </remarks>
internal static class CrackStitch
{
    private const int MostCandidates = 64;

    private readonly record struct Pair(double Distance, int First, int Second);

    public static RepairStep Of(TriangleMesh mesh, double toleranceMm)
    {
        var pairs = Pairs(mesh, EdgeAdjacency.Of(mesh), toleranceMm);
        if (pairs.Count == 0) return RepairStep.None(mesh);
        var joined = new VertexClusters(mesh, toleranceMm);
        var stitched = new HashSet<int>();
        var places = new FirstPlaces();
        foreach (var (_, first, second) in pairs.OrderBy(p => p.Distance).ThenBy(p => p.First).ThenBy(p => p.Second))
        {
            if (stitched.Contains(first) || stitched.Contains(second)) continue;
            var (a, b) = (mesh.Indices[first], mesh.Indices[EdgeAdjacency.Next(first)]);
            var (c, d) = (mesh.Indices[second], mesh.Indices[EdgeAdjacency.Next(second)]);
            if (!joined.CanJoin(a, d) || !joined.CanJoin(b, c)) continue;
            joined.Join(a, d);
            joined.Join(b, c);
            stitched.Add(first);
            stitched.Add(second);
            places.Add((mesh.Vertex(a) + mesh.Vertex(b)) * 0.5);
        }

        if (places.Count == 0) return RepairStep.None(mesh);
        var indices = mesh.Indices.ToArray();
        for (var i = 0; i < indices.Length; i++) indices[i] = joined.Root(indices[i]);
        return new(mesh.WithTriangles(indices), places.Count, places.All);
    }

    private static List<Pair> Pairs(TriangleMesh mesh, EdgeAdjacency edges, double tolerance)
    {
        var open = new List<int>();
        for (var h = 0; h < edges.Opposite.Length; h++)
            if (edges.Opposite[h] == EdgeAdjacency.Boundary && Vec3.Distance(Start(h), End(h)) > tolerance) open.Add(h);

        var cells = new Dictionary<(long, long, long), List<int>>();
        foreach (var h in open)
        {
            ref var cell = ref CollectionsMarshal.GetValueRefOrAddDefault(cells, Cell(Middle(h), 0, 0), out _);
            if ((cell ??= []).Count < MostCandidates) cell.Add(h);
        }

        var pairs = new List<Pair>();
        foreach (var h in open)
        {
            for (var corner = 0; corner < 8; corner++)
            {
                if (!cells.TryGetValue(Cell(Middle(h), corner, 0.5), out var cell)) continue;
                foreach (var other in cell)
                {
                    if (other <= h) continue;
                    var (one, two) = (Vec3.Distance(Start(h), End(other)), Vec3.Distance(End(h), Start(other)));
                    if (Math.Max(one, two) <= tolerance) pairs.Add(new(one + two, h, other));
                }
            }
        }

        return pairs;

        Vec3 Start(int h) => mesh.Vertex(mesh.Indices[h]);
        Vec3 End(int h) => mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(h)]);
        Vec3 Middle(int h) => (Start(h) + End(h)) * 0.5;
        (long, long, long) Cell(Vec3 p, int corner, double shift)
        {
            var size = 2 * tolerance;
            return ((long)Math.Floor((p.X / size) - shift) + (corner & 1),
                (long)Math.Floor((p.Y / size) - shift) + ((corner >> 1) & 1),
                (long)Math.Floor((p.Z / size) - shift) + (corner >> 2));
        }
    }

    /// <summary>Vertices merged onto the lowest of them, none farther from it than the tolerance.</summary>
    private sealed class VertexClusters(TriangleMesh mesh, double tolerance)
    {
        private readonly int[] _parents = [.. Enumerable.Range(0, mesh.VertexCount)];
        private readonly Dictionary<int, double> _radii = [];

        public int Root(int v)
        {
            while (_parents[v] != v) v = _parents[v] = _parents[_parents[v]];
            return v;
        }

        public bool CanJoin(int a, int b)
        {
            var (low, high) = Roots(a, b);
            return low == high || Reach(low, high) <= tolerance;
        }

        public void Join(int a, int b)
        {
            var (low, high) = Roots(a, b);
            if (low == high) return;
            _radii[low] = Math.Max(_radii.GetValueOrDefault(low), Reach(low, high));
            _parents[high] = low;
        }

        /// <summary>A bound on how far the vertices of the one are from the other.</summary>
        private double Reach(int low, int high) => Vec3.Distance(mesh.Vertex(low), mesh.Vertex(high)) + _radii.GetValueOrDefault(high);

        private (int Low, int High) Roots(int a, int b)
        {
            var (one, two) = (Root(a), Root(b));
            return one < two ? (one, two) : (two, one);
        }
    }
}
