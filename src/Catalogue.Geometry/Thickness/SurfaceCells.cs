using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Thickness;

/// <summary>
/// The surface of a mesh in cells no longer than a given length: a short triangle is one cell, a long one is halved across its
/// longest side until its pieces are short, or their area small: halving a needle makes ever finer ones. At most 20 · area / length² + triangles
/// cells. Cells are numbered triangle by triangle.
/// </summary>
internal sealed class SurfaceCells
{
    // A piece with less area than this part of the greatest length squared is not halved.
    private const double SmallArea = 0.1;

    // Of meshes with more triangles few are halved; those with fewer are usually halved into some ten thousands of pieces.
    private const int FineMesh = 240_000;

    private readonly int[] _firstCell;
    private readonly int[] _root;
    private readonly List<(int Near, int Far)> _halves;
    private readonly List<(Vec3 A, Vec3 B, Vec3 C)> _split;
    private readonly int[] _splitOffset;
    private readonly double _longest;

    /// <param name="mesh">The surface.</param>
    /// <param name="longest">Cells have no side longer than this, mm; needles may be a few times as long.</param>
    /// <param name="cancel">Stops the work.</param>
    public SurfaceCells(TriangleMesh mesh, double longest, CancellationToken cancel = default)
    {
        Mesh = mesh;
        _longest = longest * longest;
        _firstCell = new int[mesh.TriangleCount + 1];
        _root = new int[mesh.TriangleCount];
        _splitOffset = new int[mesh.TriangleCount];
        var expected = mesh.TriangleCount < FineMesh ? FineMesh / 3 : 0;
        (_halves, _split) = (new(expected), new(expected));
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            if ((t & 4095) == 0) cancel.ThrowIfCancellationRequested();
            var (a, b, c) = mesh.Triangle(t);
            var first = _firstCell[t];
            _splitOffset[t] = _split.Count - first;
            if (IsShort(a, b, c, Longest(a, b, c).LengthSquared))
            {
                _root[t] = ~first;
                _firstCell[t + 1] = first + 1;
                continue;
            }

            var offset = _split.Count;
            _root[t] = Halve(a, b, c, new(1, 0, 0), new(0, 1, 0), new(0, 0, 1), first, offset);
            _firstCell[t + 1] = first + (_split.Count - offset);
        }
    }

    public TriangleMesh Mesh { get; }

    /// <summary>Cells have no side longer than this, mm, needles apart.</summary>
    public double LongestSide => Math.Sqrt(_longest);

    public int Count => _firstCell[^1];

    public (int First, int End) CellsOf(int triangle) => (_firstCell[triangle], _firstCell[triangle + 1]);

    /// <summary>The corners of a cell of a triangle.</summary>
    public (Vec3 A, Vec3 B, Vec3 C) Corners(int triangle, int cell)
    {
        var (a, b, c) = Mesh.Triangle(triangle);
        if (_root[triangle] < 0) return (a, b, c);
        var (u, v, w) = _split[cell + _splitOffset[triangle]];
        return (At(u), At(v), At(w));
        Vec3 At(Vec3 weights) => (a * weights.X) + (b * weights.Y) + (c * weights.Z);
    }

    /// <summary>The weights of the triangle's corners that make the middle of one of its cells.</summary>
    public Vec3 MiddleWeights(int triangle, int cell)
    {
        if (_root[triangle] < 0) return new(1 / 3.0, 1 / 3.0, 1 / 3.0);
        var (u, v, w) = _split[cell + _splitOffset[triangle]];
        return (u + v + w) / 3;
    }

    public static double Area((Vec3 A, Vec3 B, Vec3 C) t) => Vec3.Cross(t.B - t.A, t.C - t.A).Length / 2;

    /// <summary>The cell of a triangle that has a point, given by the corners' weights.</summary>
    public int Locate(int triangle, Vec3 weights)
    {
        var node = _root[triangle];
        if (node < 0) return ~node;
        var (a, b, c) = Mesh.Triangle(triangle);
        var (u, v, w) = (weights.X, weights.Y, weights.Z);
        while (node >= 0)
        {
            // Turned so that ab is the longest side, as when it was halved; half the weight of b goes to the middle and back from a.
            var edge = Longest(a, b, c).Edge;
            for (var i = 0; i < edge; i++) ((a, b, c), (u, v, w)) = ((b, c, a), (v, w, u));
            var middle = (a + b) * 0.5;
            if (u >= v)
            {
                (b, u, v) = (middle, u - v, 2 * v);
                node = _halves[node].Near;
            }
            else
            {
                (a, u, v) = (middle, 2 * u, v - u);
                node = _halves[node].Far;
            }
        }

        return ~node;
    }

    /// <summary>
    /// The cell across the middle of side <paramref name="side"/> (from corner a, b or c on) of a cell, and its triangle; −1 where
    /// there is none or more than one. Where several short cells lie along a long one, each of them names the long one, which
    /// names only the one at its middle.
    /// </summary>
    public (int Cell, int Triangle) Across(EdgeAdjacency edges, int triangle, int cell, int side)
    {
        var (u, v, w) = _root[triangle] < 0 ? (new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)) : _split[cell + _splitOffset[triangle]];
        var (from, to, apex) = side == 0 ? (u, v, w) : side == 1 ? (v, w, u) : (w, u, v);
        var middle = (from + to) * 0.5;
        var edge = from.Z == 0 && to.Z == 0 ? 0 : from.X == 0 && to.X == 0 ? 1 : from.Y == 0 && to.Y == 0 ? 2 : -1;
        if (edge < 0) return (Locate(triangle, middle + ((middle - apex) * 1e-6)), triangle);
        var opposite = edges.Opposite[(3 * triangle) + edge];
        if (opposite < 0) return (-1, -1);

        // The weight of the corner the edge starts from, here and there (where it starts from the other end, unless disoriented).
        var start = edge == 0 ? middle.X : edge == 1 ? middle.Y : middle.Z;
        var other = opposite / 3;
        var otherEdge = opposite % 3;
        if (Mesh.Indices[opposite] != Mesh.Indices[(3 * triangle) + edge]) start = 1 - start;
        Span<double> weights = [1e-7, 1e-7, 1e-7];
        weights[otherEdge] = start;
        weights[(otherEdge + 1) % 3] = 1 - start;
        return (Locate(other, new(weights[0], weights[1], weights[2])), other);
    }

    private int Halve(Vec3 a, Vec3 b, Vec3 c, Vec3 u, Vec3 v, Vec3 w, int firstCell, int offset)
    {
        var (edge, longest) = Longest(a, b, c);
        if (IsShort(a, b, c, longest))
        {
            _split.Add((u, v, w));
            return ~(firstCell + _split.Count - 1 - offset);
        }

        for (var i = 0; i < edge; i++) ((a, b, c), (u, v, w)) = ((b, c, a), (v, w, u));
        var (middle, weights) = ((a + b) * 0.5, (u + v) * 0.5);
        var node = _halves.Count;
        _halves.Add(default);
        var near = Halve(a, middle, c, u, weights, w, firstCell, offset);
        var far = Halve(middle, b, c, weights, v, w, firstCell, offset);
        _halves[node] = (near, far);
        return node;
    }

    private bool IsShort(Vec3 a, Vec3 b, Vec3 c, double longestSquared) => longestSquared <= _longest || Area((a, b, c)) <= SmallArea * _longest;

    private static (int Edge, double LengthSquared) Longest(Vec3 a, Vec3 b, Vec3 c)
    {
        var (ab, bc, ca) = ((b - a).LengthSquared, (c - b).LengthSquared, (a - c).LengthSquared);
        return ab >= bc ? (ab >= ca ? (0, ab) : (2, ca)) : (bc >= ca ? (1, bc) : (2, ca));
    }
}
