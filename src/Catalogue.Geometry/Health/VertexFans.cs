using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Health;

/// <summary>How many vertices are used, by each shell and in all, and at which the triangles form more than one fan. O(m).</summary>
/// <remarks>
/// From one corner of the vertex the walk crosses edges of exactly two triangles, both ways round; it must meet all the
/// corners there are. Triangles may disagree about which side is out: the walk does not look at it.
/// </remarks>
internal sealed class VertexFans
{
    private readonly int[] _perShell;
    private readonly List<int> _severalFans = [];

    private VertexFans(int shells) => _perShell = new int[shells];

    public int UsedVertices { get; private set; }

    public int NonManifoldVertices => _severalFans.Count;

    /// <summary>The first vertices of several fans.</summary>
    public IEnumerable<int> Places => _severalFans.Take(MeshHealth.MostPlaces);

    public int VerticesOf(int shell) => _perShell[shell];

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static VertexFans Of(TriangleMesh mesh, EdgeAdjacency edges, ReadOnlySpan<int> shellOf, int shells)
    {
        var fans = new VertexFans(shells);
        var indices = mesh.Indices;
        var opposite = edges.Opposite;
        var corners = new int[mesh.VertexCount];
        var corner = new int[mesh.VertexCount];
        for (var h = 0; h < indices.Length; h++)
        {
            if (opposite[h] == EdgeAdjacency.None) continue;
            corners[indices[h]]++;
            corner[indices[h]] = h;
        }

        for (var v = 0; v < corners.Length; v++)
        {
            if (corners[v] == 0) continue;
            fans.UsedVertices++;
            if (Reached(indices, opposite, v, corner[v], corners[v]) == corners[v]) fans._perShell[shellOf[corner[v] / 3]]++;
            else fans._severalFans.Add(v);
        }

        if (fans._severalFans.Count > 0) fans.CountShells(mesh, edges, shellOf);
        return fans;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Reached(ReadOnlySpan<int> indices, ReadOnlySpan<int> opposite, int vertex, int corner, int all)
    {
        var reached = 1;
        var edge = corner;
        while (true)
        {
            var other = opposite[edge];
            if (other < 0) break;
            edge = indices[other] == vertex ? EdgeAdjacency.Previous(other) : EdgeAdjacency.Next(other);
            if (edge == corner || edge == EdgeAdjacency.Previous(corner) || reached == all) return reached;
            reached++;
        }

        edge = EdgeAdjacency.Previous(corner);
        while (reached < all)
        {
            var other = opposite[edge];
            if (other < 0) break;
            edge = indices[other] == vertex ? EdgeAdjacency.Previous(other) : EdgeAdjacency.Next(other);
            reached++;
        }

        return reached;
    }

    /// <summary>A vertex of several fans counts once for every shell that uses it.</summary>
    private void CountShells(TriangleMesh mesh, EdgeAdjacency edges, ReadOnlySpan<int> shellOf)
    {
        var several = new HashSet<int>(_severalFans);
        var counted = new HashSet<(int, int)>();
        for (var h = 0; h < mesh.Indices.Length; h++)
        {
            if (edges.Opposite[h] == EdgeAdjacency.None || !several.Contains(mesh.Indices[h])) continue;
            if (counted.Add((mesh.Indices[h], shellOf[h / 3]))) _perShell[shellOf[h / 3]]++;
        }
    }
}
