using System.Runtime.InteropServices;

namespace Catalogue.Geometry.Liquids;

/// <summary>Where two rooms, or a room and the outside, meet.</summary>
/// <param name="Room">Number of a room.</param>
/// <param name="Beyond">Number of a higher room, or 0 for the outside.</param>
/// <param name="Cube">The widest place, on the room's side.</param>
/// <param name="Toward">Direction from the room to what lies beyond, in cubes.</param>
internal readonly record struct RoomDoor(int Room, int Beyond, int Cube, byte Clearance, (double X, double Y, double Z) Toward);

/// <summary>The hollows of a part that are notably wider than the ways into them.</summary>
/// <remarks>
/// Cubes are taken from the widest place to the narrowest; each joins the group beside it, or starts one. Where two groups meet, the place is a door
/// if both groups are at least half as wide again inside as there; else they are one (watershed by flooding:
/// Vincent and Soille, IEEE PAMI 13, 1991, with persistence as the measure of a basin). The outside is group 0. A room as wide as its way
/// out (a cup, a blind tube) is no room: it is outside. Rooms below <see cref="LeastMm3"/> or two cubes across join their widest
/// neighbour; those without one are rounding, or a void that the shells tell of. O(cubes).
/// </remarks>
internal sealed class Rooms
{
    public const double LeastMm3 = 5;
    private const double Wider = 1.5;

    private readonly ClearanceGrid _grid;
    private readonly List<int> _parent = [0, 1];
    private readonly List<int> _peak = [0, 256];

    // Group of each cube + 1; 0 for none (material).
    private readonly int[] _label;
    private readonly List<int> _inside = [];

    private Rooms(ClearanceGrid grid)
    {
        _grid = grid;
        _label = new int[grid.Clearance.Length];
    }

    /// <summary>Cubes of each room; the outside, number 0, has none listed.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Cubes { get; private set; } = [];

    public IReadOnlyList<RoomDoor> Doors { get; private set; } = [];

    public ClearanceGrid Grid => _grid;

    /// <summary>0 outside, else the number of the room; −1 in material.</summary>
    public int RoomOf(int cube) => cube < 0 ? 0 : _label[cube] - 1;

    public static Rooms Of(ClearanceGrid grid, CancellationToken cancel)
    {
        var rooms = new Rooms(grid);
        rooms.FloodOutside(cancel);
        cancel.ThrowIfCancellationRequested();
        var order = rooms.WidestFirst();
        cancel.ThrowIfCancellationRequested();
        rooms.Join(order, cancel);
        rooms.JoinSmall();
        rooms.Number();
        rooms.FindDoors();
        return rooms;
    }

    private void FloodOutside(CancellationToken cancel)
    {
        var (w, d, h) = (_grid.Width, _grid.Depth, _grid.Height);
        var clearance = _grid.Clearance;
        var stack = new Stack<int>();
        for (var j = 0; j < d; j++)
        {
            for (var i = 0; i < w; i++)
            {
                var rim = i == 0 || i == w - 1 || j == 0 || j == d - 1;
                var first = ((j * w) + i) * h;
                for (var k = 0; k < h; k += rim ? 1 : h - 1) Take(first + k);
            }
        }

        var beside = _grid.Beside;
        var taken = 0;
        while (stack.TryPop(out var cube))
        {
            if ((++taken & 0xffff) == 0) cancel.ThrowIfCancellationRequested();
            foreach (var step in beside)
            {
                var other = cube + step;
                if (other >= 0 && other < _label.Length && _label[other] == 0 && clearance[other] == ClearanceGrid.Wide) Take(other);
            }
        }

        void Take(int cube)
        {
            _label[cube] = 1;
            stack.Push(cube);
        }
    }

    private int[] WidestFirst()
    {
        var clearance = _grid.Clearance;
        var starts = new int[257];
        for (var c = 0; c < clearance.Length; c++)
            if (_label[c] == 0 && clearance[c] != 0) starts[256 - clearance[c]]++;
        for (var q = 1; q < 257; q++) starts[q] += starts[q - 1];
        var order = new int[starts[256]];
        for (var c = clearance.Length - 1; c >= 0; c--)
            if (_label[c] == 0 && clearance[c] != 0) order[--starts[256 - clearance[c]]] = c;
        return order;
    }

    private void Join(int[] order, CancellationToken cancel)
    {
        var clearance = _grid.Clearance;
        var halfCube = ClearanceGrid.Byte(0.5 * _grid.Size);
        var beside = _grid.Beside;
        for (var n = 0; n < order.Length; n++)
        {
            if ((n & 0xFFFFF) == 0) cancel.ThrowIfCancellationRequested();
            var cube = order[n];
            var q = clearance[cube];
            var best = 0;
            var (uphill, highest) = (0, -1);
            foreach (var step in beside)
            {
                var label = _label[cube + step];
                if (label == 0) continue;
                var root = Root(label);
                if (clearance[cube + step] > highest) (uphill, highest) = (root, clearance[cube + step]);
                if (best == 0)
                {
                    best = root;
                }
                else if (root != best)
                {
                    if (_peak[root] > _peak[best]) (best, root) = (root, best);
                    if (_peak[root] < Wider * q || _peak[root] < q + halfCube) _parent[root] = best;
                }
            }

            if (best == 0)
            {
                uphill = _parent.Count;
                _parent.Add(uphill);
                _peak.Add(q);
            }

            // Along the walls it belongs to what it widens into, or the outside would creep in along the floor.
            uphill = Root(uphill);
            _label[cube] = uphill;
            if (uphill != 1) _inside.Add(cube);
        }
    }

    private int Root(int label)
    {
        var parents = CollectionsMarshal.AsSpan(_parent);
        while (parents[label] != label) label = parents[label] = parents[parents[label]];
        return label;
    }

    /// <summary>Gives rooms too small to matter to the neighbour with the widest door.</summary>
    private void JoinSmall()
    {
        _inside.RemoveAll(cube => Root(_label[cube]) == 1 && (_label[cube] = 1) == 1);
        var counts = new int[_parent.Count];
        foreach (var cube in _inside) counts[Root(_label[cube])]++;
        var doors = new Dictionary<(int A, int B), byte>();
        foreach (var cube in _inside)
        {
            var a = Root(_label[cube]);
            foreach (var step in _grid.Beside)
            {
                if (_label[cube + step] == 0) continue;
                var b = Root(_label[cube + step]);
                if (a == b) continue;
                var key = a < b ? (a, b) : (b, a);
                var q = Math.Min(_grid.Clearance[cube], _grid.Clearance[cube + step]);
                ref var widest = ref CollectionsMarshal.GetValueRefOrAddDefault(doors, key, out _);
                widest = Math.Max(widest, q);
            }
        }

        var least = LeastMm3 / Math.Pow(_grid.Size, 3);
        var narrow = ClearanceGrid.Byte(_grid.Size);
        var sorted = doors.OrderByDescending(d => d.Value).ThenBy(d => d.Key).ToList();
        for (var changed = true; changed;)
        {
            changed = false;
            foreach (var ((x, y), _) in sorted)
            {
                var (a, b) = (Root(x), Root(y));
                if (a == b || (!IsSmall(a) && !IsSmall(b))) continue;
                if (_peak[a] < _peak[b]) (a, b) = (b, a);
                _parent[b] = a;
                counts[a] += counts[b];
                changed = true;
            }
        }

        bool IsSmall(int root) => root != 1 && (counts[root] < least || _peak[root] <= narrow);
    }

    /// <summary>Numbers the rooms from 1, by size, and writes the numbers (+ 1) into the labels.</summary>
    private void Number()
    {
        var byRoot = new Dictionary<int, List<int>>();
        foreach (var cube in _inside)
        {
            var root = Root(_label[cube]);
            if (root == 1) continue;
            if (!byRoot.TryGetValue(root, out var cubes)) byRoot[root] = cubes = [];
            cubes.Add(cube);
        }

        var least = LeastMm3 / Math.Pow(_grid.Size, 3);
        var rooms = byRoot.Where(r => r.Value.Count >= least).OrderByDescending(r => r.Value.Count).ThenBy(r => r.Value[0]).ToList();
        foreach (var cube in _inside) _label[cube] = 1;
        var listed = new List<IReadOnlyList<int>> { Array.Empty<int>() };
        foreach (var (_, cubes) in rooms)
        {
            foreach (var cube in cubes) _label[cube] = listed.Count + 1;
            listed.Add(cubes);
        }

        // The widest place first: cubes were taken in that order.
        Cubes = listed;
    }

    private void FindDoors()
    {
        var doors = new List<RoomDoor>();
        var beside = _grid.Beside;
        for (var room = 1; room < Cubes.Count; room++)
        {
            var rims = new SortedDictionary<int, HashSet<int>>();
            foreach (var cube in Cubes[room])
            {
                foreach (var step in beside)
                {
                    var beyond = RoomOf(cube + step);
                    if (beyond < 0 || beyond == room || (beyond != 0 && beyond < room)) continue;
                    if (!rims.TryGetValue(beyond, out var rim)) rims[beyond] = rim = [];
                    rim.Add(cube);
                }
            }

            foreach (var (beyond, rim) in rims) doors.AddRange(Clusters(room, beyond, rim));
        }

        Doors = doors;
    }

    /// <summary>The separate doors among the cubes of a room that touch what lies beyond.</summary>
    private IEnumerable<RoomDoor> Clusters(int room, int beyond, HashSet<int> rim)
    {
        var (h, w) = (_grid.Height, _grid.Width);
        foreach (var seed in rim.Order().ToList())
        {
            if (!rim.Remove(seed)) continue;
            var cluster = new List<int> { seed };
            for (var at = 0; at < cluster.Count; at++)
            {
                for (var y = -1; y <= 1; y++)
                    for (var x = -1; x <= 1; x++)
                        for (var z = -1; z <= 1; z++)
                            if (rim.Remove(cluster[at] + (((y * w) + x) * h) + z)) cluster.Add(cluster[at] + (((y * w) + x) * h) + z);
            }

            var (best, width) = (seed, (byte)0);
            double tx = 0, ty = 0, tz = 0;
            foreach (var cube in cluster)
            {
                for (var s = 0; s < 6; s++)
                {
                    var other = cube + _grid.Beside[s];
                    if (RoomOf(other) != beyond) continue;
                    var sign = s % 2 == 0 ? -1 : 1;
                    if (s < 2) tz += sign;
                    else if (s < 4) tx += sign;
                    else ty += sign;
                    var q = Math.Min(_grid.Clearance[cube], _grid.Clearance[other]);
                    if (q > width) (best, width) = (cube, q);
                }
            }

            yield return new(room, beyond, best, width, (tx, ty, tz));
        }
    }
}
