using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Simplify;

/// <summary>A mesh losing its edges one by one, the one that moves the surface least first.</summary>
internal sealed class EdgeCollapses
{
    /// <summary>A triangle may turn by up to about 75° in one collapse; more is a fold.</summary>
    private const double LeastCosine = 0.25;

    /// <summary>The planes that stand upright on open edges weigh this much more: the outline stays.</summary>
    private const double RimWeight = 10;

    private readonly Vec3[] _places;
    private readonly Quadric[] _quadrics;
    private readonly int[] _ages;
    private readonly bool[] _isRim;
    private readonly bool[] _isFixed;
    private readonly int[] _corners;

    // The corners (3 · triangle + k) at each vertex, as a list through _next; −1 ends it.
    private readonly int[] _first;
    private readonly int[] _next;
    private readonly CollapseQueue _queue;
    private readonly int[] _mark;
    private int _marks;

    /// <param name="mesh">Triangles with a repeated corner or without area are left out.</param>
    public EdgeCollapses(TriangleMesh mesh, CancellationToken cancel)
    {
        _places = new Vec3[mesh.VertexCount];
        for (var v = 0; v < _places.Length; v++) _places[v] = mesh.Vertex(v);
        _corners = Sound(mesh);
        TrianglesLeft = _corners.Length / 3;
        _quadrics = new Quadric[_places.Length];
        (_ages, _mark, _first) = (new int[_places.Length], new int[_places.Length], new int[_places.Length]);
        (_isRim, _isFixed) = (new bool[_places.Length], new bool[_places.Length]);
        _next = new int[_corners.Length];
        Array.Fill(_first, -1);
        for (var c = _corners.Length - 1; c >= 0; c--) (_next[c], _first[_corners[c]]) = (_first[_corners[c]], c);
        cancel.ThrowIfCancellationRequested();
        Planes();
        Rims(mesh, cancel);
        _queue = new(_corners.Length / 2);
        for (var c = 0; c < _corners.Length; c++)
        {
            if (c % 300_000 == 0) cancel.ThrowIfCancellationRequested();
            var (u, v) = (_corners[c], _corners[EdgeAdjacency.Next(c)]);
            if (u < v || _isRim[u]) Offer(u, v);
        }
    }

    public int TrianglesLeft { get; private set; }

    /// <summary>Collapses edges until no more than so many triangles are left, or none can be collapsed without changing how the surface hangs together.</summary>
    public void Reduce(int triangles, CancellationToken cancel)
    {
        for (var taken = 0; TrianglesLeft > triangles && _queue.Count > 0; taken++)
        {
            if (taken % 4096 == 0) cancel.ThrowIfCancellationRequested();
            var next = _queue.Take();
            if (_ages[next.From] != next.FromAge || _ages[next.To] != next.ToAge) continue;
            var place = Place(next.From, next.To, out _);
            if (!KeepsTopology(next.From, next.To) || Folds(next.From, next.To, place) || Folds(next.To, next.From, place)) continue;
            Join(next.From, next.To, place);
        }
    }

    /// <summary>What is left, vertices that are not used left out.</summary>
    public TriangleMesh ToMesh()
    {
        var numbers = new int[_places.Length];
        var (positions, indices) = (new List<float>(2 * TrianglesLeft), new List<int>(3 * TrianglesLeft));
        for (var t = 0; t < _corners.Length; t += 3)
        {
            if (_corners[t] < 0) continue;
            for (var k = 0; k < 3; k++)
            {
                var v = _corners[t + k];
                if (numbers[v] == 0)
                {
                    var p = _places[v];
                    positions.AddRange([(float)p.X, (float)p.Y, (float)p.Z]);
                    numbers[v] = positions.Count / 3;
                }

                indices.Add(numbers[v] - 1);
            }
        }

        return new([.. positions], [.. indices]);
    }

    private static int[] Sound(TriangleMesh mesh)
    {
        var kept = new List<int>(mesh.Indices.Length);
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var corners = mesh.Indices.Slice(3 * t, 3);
            if (corners[0] != corners[1] && corners[1] != corners[2] && corners[2] != corners[0]) kept.AddRange(corners);
        }

        return [.. kept];
    }

    private void Planes()
    {
        for (var t = 0; t < _corners.Length; t += 3)
        {
            var cross = Cross(_corners[t], _corners[t + 1], _corners[t + 2]);
            var twice = cross.Length;
            if (!(twice > 0)) continue;
            var normal = cross / twice;
            var plane = Quadric.OfPlane(normal, -Vec3.Dot(normal, _places[_corners[t]]), twice);
            for (var k = 0; k < 3; k++) _quadrics[_corners[t + k]].Add(plane);
        }
    }

    /// <summary>Open edges hold their outline; where three or more triangles meet nothing is moved.</summary>
    private void Rims(TriangleMesh mesh, CancellationToken cancel)
    {
        var opposite = EdgeAdjacency.Of(mesh.TriangleCount == TrianglesLeft ? mesh : new(mesh.Positions.ToArray(), _corners), cancel).Opposite;
        for (var h = 0; h < _corners.Length; h++)
        {
            if (opposite[h] >= 0) continue;
            var (u, v) = (_corners[h], _corners[EdgeAdjacency.Next(h)]);
            if (opposite[h] == EdgeAdjacency.NonManifold)
            {
                _isFixed[u] = _isFixed[v] = true;
                continue;
            }

            _isRim[u] = _isRim[v] = true;
            var along = _places[v] - _places[u];
            var t = h / 3 * 3;
            var upright = Vec3.Cross(along, Cross(_corners[t], _corners[t + 1], _corners[t + 2])).Normalized();
            var plane = Quadric.OfPlane(upright, -Vec3.Dot(upright, _places[u]), RimWeight * along.LengthSquared);
            _quadrics[u].Add(plane);
            _quadrics[v].Add(plane);
        }
    }

    private Vec3 Cross(int a, int b, int c) => Vec3.Cross(_places[b] - _places[a], _places[c] - _places[a]);

    private void Offer(int u, int v)
    {
        if (_isFixed[u] || _isFixed[v]) return;
        Place(u, v, out var cost);
        _queue.Add(new((float)cost, Math.Min(u, v), Math.Max(u, v), _ages[Math.Min(u, v)], _ages[Math.Max(u, v)]));
    }

    /// <summary>Where both ends go: where the planes of both are nearest, unless that is far off; else the best of both ends and their middle.</summary>
    private Vec3 Place(int u, int v, out double cost)
    {
        var quadric = _quadrics[u];
        quadric.Add(_quadrics[v]);
        var (a, b) = (_places[u], _places[v]);
        var middle = (a + b) / 2;
        var length = (b - a).LengthSquared;

        // A touch of length keeps flat surface from collapsing in an odd order.
        var touch = 1e-9 * length * length;
        if (quadric.Least() is { } least && (least - middle).LengthSquared < 4 * length)
        {
            cost = quadric.At(least) + touch;
            return least;
        }

        var (best, at) = (quadric.At(middle), middle);
        foreach (var end in (ReadOnlySpan<Vec3>)[a, b])
            if (quadric.At(end) is var value && value < best) (best, at) = (value, end);
        cost = best + touch;
        return at;
    }

    /// <summary>
    /// The link condition (Dey, Edelsbrunner, Guha, Nekhayev, "Topology preserving edge contraction", 1999; from memory): the ends share exactly the neighbours
    /// opposite their edge. Two rims do not grow together, and a tetrahedron stays one.
    /// </summary>
    private bool KeepsTopology(int u, int v)
    {
        var mark = ++_marks;
        var (faces, valence) = (0, 0);
        for (var c = _first[u]; c >= 0; c = _next[c])
        {
            valence++;
            var (p, q) = (_corners[EdgeAdjacency.Next(c)], _corners[EdgeAdjacency.Previous(c)]);
            if (p == v || q == v) faces++;
            (_mark[p], _mark[q]) = (mark, mark);
        }

        if (faces is < 1 or > 2 || (_isRim[u] && _isRim[v] && faces == 2)) return false;
        var (shared, others) = (0, 0);
        for (var c = _first[v]; c >= 0; c = _next[c])
        {
            others++;
            Count(_corners[EdgeAdjacency.Next(c)]);
            Count(_corners[EdgeAdjacency.Previous(c)]);
        }

        return shared == faces && !(faces == 2 && valence == 3 && others == 3) && !(faces == 1 && valence == 1 && others == 1);

        void Count(int vertex)
        {
            if (_mark[vertex] != mark || vertex == u || vertex == v) return;
            _mark[vertex] = 0;
            shared++;
        }
    }

    /// <summary>True when a triangle that stays with <paramref name="moved"/> would turn over or shrink to nothing.</summary>
    private bool Folds(int moved, int gone, Vec3 place)
    {
        for (var c = _first[moved]; c >= 0; c = _next[c])
        {
            var (p, q) = (_corners[EdgeAdjacency.Next(c)], _corners[EdgeAdjacency.Previous(c)]);
            if (p == gone || q == gone) continue;
            var before = Vec3.Cross(_places[p] - _places[moved], _places[q] - _places[moved]);
            var after = Vec3.Cross(_places[p] - place, _places[q] - place);
            var (old, now) = (before.Length, after.Length);
            if (old == 0) continue;
            var longest = Math.Max((_places[p] - place).LengthSquared, Math.Max((_places[q] - place).LengthSquared, (_places[q] - _places[p]).LengthSquared));
            if (!(Vec3.Dot(before, after) > LeastCosine * old * now) || (now < 1e-3 * longest && now < old)) return true;
        }

        return false;
    }

    /// <summary>Both become the second; the triangles between them go.</summary>
    private void Join(int gone, int stays, Vec3 place)
    {
        _quadrics[stays].Add(_quadrics[gone]);
        _places[stays] = place;
        _isRim[stays] |= _isRim[gone];
        _ages[gone] = -1;
        _ages[stays]++;
        for (var c = _first[gone]; c >= 0; c = _next[c])
        {
            var t = c / 3 * 3;
            if (_corners[EdgeAdjacency.Next(c)] == stays || _corners[EdgeAdjacency.Previous(c)] == stays)
            {
                TrianglesLeft--;
                for (var k = 0; k < 3; k++)
                    if (_corners[t + k] != gone) Unhook(_corners[t + k], t + k);
                (_corners[t], _corners[t + 1], _corners[t + 2]) = (-1, -1, -1);
            }
        }

        for (int c = _first[gone], following; c >= 0; c = following)
        {
            following = _next[c];
            if (_corners[c] < 0) continue;
            _corners[c] = stays;
            (_next[c], _first[stays]) = (_first[stays], c);
        }

        _first[gone] = -1;
        for (var c = _first[stays]; c >= 0; c = _next[c])
        {
            Offer(stays, _corners[EdgeAdjacency.Next(c)]);
            if (_isRim[stays]) Offer(stays, _corners[EdgeAdjacency.Previous(c)]);
        }
    }

    private void Unhook(int vertex, int corner)
    {
        if (_first[vertex] == corner)
        {
            _first[vertex] = _next[corner];
            return;
        }

        var c = _first[vertex];
        while (_next[c] != corner) c = _next[c];
        _next[c] = _next[corner];
    }
}
