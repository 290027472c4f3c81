using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Limbs;

/// <summary>A slab of a limb: all material at about the same way from the middle of the part, connected.</summary>
/// <param name="Node">Its number.</param>
/// <param name="ReachMm">From here to the limb's tip, through the material.</param>
internal readonly record struct LimbSlab(int Node, double ReachMm);

/// <summary>
/// The pieces of a part that hang on it by one slab of material. Ways are measured through the material from its deepest place; what lies
/// as far, in slabs of two cubes, and touches, is one node; from the far ends back, everything beyond a node that is alone at its distance is a limb.
/// </summary>
/// <remarks>The tree of how far pieces join (a Reeb graph of the way through the material, read from its tips). Arms that join again are one piece there, and held at two places. O(cubes).</remarks>
internal sealed class LimbTree
{
    /// <summary>Thirds of a cube to a slab: more than the longest step, so that steps lead to the next slab at most.</summary>
    private const int SlabThirds = 6;

    /// <summary>A piece shorter than this is a bump.</summary>
    public const double ShortestMm = 3;

    /// <summary>Shorter than this many of its own width, a piece does not bend as a beam.</summary>
    public const double LeastSlender = 1.5;

    private readonly SolidCells _cells;
    private readonly int[] _way;
    private readonly int[] _nodeOf;
    private readonly List<int> _level = [];
    private readonly List<double> _volume = [];
    private readonly List<Vec3> _moment = [];
    private readonly List<BoundingBox> _box = [];
    private readonly List<List<int>> _links = [];
    private int[] _cellStarts = [];
    private int[] _cellsByNode = [];

    /// <param name="progress">Of all limbs, this is from a quarter to three.</param>
    public LimbTree(SolidCells cells, IProgress<double>? progress, CancellationToken cancel)
    {
        _cells = cells;
        _way = new int[cells.Count];
        _nodeOf = new int[cells.Count];
        Array.Fill(_way, int.MaxValue);
        var depth = cells.Depths(cancel);
        progress?.Report(0.35);
        StartAt(Middle(depth), cancel);
        progress?.Report(0.55);

        // Every other separate piece starts at its own deepest cube.
        var rest = Enumerable.Range(0, cells.Count).Where(c => _way[c] == int.MaxValue).OrderByDescending(c => depth[c]).ToList();
        foreach (var cell in rest)
        {
            if (_way[cell] != int.MaxValue) continue;
            cancel.ThrowIfCancellationRequested();
            StartAt(cell, cancel);
        }

        MakeNodes(cancel);
        SortCells();
    }

    /// <summary>Of the deepest cubes the one nearest to the centroid.</summary>
    private int Middle(int[] depth)
    {
        var (centroid, volume, most) = (Vec3.Zero, 0.0, 0);
        for (var cell = 0; cell < depth.Length; cell++)
        {
            centroid += _cells.Center(cell) * _cells.Volumes[cell];
            volume += _cells.Volumes[cell];
            most = Math.Max(most, depth[cell]);
        }

        centroid /= Math.Max(volume, 1e-12);
        var (best, nearest) = (0, double.PositiveInfinity);
        for (var cell = 0; cell < depth.Length; cell++)
        {
            if (depth[cell] < most) continue;
            var distance = (_cells.Center(cell) - centroid).LengthSquared;
            if (distance < nearest) (best, nearest) = (cell, distance);
        }

        return best;
    }

    private void StartAt(int cell, CancellationToken cancel)
    {
        _way[cell] = 0;
        _cells.Spread(_way, [cell], cancel);
    }

    public double SlabMm => SlabThirds / 3.0 * _cells.PitchMm;

    public double Volume(int node) => _volume[node];

    public Vec3 Center(int node) => _moment[node] / _volume[node];

    /// <summary>Around the middles of its cubes.</summary>
    public BoundingBox Box(int node) => _box[node];

    [SkipLocalsInit]
    private void MakeNodes(CancellationToken cancel)
    {
        Array.Fill(_nodeOf, -1);
        Span<(int Cell, int Thirds)> around = stackalloc (int, int)[64];
        var stack = new Stack<int>();
        var (taken, linked) = (0, (-1, -1));
        for (var seed = 0; seed < _cells.Count; seed++)
        {
            if (_nodeOf[seed] >= 0) continue;
            var (node, level) = (_level.Count, _way[seed] / SlabThirds);
            var (volume, moment, box) = (0.0, Vec3.Zero, BoundingBox.Empty);
            _level.Add(level);
            _links.Add([]);
            _nodeOf[seed] = node;
            stack.Push(seed);
            while (stack.TryPop(out var cell))
            {
                if ((++taken & 8191) == 0) cancel.ThrowIfCancellationRequested();
                var center = _cells.Center(cell);
                volume += _cells.Volumes[cell];
                moment += center * _cells.Volumes[cell];
                box = box.Including(center);
                var count = _cells.Neighbours(cell, around);
                for (var n = 0; n < count; n++)
                {
                    var next = around[n].Cell;
                    if (_nodeOf[next] is var other && other >= 0)
                    {
                        if (other != node && linked != (node, other)) Link(node, other, level);
                        linked = (node, other);
                        continue;
                    }

                    if (_way[next] / SlabThirds != level) continue;
                    _nodeOf[next] = node;
                    stack.Push(next);
                }
            }

            _volume.Add(Math.Max(volume, 1e-12));
            _moment.Add(moment);
            _box.Add(box);
        }
    }

    /// <summary>Two nodes that touch, at neighbouring distances; kept with the nearer one.</summary>
    private void Link(int node, int other, int level)
    {
        var (near, far) = _level[other] > level ? (node, other) : (other, node);
        if (!_links[near].Contains(far)) _links[near].Add(far);
    }

    private void SortCells()
    {
        _cellStarts = new int[_level.Count + 1];
        foreach (var node in _nodeOf) _cellStarts[node + 1]++;
        for (var n = 1; n < _cellStarts.Length; n++) _cellStarts[n] += _cellStarts[n - 1];
        _cellsByNode = new int[_cells.Count];
        var at = _cellStarts.ToArray();
        for (var cell = 0; cell < _cells.Count; cell++) _cellsByNode[at[_nodeOf[cell]]++] = cell;
    }

    private sealed class Piece(int level)
    {
        public int Tip = level;
        public List<LimbSlab> Branch = [];
    }

    /// <summary>The slender branches, each as the slabs it hangs on, from its tip to where it joins another or becomes too stout.</summary>
    public List<List<LimbSlab>> Branches()
    {
        var parent = Enumerable.Range(0, _level.Count).ToArray();
        var pieces = new Piece?[_level.Count];
        var branches = new List<List<LimbSlab>>();
        foreach (var level in Enumerable.Range(0, _level.Count).GroupBy(n => _level[n]).OrderByDescending(g => g.Key))
        {
            foreach (var node in level)
            {
                pieces[node] = new(_level[node]);
                foreach (var beyond in _links[node]) Join(node, beyond);
            }

            // Of pieces joined by now, those with one slab at this distance hang on it.
            foreach (var group in level.GroupBy(Find))
            {
                var piece = pieces[group.Key]!;
                if (group.Count() > 1) continue;
                var slab = new LimbSlab(group.First(), (piece.Tip - level.Key) * SlabMm);
                if (IsSlender(slab)) piece.Branch.Add(slab);
                else Close(piece);
            }
        }

        branches.AddRange(Enumerable.Range(0, _level.Count).Where(n => Find(n) == n).Select(n => pieces[n]!.Branch).Where(b => b.Count > 0));
        return branches;

        void Close(Piece piece)
        {
            if (piece.Branch.Count > 0) branches.Add(piece.Branch);
            piece.Branch = [];
        }

        int Find(int n)
        {
            while (parent[n] != n) n = parent[n] = parent[parent[n]];
            return n;
        }

        void Join(int one, int other)
        {
            var (a, b) = (Find(one), Find(other));
            if (a == b) return;
            var (p, q) = (pieces[a]!, pieces[b]!);
            parent[b] = a;
            if (p.Branch.Count > 0 && q.Branch.Count > 0)
            {
                Close(p);
                Close(q);
            }
            else if (q.Branch.Count > 0)
            {
                p.Branch = q.Branch;
            }

            p.Tip = Math.Max(p.Tip, q.Tip);
        }
    }

    private bool IsSlender(LimbSlab slab) => slab.ReachMm >= Math.Max(ShortestMm, 2 * SlabMm) && slab.ReachMm >= LeastSlender * Width(slab.Node);

    /// <summary>Diameter of a round bar as thick as the slab.</summary>
    public double Width(int node) => Math.Sqrt(4 / Math.PI * _volume[node] / SlabMm);

    /// <summary>About what is beyond a slab, half of the slab itself, or all else where that is the smaller part: volume, centroid, and how far it reaches from the slab.</summary>
    public (double Volume, Vec3 Centroid, double Reach) Beyond(int slab)
    {
        var (sides, beyond) = Sides(slab);
        var (volume, moment, reach) = (_volume[slab] / 2, _moment[slab] * 0.5, SlabMm / 2);
        for (var n = 0; n < sides.Length; n++)
        {
            if (n == slab || sides[n] != beyond) continue;
            (volume, moment) = (volume + _volume[n], moment + _moment[n]);
            reach = Math.Max(reach, Vec3.Distance(Center(n), Center(slab)) + (SlabMm / 2));
        }

        return (volume, moment / volume, reach);
    }

    /// <summary>The same by cubes, with the place farthest from the section.</summary>
    /// <param name="at">Middle of the section; the slab itself is shared out by its plane.</param>
    /// <param name="axis">Its normal, away from the middle of the part.</param>
    /// <returns>Beyond is false where the other side is the smaller.</returns>
    public (double Volume, Vec3 Centroid, Vec3 Tip, bool Beyond) Beyond(int slab, Vec3 at, Vec3 axis)
    {
        var (sides, side) = Sides(slab);
        var (volume, moment, tip, far) = (0.0, Vec3.Zero, at, -1.0);
        for (var n = 0; n < sides.Length; n++)
        {
            if (n != slab && sides[n] != side) continue;
            for (var i = _cellStarts[n]; i < _cellStarts[n + 1]; i++)
            {
                var cell = _cellsByNode[i];
                var center = _cells.Center(cell);
                if (n == slab && Vec3.Dot(center - at, axis) > 0 != (side == Side.Beyond)) continue;
                volume += _cells.Volumes[cell];
                moment += center * _cells.Volumes[cell];
                if ((center - at).LengthSquared is var d && d > far) (far, tip) = (d, center);
            }
        }

        return (volume, volume > 0 ? moment / volume : at, tip, side == Side.Beyond);
    }

    private enum Side
    {
        None,
        Beyond,
        Behind,
    }

    /// <summary>On which side of a slab each node of its piece lies, and the smaller of the sides.</summary>
    private (Side[] Sides, Side Smaller) Sides(int slab)
    {
        _backLinks ??= BackLinks();
        var sides = new Side[_level.Count];
        double beyond = 0, behind = 0;
        var stack = new Stack<int>(_links[slab]);
        while (stack.TryPop(out var node))
        {
            if (sides[node] != Side.None) continue;
            sides[node] = Side.Beyond;
            beyond += _volume[node];
            foreach (var next in _links[node]) stack.Push(next);
            foreach (var next in _backLinks[node]) if (next != slab) stack.Push(next);
        }

        foreach (var node in _backLinks[slab]) stack.Push(node);
        while (stack.TryPop(out var node))
        {
            if (sides[node] != Side.None || node == slab) continue;
            sides[node] = Side.Behind;
            behind += _volume[node];
            foreach (var next in _links[node]) stack.Push(next);
            foreach (var next in _backLinks[node]) stack.Push(next);
        }

        return (sides, beyond <= behind ? Side.Beyond : Side.Behind);
    }

    private List<int>[]? _backLinks;

    private List<int>[] BackLinks()
    {
        var back = new List<int>[_level.Count];
        for (var n = 0; n < back.Length; n++) back[n] = [];
        for (var n = 0; n < back.Length; n++)
            foreach (var other in _links[n]) back[other].Add(n);
        return back;
    }
}
