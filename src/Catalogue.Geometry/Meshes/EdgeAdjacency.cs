using System.Runtime.CompilerServices;

namespace Catalogue.Geometry.Meshes;

/// <summary>
/// Which triangles meet at each edge. Half-edge 3 · t + k runs from corner k of triangle t to its next corner; a triangle
/// with a repeated corner has no edges here, it spans nothing.
/// </summary>
/// <remarks>
/// Half-edges are put in buckets by their lower vertex (counting sort), each bucket is ordered by the higher one, and
/// equal neighbours are the half-edges of one edge: O(m) time for bounded valence, O(m log m) at worst; 16 bytes per
/// half-edge while it works, 4 to keep. Immutable once made.
/// </remarks>
public sealed class EdgeAdjacency
{
    /// <summary>In <see cref="Opposite"/>: nothing on the other side.</summary>
    public const int Boundary = -1;

    /// <summary>In <see cref="Opposite"/>: three or more triangles meet here.</summary>
    public const int NonManifold = -2;

    /// <summary>In <see cref="Opposite"/>: the triangle has a repeated corner.</summary>
    public const int None = -3;

    private readonly int[] _opposite;
    private readonly List<int> _nonManifold = [];
    private readonly List<int> _nonManifoldStarts = [0];

    private EdgeAdjacency(int[] opposite) => _opposite = opposite;

    /// <summary>For each half-edge the half-edge on the other side, where exactly two triangles meet; else <see cref="Boundary"/>, <see cref="NonManifold"/> or <see cref="None"/>.</summary>
    public ReadOnlySpan<int> Opposite => _opposite;

    /// <summary>Edges of any kind.</summary>
    public int Edges { get; private set; }

    public int BoundaryEdges { get; private set; }

    public int NonManifoldEdges => _nonManifoldStarts.Count - 1;

    /// <summary>Edges whose triangles do not run along it in turn: neighbours that disagree about which side is out.</summary>
    public int DisorientedEdges { get; private set; }

    /// <summary>Edges with an odd number of triangles: where a surface ends.</summary>
    public int OddEdges { get; private set; }

    /// <summary>Triangles with the same three corners as an earlier one, whichever way round.</summary>
    public int DuplicateTriangles { get; private set; }

    /// <summary>The half-edges at one of the <see cref="NonManifoldEdges"/>.</summary>
    public ReadOnlySpan<int> NonManifoldEdge(int edge) =>
        System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_nonManifold)[_nonManifoldStarts[edge].._nonManifoldStarts[edge + 1]];

    /// <summary>The next half-edge around the same triangle.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Next(int halfEdge) => halfEdge % 3 == 2 ? halfEdge - 2 : halfEdge + 1;

    /// <summary>The half-edge before it around the same triangle.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Previous(int halfEdge) => halfEdge % 3 == 0 ? halfEdge + 2 : halfEdge - 1;

    public static EdgeAdjacency Of(TriangleMesh mesh, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var indices = mesh.Indices;
        var adjacency = new EdgeAdjacency(GC.AllocateUninitializedArray<int>(indices.Length));
        var (ends, entries) = Bucketed(indices, mesh.VertexCount, adjacency._opposite);
        cancel.ThrowIfCancellationRequested();
        adjacency.Match(indices, ends, entries);
        return adjacency;
    }

    /// <summary>
    /// Entries (higher vertex, half-edge, whether it runs upward) of each lower vertex; <c>ends[v]</c> is the end of
    /// v's bucket, which starts where that of v − 1 ends.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static (int[] Ends, ulong[] Entries) Bucketed(ReadOnlySpan<int> indices, int vertices, int[] opposite)
    {
        var ends = new int[vertices + 1];
        for (var i = 0; i + 2 < indices.Length; i += 3)
        {
            var (a, b, c) = (indices[i], indices[i + 1], indices[i + 2]);
            if (a == b || b == c || c == a) continue;
            ends[Math.Min(a, b)]++;
            ends[Math.Min(b, c)]++;
            ends[Math.Min(c, a)]++;
        }

        var total = 0;
        for (var v = 0; v <= vertices; v++) (ends[v], total) = (total, total + ends[v]);
        var entries = GC.AllocateUninitializedArray<ulong>(total);
        for (var i = 0; i + 2 < indices.Length; i += 3)
        {
            var (a, b, c) = (indices[i], indices[i + 1], indices[i + 2]);
            if (a == b || b == c || c == a)
            {
                opposite[i] = opposite[i + 1] = opposite[i + 2] = None;
                continue;
            }

            Put(a, b, i);
            Put(b, c, i + 1);
            Put(c, a, i + 2);
        }

        return (ends, entries);

        void Put(int from, int to, int halfEdge)
        {
            var (low, high) = from < to ? (from, to) : (to, from);
            entries[ends[low]++] = ((ulong)high << 32) | ((uint)halfEdge << 1) | (from < to ? 1u : 0u);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Match(ReadOnlySpan<int> indices, int[] ends, ulong[] entries)
    {
        var start = 0;
        for (var low = 0; low < ends.Length - 1; low++)
        {
            var bucket = entries.AsSpan(start, ends[low] - start);
            start = ends[low];
            if (bucket.Length > 24) bucket.Sort();
            else Insert(bucket);
            for (var i = 0; i < bucket.Length;)
            {
                var (end, high) = (i + 1, bucket[i] >> 32);
                while (end < bucket.Length && bucket[end] >> 32 == high) end++;
                Edges++;
                if (end - i == 2) Pair(indices, bucket[i], bucket[i + 1], (int)high);
                else Group(indices, bucket[i..end], (int)high);
                i = end;
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Pair(ReadOnlySpan<int> indices, ulong first, ulong second, int high)
    {
        var (a, b) = (HalfEdge(first), HalfEdge(second));
        _opposite[a] = b;
        _opposite[b] = a;
        if (((first ^ second) & 1) == 0) DisorientedEdges++;
        var third = Apex(indices, a);
        if (third > high && third == Apex(indices, b)) DuplicateTriangles++;
    }

    private void Group(ReadOnlySpan<int> indices, ReadOnlySpan<ulong> group, int high)
    {
        if ((group.Length & 1) == 1) OddEdges++;
        if (group.Length == 1)
        {
            BoundaryEdges++;
            _opposite[HalfEdge(group[0])] = Boundary;
            return;
        }

        var upward = 0;
        var apexes = new List<int>(group.Length);
        foreach (var entry in group)
        {
            var h = HalfEdge(entry);
            upward += (int)(entry & 1);
            _opposite[h] = NonManifold;
            _nonManifold.Add(h);
            if (Apex(indices, h) is var apex && apex > high) apexes.Add(apex);
        }

        _nonManifoldStarts.Add(_nonManifold.Count);
        if (Math.Abs((2 * upward) - group.Length) > 1) DisorientedEdges++;

        // The two lower corners of a triangle name one of its edges: there, and only there, copies of it are looked for.
        apexes.Sort();
        for (var i = 1; i < apexes.Count; i++)
            if (apexes[i] == apexes[i - 1]) DuplicateTriangles++;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int HalfEdge(ulong entry) => (int)((uint)entry >> 1);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Apex(ReadOnlySpan<int> indices, int halfEdge) => indices[Previous(halfEdge)];

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Insert(Span<ulong> bucket)
    {
        for (var i = 1; i < bucket.Length; i++)
        {
            var entry = bucket[i];
            var j = i - 1;
            for (; j >= 0 && bucket[j] > entry; j--) bucket[j + 1] = bucket[j];
            bucket[j + 1] = entry;
        }
    }
}
