using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Tests.Remeshing;

/// <summary>
/// A closed mesh with fewer triangles: edges are drawn together into one of their ends, those that move the surface least first
/// (M. Garland, P. Heckbert, "Surface Simplification Using Quadric Error Metrics", SIGGRAPH 1997), as long as it moves by less than a given length.
/// </summary>
/// <remarks>Ends stay where they are, so flat faces and straight edges stay exact. A collapse that would pinch the surface or turn a triangle over is left out. For tests: plain, not fast.</remarks>
internal sealed class Decimated
{
    private readonly Vec3[] _place;
    private readonly int[][] _corners;
    private readonly HashSet<int>[] _around;
    private readonly double[][] _quadric;

    private Decimated(TriangleMesh mesh)
    {
        // Corners at the same place are one, welded or not.
        var first = new Dictionary<Vec3, int>();
        _place = [.. Enumerable.Range(0, mesh.VertexCount).Select(mesh.Vertex)];
        for (var v = 0; v < _place.Length; v++) first.TryAdd(_place[v], v);
        _corners = [.. Enumerable.Range(0, mesh.TriangleCount).Select(t => mesh.Indices.Slice(3 * t, 3).ToArray().Select(v => first[_place[v]]).ToArray())];
        _around = [.. _place.Select(_ => new HashSet<int>())];
        _quadric = [.. _place.Select(_ => new double[10])];
        for (var t = 0; t < _corners.Length; t++)
        {
            var plane = Plane(_corners[t]);
            foreach (var v in _corners[t])
            {
                _around[v].Add(t);
                for (var k = 0; k < 10; k++) _quadric[v][k] += plane[k];
            }
        }
    }

    /// <param name="mesh">Closed.</param>
    /// <param name="off">No vertex is drawn farther than about this from the planes it stood for, mm.</param>
    public static TriangleMesh Of(TriangleMesh mesh, double off)
    {
        var work = new Decimated(mesh);
        work.Collapse(off * off);
        return work.Result();
    }

    private void Collapse(double most)
    {
        var queue = new PriorityQueue<(int From, int To, double Cost), (double, int, int)>();
        foreach (var corners in _corners)
            for (var k = 0; k < 3; k++) Offer(corners[k], corners[(k + 1) % 3]);
        while (queue.TryDequeue(out var edge, out _))
        {
            // Stale when one end is gone, they no longer touch, or the cost has grown.
            if (_around[edge.From].Count == 0 || !_around[edge.From].Overlaps(_around[edge.To]) || Cost(edge.From, edge.To) > edge.Cost * (1 + 1e-9) + 1e-18) continue;
            if (!IsSound(edge.From, edge.To)) continue;
            Merge(edge.From, edge.To);
            foreach (var v in Ring(edge.To))
            {
                Offer(edge.To, v);
                Offer(v, edge.To);
            }
        }

        void Offer(int from, int to)
        {
            if (Cost(from, to) is var cost && cost < most) queue.Enqueue((from, to, cost), (cost, from, to));
        }
    }

    /// <summary>The two ends share two neighbours only, and no triangle turns over, becomes a needle or vanishes.</summary>
    private bool IsSound(int from, int to)
    {
        if (Ring(from).Intersect(Ring(to)).Count() != 2) return false;
        foreach (var t in _around[from])
        {
            if (_corners[t].Contains(to)) continue;
            var (before, after) = (Cross(_corners[t]), Cross([.. _corners[t].Select(v => v == from ? to : v)]));
            if (Vec3.Dot(before, after) < 0.5 * before.Length * after.Length || after.Length < 1e-4) return false;
        }

        return true;
    }

    private void Merge(int from, int to)
    {
        foreach (var t in _around[from].ToList())
        {
            if (_corners[t].Contains(to))
            {
                foreach (var v in _corners[t]) _around[v].Remove(t);
                continue;
            }

            _corners[t][Array.IndexOf(_corners[t], from)] = to;
            _around[to].Add(t);
        }

        _around[from].Clear();
        for (var k = 0; k < 10; k++) _quadric[to][k] += _quadric[from][k];
    }

    private HashSet<int> Ring(int vertex)
    {
        var ring = _around[vertex].SelectMany(t => _corners[t]).ToHashSet();
        ring.Remove(vertex);
        return ring;
    }

    /// <summary>Mean square distance of the end that stays from the planes of both.</summary>
    private double Cost(int from, int to)
    {
        var (p, q) = (_place[to], new double[10]);
        for (var k = 0; k < 10; k++) q[k] = _quadric[from][k] + _quadric[to][k];
        return Math.Max(0, (q[0] * p.X * p.X) + (q[1] * p.Y * p.Y) + (q[2] * p.Z * p.Z) + (2 * ((q[3] * p.X * p.Y) + (q[4] * p.Y * p.Z) + (q[5] * p.Z * p.X)
            + (q[6] * p.X) + (q[7] * p.Y) + (q[8] * p.Z))) + q[9]);
    }

    /// <summary>Of the square of the distance from a triangle's plane.</summary>
    private double[] Plane(int[] corners)
    {
        var n = Cross(corners).Normalized();
        var d = -Vec3.Dot(n, _place[corners[0]]);
        return [n.X * n.X, n.Y * n.Y, n.Z * n.Z, n.X * n.Y, n.Y * n.Z, n.Z * n.X, n.X * d, n.Y * d, n.Z * d, d * d];
    }

    private Vec3 Cross(int[] corners) => Vec3.Cross(_place[corners[1]] - _place[corners[0]], _place[corners[2]] - _place[corners[0]]);

    private TriangleMesh Result()
    {
        var (number, positions, indices) = (new Dictionary<int, int>(), new List<float>(), new List<int>());
        foreach (var t in _around.SelectMany(a => a).Distinct().Order())
        {
            foreach (var v in _corners[t])
            {
                if (!number.TryGetValue(v, out var n))
                {
                    number[v] = n = number.Count;
                    positions.AddRange([(float)_place[v].X, (float)_place[v].Y, (float)_place[v].Z]);
                }

                indices.Add(n);
            }
        }

        return new([.. positions], [.. indices]);
    }
}
