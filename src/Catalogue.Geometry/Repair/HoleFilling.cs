using System.Runtime.InteropServices;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>Closes small planar holes with triangles between the vertices of their rims; no vertex is added or moved.</summary>
/// <remarks>
/// A hole is a ring of open edges; where rings touch at a vertex, each goes on across the narrowest gap. It is filled when it is small and flat enough, its rim does not cross itself, no new
/// edge exists already, and it is not what surrounds a flat sheet: the shell must have half as much area again as the filling. O(m + rims).
/// </remarks>
internal static class HoleFilling
{
    /// <summary>Area of the shell over that of the filling, below which the rim is the border of a sheet and not of a hole.</summary>
    private const double LeastShell = 1.5;

    /// <summary>At a vertex where more pieces of surface meet, rims are not followed.</summary>
    private const int MostFans = 64;

    public static RepairStep Of(TriangleMesh mesh, MeshHealth health, RepairOptions options)
    {
        var rims = Rims(mesh, EdgeAdjacency.Of(mesh).Opposite).FindAll(r => IsSmallAndFlat(mesh, r, options));
        if (rims.Count == 0) return RepairStep.None(mesh);
        var existing = EdgesAmong(mesh, rims);
        var cutter = new PolygonTriangulation();
        var added = new List<int>();
        var places = new FirstPlaces();
        foreach (var rim in rims)
        {
            var corners = rim.ConvertAll(h => mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(h)])).ToArray();
            var cut = new int[3 * (corners.Length - 2)];
            if (!cutter.Cut(corners, cut)) continue;
            for (var i = 0; i < cut.Length; i++) cut[i] = mesh.Indices[EdgeAdjacency.Next(rim[cut[i]])];
            var shell = health.Shells[health.ShellOfTriangle.Span[rim[0] / 3]];
            if (shell.AreaMm2 < LeastShell * AreaOf(mesh, cut) || !TakeEdges(cut, rim, mesh, existing)) continue;
            added.AddRange(cut);
            places.Add(corners.Aggregate(Vec3.Zero, (sum, p) => sum + p) / corners.Length);
        }

        return places.Count == 0
            ? RepairStep.None(mesh)
            : new(mesh.WithTriangles([.. mesh.Indices, .. added]), places.Count, places.All);
    }

    /// <summary>Rings of open half-edges, each listed against its run: as the edges of the filling follow each other.</summary>
    private static List<List<int>> Rims(TriangleMesh mesh, ReadOnlySpan<int> opposite)
    {
        var open = new List<int>();
        var endingAt = new Dictionary<int, List<int>>();
        for (var h = 0; h < opposite.Length; h++)
        {
            if (opposite[h] != EdgeAdjacency.Boundary) continue;
            open.Add(h);
            ref var ending = ref CollectionsMarshal.GetValueRefOrAddDefault(endingAt, mesh.Indices[EdgeAdjacency.Next(h)], out _);
            (ending ??= []).Add(h);
        }

        var rims = new List<List<int>>();
        var seen = new HashSet<int>();
        foreach (var first in open)
        {
            if (!seen.Add(first)) continue;
            var rim = new List<int>();
            var h = first;
            do
            {
                rim.Add(h);
                h = Following(mesh, opposite, h, endingAt);
            }
            while (h >= 0 && seen.Add(h));
            if (h == first && rim.Count is >= 3 and <= PolygonTriangulation.MostCorners) rims.Add(rim);
        }

        return rims;
    }

    /// <summary>The open half-edge that ends where this one starts; where several do, the one across the narrowest gap. −1 for none.</summary>
    private static int Following(TriangleMesh mesh, ReadOnlySpan<int> opposite, int h, Dictionary<int, List<int>> endingAt)
    {
        if (!endingAt.TryGetValue(mesh.Indices[h], out var ending) || ending.Count > MostFans) return -1;
        if (ending.Count == 1) return ending[0];
        var corner = mesh.Vertex(mesh.Indices[h]);
        var ahead = (mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(h)]) - corner).Normalized();
        var own = LastOfFan(mesh, opposite, h);
        var (best, most) = (-1, double.NegativeInfinity);
        foreach (var other in ending)
        {
            var cosine = Vec3.Dot(ahead, (mesh.Vertex(mesh.Indices[other]) - corner).Normalized());
            if (other != own && cosine > most) (best, most) = (other, cosine);
        }

        return best;
    }

    /// <summary>The other open half-edge of the triangles around the start of this one, joined edge to edge; −1 when they disagree about their sides.</summary>
    private static int LastOfFan(TriangleMesh mesh, ReadOnlySpan<int> opposite, int h)
    {
        var vertex = mesh.Indices[h];
        for (var around = h; ;)
        {
            var last = EdgeAdjacency.Previous(around);
            around = opposite[last];
            if (around == EdgeAdjacency.Boundary) return last;
            if (around < 0 || mesh.Indices[around] != vertex || around == h) return -1;
        }
    }

    private static bool IsSmallAndFlat(TriangleMesh mesh, List<int> rim, RepairOptions options)
    {
        var box = BoundingBox.Empty;
        foreach (var h in rim) box = box.Including(mesh.Vertex(mesh.Indices[h]));
        if (!(box.Size.Length <= options.HoleMm)) return false;
        var centre = box.Center;
        var normal = Vec3.Zero;
        foreach (var h in rim) normal += Vec3.Cross(mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(h)]) - centre, mesh.Vertex(mesh.Indices[h]) - centre);
        normal = normal.Normalized();
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var h in rim)
        {
            var height = Vec3.Dot(mesh.Vertex(mesh.Indices[h]) - centre, normal);
            (low, high) = (Math.Min(low, height), Math.Max(high, height));
        }

        return normal != Vec3.Zero && high - low <= 2 * options.FlatWithinMm;
    }

    /// <summary>All edges between vertices of the rims.</summary>
    private static HashSet<(int, int)> EdgesAmong(TriangleMesh mesh, List<List<int>> rims)
    {
        var onRim = new bool[mesh.VertexCount];
        foreach (var h in rims.SelectMany(r => r)) onRim[mesh.Indices[h]] = true;
        var edges = new HashSet<(int, int)>();
        for (var h = 0; h < mesh.Indices.Length; h++)
        {
            var (from, to) = (mesh.Indices[h], mesh.Indices[EdgeAdjacency.Next(h)]);
            if (onRim[from] && onRim[to]) edges.Add(Key(from, to));
        }

        return edges;
    }

    /// <summary>Takes note of the inner edges of a filling; false, and none taken, when one of them is there already.</summary>
    private static bool TakeEdges(int[] triangles, List<int> rim, TriangleMesh mesh, HashSet<(int, int)> existing)
    {
        var border = rim.Select(h => Key(mesh.Indices[h], mesh.Indices[EdgeAdjacency.Next(h)])).ToHashSet();
        var inner = new HashSet<(int, int)>();
        for (var h = 0; h < triangles.Length; h++)
        {
            var edge = Key(triangles[h], triangles[EdgeAdjacency.Next(h)]);
            if (!border.Contains(edge)) inner.Add(edge);
        }

        if (inner.Overlaps(existing)) return false;
        existing.UnionWith(inner);
        return true;
    }

    private static double AreaOf(TriangleMesh mesh, int[] triangles)
    {
        var area = 0.0;
        for (var i = 0; i < triangles.Length; i += 3)
        {
            var a = mesh.Vertex(triangles[i]);
            area += Vec3.Cross(mesh.Vertex(triangles[i + 1]) - a, mesh.Vertex(triangles[i + 2]) - a).Length / 2;
        }

        return area;
    }

    private static (int, int) Key(int a, int b) => a < b ? (a, b) : (b, a);
}
