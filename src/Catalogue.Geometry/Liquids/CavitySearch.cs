using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>Makes cavities of rooms and of the voids that the nesting of shells proves.</summary>
internal sealed class CavitySearch
{
    /// <summary>An opening narrower than this is a fault of the grid at a thin wall, or may as well not be there.</summary>
    private const double LeastOpeningMm = 0.15;

    private readonly TriangleTree _tree;
    private readonly MeshHealth _health;
    private readonly SolidColumns _columns;
    private readonly Rooms _rooms;
    private readonly WallSearch _walls;
    private readonly LiquidInPose _pose;

    private CavitySearch(TriangleTree tree, MeshHealth health, SolidColumns columns, Rooms rooms, WallSearch walls, LiquidInPose pose) =>
        (_tree, _health, _columns, _rooms, _walls, _pose) = (tree, health, columns, rooms, walls, pose);

    public static IReadOnlyList<Cavity> Find(
        TriangleTree tree, MeshHealth health, SolidColumns columns, Rooms rooms, WallSearch walls, LiquidInPose pose, CancellationToken cancel) =>
        new CavitySearch(tree, health, columns, rooms, walls, pose).Find(cancel);

    private List<Cavity> Find(CancellationToken cancel)
    {
        var voidOf = Enumerable.Range(0, _rooms.Cubes.Count).Select(r => r == 0 ? -1 : VoidAround(Place(_rooms.Cubes[r][0]))).ToArray();
        // Rooms of one void are one cavity; elsewhere each room is one.
        var groups = Enumerable.Range(1, _rooms.Cubes.Count - 1).GroupBy(r => voidOf[r] >= 0 ? -1 - voidOf[r] : r).Select(g => g.ToList()).ToList();
        var cavityOf = new int[_rooms.Cubes.Count];
        cavityOf[0] = -1;
        var drafts = new List<Cavity>();
        foreach (var group in groups)
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var room in group) cavityOf[room] = drafts.Count;
            drafts.Add(voidOf[group[0]] is >= 0 and var shell
                ? OfCubes(group) with { VolumeMm3 = VolumeOf(shell), Sealed = true }
                : OfCubes(group));
        }

        var openings = Openings(cavityOf, voidOf, cancel);
        for (var c = 0; c < drafts.Count; c++)
        {
            if (drafts[c].Sealed) continue;
            drafts[c] = drafts[c] with
            {
                Openings = openings[c],
                Sealed = openings[c].Count == 0 && !IsReached(_rooms.Cubes[groups[c][0]][0]),
            };
        }

        var seen = voidOf.ToHashSet();
        for (var s = 0; s < _health.Shells.Count; s++)
            if (_health.Shells[s].Kind == ShellKind.Void && !seen.Contains(s)) drafts.Add(OfSmallVoid(s));
        return Largest(drafts);
    }

    private Cavity OfCubes(List<int> group)
    {
        var cubes = group.SelectMany(r => _rooms.Cubes[r]).ToList();
        var points = NearWalls(cubes).ToList();
        var (low, high) = (points.Min(p => p.Z), points.Max(p => p.Z));
        var near = Math.Max(0.1 * (high - low), 1);
        var skin = _walls.Thinnest(points);
        return new()
        {
            VolumeMm3 = cubes.Count * Math.Pow(_rooms.Grid.Size, 3),
            At = Place(Deepest(_rooms.Cubes[group[0]])),
            Sealed = false,
            Openings = [],
            SkinMm = skin?.WallMm,
            SkinAt = skin?.At,
            Drain = _walls.From(points.Where(p => p.Z >= high - near), down: true),
            Vent = _walls.From(points.Where(p => p.Z <= low + near), down: false),
        };
    }

    /// <summary>Of the cubes farthest from the walls the one nearest to their middle. The widest come first.</summary>
    private int Deepest(IReadOnlyList<int> cubes)
    {
        var clearance = _rooms.Grid.Clearance;
        var deepest = cubes.TakeWhile(c => clearance[c] == clearance[cubes[0]]).ToList();
        var middle = deepest.Aggregate(Vec3.Zero, (sum, c) => sum + _rooms.Grid.Middle(c)) / deepest.Count;
        return deepest.MinBy(c => (_rooms.Grid.Middle(c) - middle).LengthSquared);
    }

    /// <summary>Middles of the cubes of a room that touch material.</summary>
    private IEnumerable<Vec3> NearWalls(List<int> cubes)
    {
        var any = false;
        foreach (var cube in cubes)
        {
            if (!_rooms.Grid.Beside.Any(step => _rooms.RoomOf(cube + step) < 0)) continue;
            any = true;
            yield return _rooms.Grid.Middle(cube);
        }

        if (!any) yield return _rooms.Grid.Middle(cubes[0]);
    }

    /// <summary>A void too small for the grid: what its shell says.</summary>
    private Cavity OfSmallVoid(int shell) => new()
    {
        VolumeMm3 = VolumeOf(shell),
        At = _health.Shells[shell].At,
        Sealed = true,
        Openings = [],
        SkinMm = null,
        SkinAt = null,
        Drain = null,
        Vent = null,
    };

    private double VolumeOf(int shell) => Math.Abs(_health.Shells[shell].VolumeMm3)
        - _health.Shells.Where(s => s.Parent == shell && s.Kind == ShellKind.Solid).Sum(s => Math.Abs(s.VolumeMm3));

    /// <summary>The void shell a place lies in, −1 for none.</summary>
    private int VoidAround(Vec3 place)
    {
        if (_tree.FirstHit(new(place, new(0.5403023, 0.3817732, 0.7498112))) is not { } hit) return -1;
        var shell = _health.ShellOfTriangle.Span[hit.Triangle];
        if (shell >= 0 && _health.Shells[shell].Kind == ShellKind.Solid) shell = _health.Shells[shell].Parent;
        return shell >= 0 && _health.Shells[shell].Kind == ShellKind.Void ? shell : -1;
    }

    private List<List<CavityOpening>> Openings(int[] cavityOf, int[] voidOf, CancellationToken cancel)
    {
        var gauge = new OpeningGauge(_tree, _rooms.Grid.Size);
        var found = Enumerable.Range(0, cavityOf.Max() + 1).Select(_ => new List<CavityOpening>()).ToList();
        foreach (var door in _rooms.Doors.OrderByDescending(d => d.Clearance))
        {
            cancel.ThrowIfCancellationRequested();
            if (voidOf[door.Room] >= 0 || voidOf[door.Beyond] >= 0) continue;
            var toward = new Vec3(door.Toward.X, door.Toward.Y, door.Toward.Z);
            if (toward.LengthSquared < 1) toward = _rooms.Grid.Middle(door.Cube) - _rooms.Grid.Middle(_rooms.Cubes[door.Room][0]);
            if (toward.LengthSquared == 0) toward = Vec3.UnitZ;
            var (diameter, at) = gauge.Measure(Place(door.Cube), _columns.Rotation.Inverse().Apply(toward));
            if (diameter < LeastOpeningMm) continue;
            Add(found[cavityOf[door.Room]], new(diameter, at, cavityOf[door.Beyond]));
            if (door.Beyond > 0) Add(found[cavityOf[door.Beyond]], new(diameter, at, cavityOf[door.Room]));
        }

        return found;

        // The rim of a door may fall into pieces on the grid: what lies within the ball of a wider one is the same opening.
        void Add(List<CavityOpening> list, CavityOpening opening)
        {
            if (list.Any(o => o.Beyond == opening.Beyond && Vec3.Distance(o.At, opening.At) < Math.Max((o.DiameterMm + opening.DiameterMm) / 2, _rooms.Grid.Size))) return;
            list.Add(opening);
        }
    }

    /// <summary>The largest cavities, renumbered, with what leads to the others left out.</summary>
    private static List<Cavity> Largest(List<Cavity> cavities)
    {
        var kept = Enumerable.Range(0, cavities.Count).OrderByDescending(c => cavities[c].VolumeMm3).ThenBy(c => c).Take(TrappedLiquid.Most).ToList();
        return [.. kept.Select(c => cavities[c] with
        {
            Openings = [.. cavities[c].Openings.Where(o => o.Beyond < 0 || kept.Contains(o.Beyond))
                .Select(o => o.Beyond < 0 ? o : o with { Beyond = kept.IndexOf(o.Beyond) })
                .OrderByDescending(o => o.DiameterMm).Take(TrappedLiquid.Most)],
        })];
    }

    private Vec3 Place(int cube) => _columns.InFile(_rooms.Grid.Middle(cube));

    private bool IsReached(int cube)
    {
        var p = _rooms.Grid.Middle(cube);
        var (i, j) = _columns.Nearest(p.X, p.Y);
        return i >= 0 && i < _columns.Width && j >= 0 && j < _columns.Depth && _pose.IsReached((j * _columns.Width) + i, p.Z);
    }
}
