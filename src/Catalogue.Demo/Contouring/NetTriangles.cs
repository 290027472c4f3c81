using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Contouring;

/// <summary>The triangles: for every crossing edge, the polygon of the vertices around it.</summary>
internal sealed class NetTriangles(ContourNet net, LoopVertices vertices)
{
    private const double SpeckMm = 0.8;
    private const double SpeckMm3 = 0.05;

    private List<int> _indices = [];
    private readonly GridTable<bool> _diagonals = new();

    public TriangleMesh Build()
    {
        var ring = new List<int>(8);
        for (var edge = 0; edge < net.EdgeCount; edge++)
        {
            ring.Clear();
            var plain = true;
            for (var place = 4 * edge; place < (4 * edge) + 4; place++)
            {
                var segment = net.SegmentAfter(place);
                if (segment < 0) continue; // the next slot is the same leaf
                ring.Add(vertices.VertexOf(place));
                var face = vertices.VertexOfSegment(segment);
                if (face < 0) continue;
                ring.Add(face);
                plain = false;
            }

            if (!net.StartsInside(edge)) ring.Reverse();
            if (!plain || !AddPlain(edge, ring)) AddFan(edge, ring);
        }

        LeaveOutSpecks();
        var positions = new float[3 * vertices.Positions.Count];
        for (var i = 0; i < vertices.Positions.Count; i++)
        {
            var p = vertices.Positions[i];
            (positions[3 * i], positions[(3 * i) + 1], positions[(3 * i) + 2]) = ((float)p.X, (float)p.Y, (float)p.Z);
        }

        return new(positions, [.. _indices]);
    }

    /// <summary>Pieces shorter or lighter than this are crumbs between surfaces that nearly touch: neither printable nor meant.</summary>
    private void LeaveOutSpecks()
    {
        var p = vertices.Positions;
        var root = new int[p.Count];
        for (var i = 0; i < root.Length; i++) root[i] = i;
        for (var t = 0; t < _indices.Count; t += 3)
        {
            root[Root(_indices[t])] = Root(_indices[t + 1]);
            root[Root(_indices[t + 1])] = Root(_indices[t + 2]);
        }

        var pieces = new Dictionary<int, (BoundingBox Box, double Volume)>();
        for (var t = 0; t < _indices.Count; t += 3)
        {
            var (a, b, c) = (p[_indices[t]], p[_indices[t + 1]], p[_indices[t + 2]]);
            var (box, volume) = pieces.GetValueOrDefault(Root(_indices[t]), (BoundingBox.Empty, 0.0));
            pieces[Root(_indices[t])] = (box.Including(a).Including(b).Including(c), volume + (Vec3.Dot(a, Vec3.Cross(b, c)) / 6));
        }

        var specks = pieces.Where(x => x.Value.Box.Size.Length < SpeckMm || Math.Abs(x.Value.Volume) < SpeckMm3).Select(x => x.Key).ToHashSet();
        if (specks.Count == 0) return;
        var kept = new List<int>(_indices.Count);
        for (var t = 0; t < _indices.Count; t += 3)
        {
            if (!specks.Contains(Root(_indices[t]))) kept.AddRange([_indices[t], _indices[t + 1], _indices[t + 2]]);
        }

        (_indices, var old) = (kept, vertices.Positions.ToArray());
        vertices.Positions.Clear();
        var renamed = new Dictionary<int, int>();
        for (var i = 0; i < _indices.Count; i++)
        {
            if (renamed.TryAdd(_indices[i], vertices.Positions.Count)) vertices.Positions.Add(old[_indices[i]]);
            _indices[i] = renamed[_indices[i]];
        }

        int Root(int i)
        {
            while (root[i] != i) i = root[i] = root[root[i]];
            return i;
        }
    }

    /// <summary>One or two triangles, if they stay within the edge's envelope: its inner end below each of them, its outer end above.</summary>
    private bool AddPlain(int edge, List<int> ring)
    {
        if (ring.Count == 3)
        {
            if (!Separates(edge, ring[0], ring[1], ring[2])) return false;
            _indices.AddRange([ring[0], ring[1], ring[2]]);
            return true;
        }

        if (ring.Count != 4) return false;
        var straight = Fold(edge, ring[0], ring[1], ring[2], ring[3]);
        var crossed = Fold(edge, ring[1], ring[2], ring[3], ring[0]);
        var first = straight >= crossed ? 0 : 1;
        for (var i = 0; i < 2; i++, first ^= 1)
        {
            var (a, b, c, d) = (ring[first], ring[first + 1], ring[(first + 2) & 3], ring[(first + 3) & 3]);
            if ((first == 0 ? straight : crossed) < -1) continue;
            if (!_diagonals.TryAdd(((long)Math.Min(a, c) << 31) | (long)Math.Max(a, c), true)) continue;
            _indices.AddRange([a, b, c, a, c, d]);
            return true;
        }

        return false;
    }

    /// <summary>How flat the quad abcd is when folded along ac: the cosine between its triangles; −2 when one leaves the envelope.</summary>
    private double Fold(int edge, int a, int b, int c, int d)
    {
        if (!Separates(edge, a, b, c) || !Separates(edge, a, c, d)) return -2;
        var p = vertices.Positions;
        var n1 = Vec3.Cross(p[b] - p[a], p[c] - p[a]).Normalized();
        var n2 = Vec3.Cross(p[c] - p[a], p[d] - p[a]).Normalized();
        return Vec3.Dot(n1, n2);
    }

    private bool Separates(int edge, int a, int b, int c)
    {
        var p = vertices.Positions;
        var (inner, outer) = net.Ends(edge);
        var normal = Vec3.Cross(p[b] - p[a], p[c] - p[a]);
        var scale = normal.Length * 1e-6;
        return Vec3.Dot(normal, outer - p[a]) > scale && Vec3.Dot(normal, inner - p[a]) < -scale;
    }

    private void AddFan(int edge, List<int> ring)
    {
        var center = vertices.Positions.Count;
        vertices.Positions.Add(net.CrossingOf(edge).Point);
        for (var i = 0; i < ring.Count; i++) _indices.AddRange([center, ring[i], ring[(i + 1) % ring.Count]]);
    }
}
