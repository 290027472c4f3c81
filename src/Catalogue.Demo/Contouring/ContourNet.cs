using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Contouring;

/// <summary>
/// The smallest grid edges that pass through the surface, the leaves around each, and the loops these edges form on the boundary of each leaf.
/// </summary>
/// <remarks>
/// A place around an edge is numbered 4 · edge + slot; slots run counter-clockwise seen from the edge's far end. A leaf that fills two slots
/// counts at the first. Places joined across faces form one loop on one leaf; <see cref="Loop"/> gives its representative.
/// </remarks>
internal sealed class ContourNet
{
    private readonly ContourTree _tree;
    private readonly GridTable<int> _edgeByKey = new();
    private readonly List<(int X, int Y, int Z, int Axis, int Length)> _edges = [];
    private readonly List<Crossing> _crossings = [];
    private readonly List<bool> _startsInside = [];
    private readonly List<int> _leaves = [];
    private readonly List<FaceSegment> _segments = [];
    private int[] _segmentAfter = [];
    private int[] _joined = [];

    public ContourNet(ContourTree tree)
    {
        _tree = tree;
        FindEdges();
        JoinAcrossFaces();
    }

    /// <summary>A piece of a leaf face's cut line, from one edge's crossing to another's.</summary>
    /// <param name="EdgeA">An edge on the face's rim.</param>
    /// <param name="EdgeB">The edge it is joined to.</param>
    /// <param name="X">Low corner of the face, grid coordinates.</param>
    /// <param name="Y">See <paramref name="X"/>.</param>
    /// <param name="Z">See <paramref name="X"/>.</param>
    /// <param name="Axis">The direction across the face.</param>
    /// <param name="Size">Side of the face.</param>
    /// <param name="Twin">The face has another segment, so two mesh edges could fall together.</param>
    public readonly record struct FaceSegment(int EdgeA, int EdgeB, int X, int Y, int Z, int Axis, int Size, bool Twin);

    public int EdgeCount => _edges.Count;
    public IReadOnlyList<FaceSegment> Segments => _segments;

    public Crossing CrossingOf(int edge) => _crossings[edge];

    /// <summary>True when the surface is left along the edge's axis.</summary>
    public bool StartsInside(int edge) => _startsInside[edge];

    /// <summary>The edge's ends in mm, the one inside the shape first.</summary>
    public (Vec3 Inner, Vec3 Outer) Ends(int edge)
    {
        var (x, y, z, axis, length) = _edges[edge];
        var (bx, by, bz) = ContourTree.Step(x, y, z, axis, length);
        var (a, b) = (_tree.Position(x, y, z), _tree.Position(bx, by, bz));
        return _startsInside[edge] ? (a, b) : (b, a);
    }

    public int Leaf(int place) => _leaves[place];

    /// <summary>The segment between a place and the next around its edge; −1 where both are the same leaf.</summary>
    public int SegmentAfter(int place) => _segmentAfter[place];

    /// <summary>The representative place of the loop that passes through <paramref name="place"/>.</summary>
    public int Loop(int place)
    {
        place = First(place);
        while (_joined[place] != place)
        {
            _joined[place] = _joined[_joined[place]];
            place = _joined[place];
        }

        return place;
    }

    /// <summary>The first slot around the edge that the place's leaf fills.</summary>
    public int First(int place)
    {
        var start = place & ~3;
        for (var i = start; i < place; i++)
        {
            if (_leaves[i] == _leaves[place]) return i;
        }

        return place;
    }

    private void FindEdges()
    {
        foreach (var leaf in _tree.SurfaceLeaves)
        {
            var (x, y, z, size) = _tree.Cell(leaf);
            for (var axis = 0; axis < 3; axis++)
            {
                for (var i = 0; i < 4; i++)
                {
                    var (u, v) = ((i & 1) * size, (i >> 1) * size);
                    var (ex, ey, ez) = axis switch { 0 => (x, y + u, z + v), 1 => (x + v, y, z + u), _ => (x + u, y + v, z) };
                    AddIfSmallest(leaf, ex, ey, ez, axis, size);
                }
            }
        }
    }

    private void AddIfSmallest(int leaf, int x, int y, int z, int axis, int size)
    {
        var (bx, by, bz) = ContourTree.Step(x, y, z, axis, size);
        var inside = _tree.IsInside(x, y, z);
        if (inside == _tree.IsInside(bx, by, bz)) return;
        var (mx, my, mz) = ContourTree.Step(x, y, z, axis, size / 2);
        if (size > 1 && _tree.IsKnownCorner(mx, my, mz)) return; // finer leaves around: theirs count
        if (!_edgeByKey.TryAdd(ContourTree.EdgeKey(x, y, z, axis, size), _edges.Count)) return;
        _edges.Add((x, y, z, axis, size));
        _crossings.Add(_tree.CrossingOn(_tree.ShapeIn(leaf), x, y, z, axis, size));
        _startsInside.Add(inside);
        var (cx, cy, cz) = ContourTree.Step(2 * x, 2 * y, 2 * z, axis, size);
        ReadOnlySpan<(int U, int V)> slots = [(1, 1), (-1, 1), (-1, -1), (1, -1)];
        foreach (var (u, v) in slots)
        {
            _leaves.Add(axis switch
            {
                0 => _tree.Locate(cx, cy + u, cz + v),
                1 => _tree.Locate(cx + v, cy, cz + u),
                _ => _tree.Locate(cx + u, cy + v, cz),
            });
        }
    }

    private void JoinAcrossFaces()
    {
        _joined = new int[_leaves.Count];
        for (var i = 0; i < _joined.Length; i++) _joined[i] = i;
        _segmentAfter = new int[_leaves.Count];
        Array.Fill(_segmentAfter, -1);
        var seen = new HashSet<int>();
        var rim = new List<(int Edge, bool Enters)>(8);
        foreach (var leaf in _leaves)
        {
            if (!seen.Add(leaf)) continue;
            var (x, y, z, size) = _tree.Cell(leaf);
            for (var axis = 0; axis < 3; axis++)
            {
                for (var side = 0; side < 2; side++)
                {
                    var (cx, cy, cz) = ((2 * x) + size, (2 * y) + size, (2 * z) + size);
                    var (nx, ny, nz) = ContourTree.Step(cx, cy, cz, axis, side == 0 ? -size - 1 : size + 1);
                    var neighbour = _tree.Locate(nx, ny, nz);
                    if (neighbour < 0) continue;
                    var other = _tree.Cell(neighbour).Size;
                    if (other < size || (other == size && side == 0)) continue; // the finer leaf's face, or the other's turn
                    var (fx, fy, fz) = ContourTree.Step(x, y, z, axis, side * size);
                    JoinFace(leaf, neighbour, fx, fy, fz, axis, size, rim);
                }
            }
        }
    }

    private void JoinFace(int leaf, int neighbour, int x, int y, int z, int axis, int size, List<(int Edge, bool Enters)> rim)
    {
        var (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
        var (ux, uy, uz) = ContourTree.Step(x, y, z, u, size);
        var (vx, vy, vz) = ContourTree.Step(x, y, z, v, size);
        rim.Clear();
        Collect(x, y, z, u, size, forward: true, rim);
        Collect(ux, uy, uz, v, size, forward: true, rim);
        Collect(vx, vy, vz, u, size, forward: false, rim);
        Collect(x, y, z, v, size, forward: false, rim);
        if (rim.Count == 0) return;

        var (cx, cy, cz) = (x + (axis == 0 ? 0 : size * 0.5), y + (axis == 1 ? 0 : size * 0.5), z + (axis == 2 ? 0 : size * 0.5));
        var joinInside = rim.Count > 2 && _tree.ShapeIn(leaf).Distance(_tree.Position(cx, cy, cz)) < 0;
        for (var i = 0; i < rim.Count; i++)
        {
            // Each segment cuts off one run along the rim: an outside run when the inside is joined through the middle, else an inside run.
            if (rim[i].Enters == joinInside) continue;
            var next = rim[(i + 1) % rim.Count].Edge;
            var segment = _segments.Count;
            _segments.Add(new(rim[i].Edge, next, x, y, z, axis, size, rim.Count > 2));
            Join(rim[i].Edge, next, leaf, neighbour, segment);
        }
    }

    /// <summary>Crossing edges along one side of a face, in the order they are met when the rim is walked.</summary>
    private void Collect(int x, int y, int z, int axis, int size, bool forward, List<(int Edge, bool Enters)> rim)
    {
        if (_edgeByKey.TryGet(ContourTree.EdgeKey(x, y, z, axis, size), out var edge))
        {
            rim.Add((edge, _startsInside[edge] != forward));
            return;
        }

        var half = size / 2;
        if (half == 0) return;
        var (mx, my, mz) = ContourTree.Step(x, y, z, axis, half);
        if (!_tree.IsKnownCorner(mx, my, mz)) return;
        if (forward) Collect(x, y, z, axis, half, forward, rim);
        Collect(mx, my, mz, axis, half, forward, rim);
        if (!forward) Collect(x, y, z, axis, half, forward, rim);
    }

    private void Join(int edgeA, int edgeB, int leaf, int neighbour, int segment)
    {
        Unite(PlaceOf(edgeA, leaf), PlaceOf(edgeB, leaf));
        Unite(PlaceOf(edgeA, neighbour), PlaceOf(edgeB, neighbour));
        Mark(edgeA, leaf, neighbour, segment);
        Mark(edgeB, leaf, neighbour, segment);
    }

    private int PlaceOf(int edge, int leaf)
    {
        for (var i = 4 * edge; i < (4 * edge) + 4; i++)
        {
            if (_leaves[i] == leaf) return i;
        }

        throw new InvalidOperationException("A face's rim has an edge that does not touch the face's leaf.");
    }

    private void Unite(int a, int b)
    {
        var (ra, rb) = (Loop(a), Loop(b));
        if (ra != rb) _joined[Math.Max(ra, rb)] = Math.Min(ra, rb);
    }

    /// <summary>Notes the segment between the two leaves' neighbouring slots around the edge.</summary>
    private void Mark(int edge, int leaf, int neighbour, int segment)
    {
        for (var i = 0; i < 4; i++)
        {
            var (a, b) = (_leaves[(4 * edge) + i], _leaves[(4 * edge) + ((i + 1) & 3)]);
            if ((a == leaf && b == neighbour) || (a == neighbour && b == leaf)) _segmentAfter[(4 * edge) + i] = segment;
        }
    }
}
