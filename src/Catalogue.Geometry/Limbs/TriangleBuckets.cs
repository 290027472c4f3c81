using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Limbs;

/// <summary>Triangles by coarse boxes of space, for cuts that need only a few of them. O(m); about 6 bytes a triangle.</summary>
internal sealed class TriangleBuckets
{
    private const int Most = 200_000;

    private readonly TriangleMesh _mesh;
    private readonly double _side;
    private readonly int _width;
    private readonly int _depth;
    private readonly int _height;
    private readonly int[] _starts;
    private readonly int[] _triangles;
    private readonly int[] _seen;
    private int _asked;

    public TriangleBuckets(TriangleMesh mesh)
    {
        _mesh = mesh;
        var size = mesh.Bounds.Size;
        _side = Math.Max(Math.Cbrt(Math.Max(size.X, 1) * Math.Max(size.Y, 1) * Math.Max(size.Z, 1) / Most), 1.5);
        (_width, _depth, _height) = ((int)(size.X / _side) + 1, (int)(size.Y / _side) + 1, (int)(size.Z / _side) + 1);
        _starts = new int[(_width * _depth * _height) + 1];
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var range = Range(Bounds(t));
            for (var k = range.K0; k <= range.K1; k++)
                for (var j = range.J0; j <= range.J1; j++)
                    for (var i = range.I0; i <= range.I1; i++) _starts[Box(i, j, k) + 1]++;
        }

        for (var b = 1; b < _starts.Length; b++) _starts[b] += _starts[b - 1];
        _triangles = new int[_starts[^1]];
        var at = _starts.AsSpan(0, _starts.Length - 1).ToArray();
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var range = Range(Bounds(t));
            for (var k = range.K0; k <= range.K1; k++)
                for (var j = range.J0; j <= range.J1; j++)
                    for (var i = range.I0; i <= range.I1; i++) _triangles[at[Box(i, j, k)]++] = t;
        }

        _seen = new int[mesh.TriangleCount];
    }

    /// <summary>Every triangle that may reach into the box, each once; in the same order every time.</summary>
    public void Gather(BoundingBox box, List<int> into)
    {
        into.Clear();
        _asked++;
        var range = Range(box);
        for (var k = range.K0; k <= range.K1; k++)
            for (var j = range.J0; j <= range.J1; j++)
                for (var i = range.I0; i <= range.I1; i++) Take(Box(i, j, k), into);
    }

    private void Take(int box, List<int> into)
    {
        for (var i = _starts[box]; i < _starts[box + 1]; i++)
        {
            var t = _triangles[i];
            if (_seen[t] == _asked) continue;
            _seen[t] = _asked;
            into.Add(t);
        }
    }

    private int Box(int i, int j, int k) => (((k * _depth) + j) * _width) + i;

    private BoundingBox Bounds(int triangle)
    {
        var (a, b, c) = _mesh.Triangle(triangle);
        return BoundingBox.Empty.Including(a).Including(b).Including(c);
    }

    private (int I0, int I1, int J0, int J1, int K0, int K1) Range(BoundingBox box)
    {
        var (low, high) = (box.Min - _mesh.Bounds.Min, box.Max - _mesh.Bounds.Min);
        return (Cell(low.X, _width), Cell(high.X, _width), Cell(low.Y, _depth), Cell(high.Y, _depth), Cell(low.Z, _height), Cell(high.Z, _height));
    }

    private int Cell(double distance, int count) => Math.Clamp((int)(distance / _side), 0, count - 1);
}
