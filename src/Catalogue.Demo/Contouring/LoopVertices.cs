using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Contouring;

/// <summary>
/// The mesh vertices: one in the leaf of each loop, plus those on leaf faces that are needed because two neighbours do not see each other
/// through the face they share.
/// </summary>
internal sealed class LoopVertices
{
    /// <summary>How far vertices keep from the walls of their leaf, as a part of its size.</summary>
    private const double Inset = 0.004;

    private readonly ContourTree _tree;
    private readonly ContourNet _net;
    private readonly Dictionary<int, int> _vertexOfLoop = [];
    private readonly int[] _vertexOfSegment;
    private readonly double _tolerance;

    public LoopVertices(ContourTree tree, ContourNet net, ContourSettings settings)
    {
        (_tree, _net) = (tree, net);
        _tolerance = settings.Tolerance;
        _vertexOfSegment = new int[net.Segments.Count];
        PlaceLoops();
        PlaceFaces();
    }

    public List<Vec3> Positions { get; } = [];

    public int VertexOf(int place) => _vertexOfLoop[_net.Loop(place)];

    /// <summary>The vertex on the segment's face; −1 where none is needed.</summary>
    public int VertexOfSegment(int segment) => _vertexOfSegment[segment];

    private void PlaceLoops()
    {
        var places = 4 * _net.EdgeCount;
        var start = new List<int>();
        for (var place = 0; place < places; place++)
        {
            if (_net.First(place) != place) continue;
            var loop = _net.Loop(place);
            if (_vertexOfLoop.TryAdd(loop, start.Count)) start.Add(0);
            start[_vertexOfLoop[loop]]++;
        }

        // Counting sort of the edges by loop, then one solve per loop.
        var offsets = new int[start.Count + 1];
        for (var i = 0; i < start.Count; i++) offsets[i + 1] = offsets[i] + start[i];
        var fill = offsets.ToArray();
        var members = new int[offsets[^1]];
        for (var place = 0; place < places; place++)
        {
            if (_net.First(place) == place) members[fill[_vertexOfLoop[_net.Loop(place)]]++] = place;
        }

        var planes = new TangentPlanes();
        for (var i = 0; i < start.Count; i++)
        {
            planes.Clear();
            for (var k = offsets[i]; k < offsets[i + 1]; k++) planes.Add(_net.CrossingOf(members[k] / 4));
            Positions.Add(Place(planes, _net.Leaf(members[offsets[i]])));
        }
    }

    private Vec3 Place(TangentPlanes planes, int leaf)
    {
        var (x, y, z, size) = _tree.Cell(leaf);
        var shape = _tree.ShapeIn(leaf);
        var inset = size * Inset;
        var low = _tree.Position(x + inset, y + inset, z + inset);
        var high = _tree.Position(x + size - inset, y + size - inset, z + size - inset);
        if (planes.Spread < TangentPlanes.Smooth)
        {
            var corner = Kept(planes.Solve(), low, high);
            if (Math.Abs(shape.Distance(corner)) <= 4 * _tolerance) return Settled(shape, corner, low, high);
        }

        var settled = Settled(shape, Kept(planes.Mean, low, high), low, high);
        var off = Math.Abs(shape.Distance(settled));
        if (off < 0.002) return settled;

        // The surface only clips the leaf: the crossing itself, moved off the wall, lies nearer to it.
        foreach (var crossing in planes.Points)
        {
            var kept = Kept(crossing, low, high);
            var f = Math.Abs(shape.Distance(kept));
            if (f < off) (settled, off) = (kept, f);
        }

        return settled;
    }

    /// <summary>Newton steps along the gradient to the surface; the last point if they would leave the leaf.</summary>
    private static Vec3 Settled(Shape shape, Vec3 v, Vec3 low, Vec3 high)
    {
        for (var i = 0; i < 4; i++)
        {
            var f = shape.Distance(v);
            if (Math.Abs(f) < 1e-5) break;
            var g = shape.Gradient(v, f);
            if (g.LengthSquared < 0.01) break;
            v = Kept(v - (g * (f / g.LengthSquared)), low, high);
        }

        return v;
    }

    private static Vec3 Kept(Vec3 v, Vec3 low, Vec3 high) => new(
        Math.Clamp(v.X, low.X, high.X), Math.Clamp(v.Y, low.Y, high.Y), Math.Clamp(v.Z, low.Z, high.Z));

    private void PlaceFaces()
    {
        for (var i = 0; i < _net.Segments.Count; i++)
        {
            var segment = _net.Segments[i];
            var needed = segment.Twin || !SeeEachOther(i, segment);
            _vertexOfSegment[i] = needed ? Positions.Count : -1;
            if (needed) Positions.Add(OnFace(i, segment));
        }
    }

    /// <summary>True when the straight line between the vertices on both sides of the face passes through it.</summary>
    private bool SeeEachOther(int index, ContourNet.FaceSegment segment)
    {
        var (a, b) = Ends(index, segment.EdgeA);
        var (pa, pb) = (Positions[a], Positions[b]);
        var low = _tree.Position(segment.X, segment.Y, segment.Z);
        var side = _tree.Position(segment.X + segment.Size, 0, 0).X - low.X;
        var (da, db) = (On(pa, segment.Axis) - On(low, segment.Axis), On(pb, segment.Axis) - On(low, segment.Axis));
        if (da < 0 == db < 0) return false;
        var p = pa + ((pb - pa) * (da / (da - db))) - low;
        var (u, v) = (On(p, (segment.Axis + 1) % 3) / side, On(p, (segment.Axis + 2) % 3) / side);
        return u is > 0.001 and < 0.999 && v is > 0.001 and < 0.999;
    }

    /// <summary>Of the two leaves at a segment's face, the one whose whole face it is.</summary>
    private int SmallerLeaf(int segment, int edge)
    {
        var place = Beside(segment, edge);
        var (a, b) = (_net.Leaf(place), _net.Leaf((4 * edge) + ((place + 1) & 3)));
        return _tree.Cell(a).Size <= _tree.Cell(b).Size ? a : b;
    }

    private (int A, int B) Ends(int segment, int edge)
    {
        var place = Beside(segment, edge);
        return (VertexOf(place), VertexOf((4 * edge) + ((place + 1) & 3)));
    }

    /// <summary>The place around the edge that the segment follows.</summary>
    private int Beside(int segment, int edge)
    {
        for (var place = 4 * edge; place < (4 * edge) + 4; place++)
        {
            if (_net.SegmentAfter(place) == segment) return place;
        }

        throw new InvalidOperationException("A face segment is not marked on its own edge.");
    }

    private Vec3 OnFace(int index, ContourNet.FaceSegment segment)
    {
        var shape = _tree.ShapeIn(SmallerLeaf(index, segment.EdgeA));
        var middle = (_net.CrossingOf(segment.EdgeA).Point + _net.CrossingOf(segment.EdgeB).Point) * 0.5;
        var (u, v) = ((segment.Axis + 1) % 3, (segment.Axis + 2) % 3);
        var low = _tree.Position(segment.X, segment.Y, segment.Z);
        var side = _tree.Position(segment.X + segment.Size, 0, 0).X - low.X;
        var (lowU, lowV, margin) = (On(low, u), On(low, v), 0.02 * side);
        var (pu, pv) = (On(middle, u), On(middle, v));
        for (var i = 0; i < 3; i++)
        {
            (pu, pv) = (Math.Clamp(pu, lowU + margin, lowU + side - margin), Math.Clamp(pv, lowV + margin, lowV + side - margin));
            var at = Point(pu, pv);
            var f = shape.Distance(at);
            if (segment.Twin || Math.Abs(f) < 1e-5) break;
            var g = shape.Gradient(at, f);
            var (gu, gv) = (On(g, u), On(g, v));
            var steep = (gu * gu) + (gv * gv);
            if (steep < 0.05) break;
            (pu, pv) = (pu - (f * gu / steep), pv - (f * gv / steep));
        }

        return Point(Math.Clamp(pu, lowU + margin, lowU + side - margin), Math.Clamp(pv, lowV + margin, lowV + side - margin));

        Vec3 Point(double atU, double atV) => segment.Axis switch
        {
            0 => new(low.X, atU, atV),
            1 => new(atV, low.Y, atU),
            _ => new(atU, atV, low.Z),
        };
    }

    private static double On(Vec3 p, int axis) => axis switch { 0 => p.X, 1 => p.Y, _ => p.Z };
}
