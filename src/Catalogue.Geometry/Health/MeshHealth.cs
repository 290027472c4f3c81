using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Health;

/// <summary>Whether a mesh is a sound description of a solid, and where it is not. Self-intersections are a check of their own.</summary>
/// <remarks>
/// Input: n vertices in mm, m triangles, any condition. O(m) time for bounded valence plus, for several closed shells, the
/// nesting (see <see cref="ShellNesting"/>); about 40 bytes per triangle while it works. A large mesh in random order is sorted first
/// (<see cref="CoherentOrder"/>): that is far cheaper than the cache misses. Deterministic; thread-safe.
/// Cells and Euler characteristic as in any textbook of combinatorial topology.
/// </remarks>
public sealed record MeshHealth
{
    /// <summary>Places kept per kind of fault.</summary>
    public const int MostPlaces = 16;

    public required int Triangles { get; init; }

    public required int Vertices { get; init; }

    public required IReadOnlyList<Shell> Shells { get; init; }

    /// <summary>The shell of each triangle; −1 for a triangle with a repeated corner.</summary>
    public required ReadOnlyMemory<int> ShellOfTriangle { get; init; }

    /// <summary>Every edge has an even number of triangles, and there is at least one.</summary>
    public required bool Closed { get; init; }

    /// <summary>No edge has more than two triangles and around every vertex they form a single fan. Open edges are allowed.</summary>
    public bool Manifold => NonManifoldEdges == 0 && NonManifoldVertices == 0;

    /// <summary>Neighbouring triangles agree about which side is out.</summary>
    public bool Oriented => DisorientedEdges == 0;

    /// <summary>Edges of a single triangle.</summary>
    public required int BoundaryEdges { get; init; }

    /// <summary>Edges of three triangles or more.</summary>
    public required int NonManifoldEdges { get; init; }

    /// <summary>Vertices whose triangles form several fans, the ends of non-manifold edges among them.</summary>
    public required int NonManifoldVertices { get; init; }

    public required int DisorientedEdges { get; init; }

    /// <summary>Triangles without area: a corner repeated, or all three on one line to rounding.</summary>
    public required int DegenerateTriangles { get; init; }

    /// <summary>Triangles with the same corners as an earlier one, whichever way round.</summary>
    public required int DuplicateTriangles { get; init; }

    /// <summary>V − E + F over everything that triangles without a repeated corner use.</summary>
    public required int EulerCharacteristic { get; init; }

    /// <summary>Middles of the first open edges, at most <see cref="MostPlaces"/>.</summary>
    public required IReadOnlyList<Vec3> BoundaryPlaces { get; init; }

    /// <summary>Middles of the first edges of three triangles or more.</summary>
    public required IReadOnlyList<Vec3> NonManifoldEdgePlaces { get; init; }

    /// <summary>The first vertices of several fans.</summary>
    public required IReadOnlyList<Vec3> NonManifoldVertexPlaces { get; init; }

    /// <summary>Middles of the first triangles without area.</summary>
    public required IReadOnlyList<Vec3> DegeneratePlaces { get; init; }

    /// <summary>Separate pieces of material: outermost solids and islands inside voids.</summary>
    public int Solids => Shells.Count(s => s.Kind == ShellKind.Solid);

    /// <summary>True when it is clear what is inside: closed, consistently oriented, no piece inside out.</summary>
    public bool HasInside => Closed && Oriented && Shells.All(s => s.Kind != ShellKind.InsideOut);

    /// <summary>Closed holes inside material.</summary>
    public int Voids => Shells.Count(s => s.Kind == ShellKind.Void);

    public static MeshHealth Of(TriangleMesh mesh, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        if (!CoherentOrder.Pays(mesh)) return InOrder(mesh, cancel);
        var order = CoherentOrder.Of(mesh);
        cancel.ThrowIfCancellationRequested();
        return InOrder(order.Mesh, cancel).Renumbered(mesh, order.Original);
    }

    private static MeshHealth InOrder(TriangleMesh mesh, CancellationToken cancel)
    {
        var edges = EdgeAdjacency.Of(mesh, cancel);
        cancel.ThrowIfCancellationRequested();
        var (shellOf, shellCount) = ShellLabels.Of(mesh, edges);
        cancel.ThrowIfCancellationRequested();
        var fans = VertexFans.Of(mesh, edges, shellOf, shellCount);
        cancel.ThrowIfCancellationRequested();
        var (shells, degenerate, degeneratePlaces) = ShellMeasures.Of(mesh, edges, shellOf, shellCount, fans);
        ShellNesting.Nest(mesh, shellOf, shells, cancel);
        return new()
        {
            Triangles = mesh.TriangleCount,
            Vertices = mesh.VertexCount,
            Shells = shells,
            ShellOfTriangle = shellOf,
            Closed = edges.OddEdges == 0 && edges.Edges > 0,
            BoundaryEdges = edges.BoundaryEdges,
            NonManifoldEdges = edges.NonManifoldEdges,
            NonManifoldVertices = fans.NonManifoldVertices,
            DisorientedEdges = edges.DisorientedEdges,
            DegenerateTriangles = degenerate,
            DuplicateTriangles = edges.DuplicateTriangles,
            EulerCharacteristic = fans.UsedVertices - edges.Edges + shells.Sum(s => s.Triangles),
            BoundaryPlaces = BoundaryMiddles(mesh, edges),
            NonManifoldEdgePlaces = [.. Enumerable.Range(0, Math.Min(MostPlaces, edges.NonManifoldEdges)).Select(e => Middle(mesh, edges.NonManifoldEdge(e)[0]))],
            NonManifoldVertexPlaces = [.. fans.Places.Select(mesh.Vertex)],
            DegeneratePlaces = degeneratePlaces,
        };
    }

    /// <summary>What was found of the same triangles in another order, as said of <paramref name="mesh"/>.</summary>
    /// <param name="original">For each triangle of that order its number in the mesh.</param>
    private MeshHealth Renumbered(TriangleMesh mesh, ReadOnlySpan<int> original)
    {
        var shellOf = new int[original.Length];
        for (var t = 0; t < original.Length; t++) shellOf[original[t]] = ShellOfTriangle.Span[t];
        var number = new int[Shells.Count];
        Array.Fill(number, -1);
        var next = 0;
        foreach (ref var shell in shellOf.AsSpan())
        {
            if (shell < 0) continue;
            if (number[shell] < 0) number[shell] = next++;
            shell = number[shell];
        }

        var shells = new Shell[Shells.Count];
        for (var s = 0; s < shells.Length; s++)
            shells[number[s]] = Shells[s] with { Parent = Shells[s].Parent < 0 ? -1 : number[Shells[s].Parent] };
        return this with { Vertices = mesh.VertexCount, Shells = shells, ShellOfTriangle = shellOf };
    }

    private static List<Vec3> BoundaryMiddles(TriangleMesh mesh, EdgeAdjacency edges)
    {
        var places = new List<Vec3>();
        if (edges.BoundaryEdges == 0) return places;
        for (var h = 0; h < edges.Opposite.Length && places.Count < MostPlaces; h++)
            if (edges.Opposite[h] == EdgeAdjacency.Boundary) places.Add(Middle(mesh, h));
        return places;
    }

    private static Vec3 Middle(TriangleMesh mesh, int halfEdge) =>
        (mesh.Vertex(mesh.Indices[halfEdge]) + mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(halfEdge)])) * 0.5;
}
