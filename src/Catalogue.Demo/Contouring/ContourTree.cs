using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Contouring;

/// <summary>Where a grid edge passes through the surface, and the outward normal there.</summary>
internal readonly record struct Crossing(Vec3 Point, Vec3 Normal);

/// <summary>
/// An octree around the surface of a <see cref="Shape"/>: cells the surface cannot reach are left out by the distance at their centre,
/// the others are divided until they are small enough and their piece of surface is flat (or one sharp edge or corner) to the tolerance.
/// </summary>
/// <remarks>
/// Coordinates are whole multiples of the finest cell. Corner values are kept by coordinate, so that cells of different size which share a
/// corner see the same sign. Cost: O(surface area / cell²) evaluations.
/// </remarks>
internal sealed class ContourTree
{
    private readonly ContourSettings _settings;
    private readonly int _coarsest;
    private readonly int _sharp;
    private readonly Vec3 _origin;
    private readonly GridTable<double> _corners = new(15);
    private readonly GridTable<Crossing> _crossings = new(14);
    private readonly List<int> _firstChild = [];
    private readonly List<(int X, int Y, int Z, int Size)> _cells = [];
    private readonly List<Shape> _shapes = [];
    private readonly List<int> _surfaceLeaves = [];
    private readonly CancellationToken _cancel;

    public ContourTree(Shape shape, ContourSettings settings, CancellationToken cancel)
    {
        (_settings, _cancel) = (settings, cancel);
        (_coarsest, _sharp) = (settings.CoarsestInFinest, settings.SharpInFinest);
        var size = shape.Bounds.Size;
        var need = Math.Max(size.X, Math.Max(size.Y, size.Z)) + (4 * settings.Coarsest);
        var root = _coarsest;
        while (root * settings.Finest < need) root *= 2;
        if (root > 1 << 14) throw new ArgumentException($"A shape of {need:F0} mm is too large for cells of {settings.Finest} mm.", nameof(shape));

        // An odd shift keeps flat faces of the model off the planes of the grid, where signs would be decided by rounding.
        _origin = shape.Bounds.Center - (new Vec3(0.5, 0.5, 0.5) * (root * settings.Finest))
            + (new Vec3(0.2861, 0.3917, 0.3347) * settings.Finest);
        Root = AddCell(0, 0, 0, root, shape);
        Divide(Root);
    }

    public int Root { get; }

    /// <summary>Leaves whose corners have both signs.</summary>
    public IReadOnlyList<int> SurfaceLeaves => _surfaceLeaves;

    public (int X, int Y, int Z, int Size) Cell(int node) => _cells[node];

    /// <summary>The shape as far as it matters in the cell.</summary>
    public Shape ShapeIn(int node) => _shapes[node];

    public bool IsKnownCorner(int x, int y, int z) => _corners.Contains(Key(x, y, z));

    public Vec3 Position(double x, double y, double z) => _origin + (new Vec3(x, y, z) * _settings.Finest);

    /// <summary>Whether a corner, which must be known, lies inside.</summary>
    public bool IsInside(int x, int y, int z) => KnownCorner(x, y, z) < 0;

    /// <summary>The leaf that holds the point given in half units (twice the grid coordinate); −1 outside the tree.</summary>
    public int Locate(int x2, int y2, int z2)
    {
        var (_, _, _, root) = _cells[Root];
        if (x2 < 0 || y2 < 0 || z2 < 0 || x2 > 2 * root || y2 > 2 * root || z2 > 2 * root) return -1;
        var node = Root;
        while (_firstChild[node] >= 0)
        {
            var (x, y, z, size) = _cells[node];
            var child = (x2 > (2 * x) + size ? 1 : 0) | (y2 > (2 * y) + size ? 2 : 0) | (z2 > (2 * z) + size ? 4 : 0);
            node = _firstChild[node] + child;
        }

        return node;
    }

    /// <summary>The crossing on the edge from (x, y, z) along <paramref name="axis"/> (0, 1, 2), whose ends must have different signs.</summary>
    /// <remarks><paramref name="shape"/> is that of a cell the edge belongs to.</remarks>
    public Crossing CrossingOn(Shape shape, int x, int y, int z, int axis, int length)
    {
        var key = EdgeKey(x, y, z, axis, length);
        if (_crossings.TryGet(key, out var known)) return known;
        var (bx, by, bz) = Step(x, y, z, axis, length);
        var found = FindCrossing(shape, Position(x, y, z), KnownCorner(x, y, z), Position(bx, by, bz), KnownCorner(bx, by, bz));
        _crossings.TryAdd(key, found);
        return found;
    }

    public static (int X, int Y, int Z) Step(int x, int y, int z, int axis, int by) => axis switch
    {
        0 => (x + by, y, z),
        1 => (x, y + by, z),
        _ => (x, y, z + by),
    };

    /// <summary>A number that is one edge's alone: 15 bits a coordinate, two for the axis, four for the size's logarithm.</summary>
    public static long EdgeKey(int x, int y, int z, int axis, int length) =>
        (Key(x, y, z) << 6) | ((long)axis << 4) | (long)int.Log2(length);

    private static long Key(int x, int y, int z) => ((long)x << 30) | ((long)y << 15) | (long)z;

    private double KnownCorner(int x, int y, int z) => _corners.TryGet(Key(x, y, z), out var value)
        ? value
        : throw new InvalidOperationException("A corner was asked for that no surface cell has.");

    private double Corner(Shape shape, int x, int y, int z)
    {
        var key = Key(x, y, z);
        if (_corners.TryGet(key, out var value)) return value;
        value = shape.Distance(Position(x, y, z));
        _corners.TryAdd(key, value);
        return value;
    }

    private int AddCell(int x, int y, int z, int size, Shape shape)
    {
        _cells.Add((x, y, z, size));
        _shapes.Add(shape);
        _firstChild.Add(-1);
        return _cells.Count - 1;
    }

    private void Divide(int node)
    {
        var (x, y, z, size) = _cells[node];
        var half = size * 0.5;
        var center = Position(x + half, y + half, z + half);

        var reach = half * _settings.Finest * Math.Sqrt(3);
        var shape = _shapes[node];
        var away = Math.Abs(shape.Distance(center));
        if (away > reach * shape.Growth) return;
        if (size <= _coarsest)
        {
            if (HasBothSigns(shape, x, y, z, size))
            {
                if (size == 1 || IsFlat(shape, x, y, z, size))
                {
                    _surfaceLeaves.Add(node);
                    return;
                }
            }
            else if (size == 1 || away > 0.95 * half * _settings.Finest)
            {
                return;
            }

            // No plane passes so near the centre without parting the corners: a rod, a hole or a wall hides in the cell.
        }

        // A little more than the reach: normals are taken by differences.
        shape = shape.Near(center, reach + 1e-3);
        _cancel.ThrowIfCancellationRequested();
        var h = size / 2;
        var first = _cells.Count;
        _firstChild[node] = first;
        for (var i = 0; i < 8; i++) AddCell(x + ((i & 1) * h), y + ((i >> 1 & 1) * h), z + ((i >> 2) * h), h, shape);
        for (var i = 0; i < 8; i++) Divide(first + i);
    }

    private bool HasBothSigns(Shape shape, int x, int y, int z, int size)
    {
        var inside = 0;
        for (var i = 0; i < 8; i++)
        {
            if (Corner(shape, x + ((i & 1) * size), y + ((i >> 1 & 1) * size), z + ((i >> 2) * size)) < 0) inside++;
        }

        return inside is > 0 and < 8;
    }

    /// <summary>True when the tangent planes at the cell's crossings meet within the tolerance, in the cell, on the surface.</summary>
    private bool IsFlat(Shape shape, int x, int y, int z, int size)
    {
        var quadric = new TangentPlanes();
        for (var axis = 0; axis < 3; axis++)
        {
            for (var i = 0; i < 4; i++)
            {
                var (ex, ey, ez) = axis switch
                {
                    0 => (x, y + ((i & 1) * size), z + ((i >> 1) * size)),
                    1 => (x + ((i & 1) * size), y, z + ((i >> 1) * size)),
                    _ => (x + ((i & 1) * size), y + ((i >> 1) * size), z),
                };
                var (fx, fy, fz) = Step(ex, ey, ez, axis, size);
                if (IsInside(ex, ey, ez) != IsInside(fx, fy, fz)) quadric.Add(CrossingOn(shape, ex, ey, ez, axis, size));
            }
        }

        var low = Position(x, y, z);
        var high = Position(x + size, y + size, z + size);
        if (quadric.Spread >= TangentPlanes.Smooth) // all within 20° of the mean: smooth
        {
            if (size <= _sharp) return true;
            var v = quadric.Mean;
            v -= quadric.MeanNormal * shape.Distance(v);

            // The tangent planes leave a curved surface twice as fast as the chords between neighbouring vertices do.
            return quadric.Farthest(v) <= 2 * _settings.Tolerance && Math.Abs(shape.Distance(v)) <= _settings.Tolerance;
        }

        // A sharp edge or corner, whose planes meet on the surface; or a tight curve, whose planes do not.
        var corner = quadric.Solve();
        var kept = new Vec3(Math.Clamp(corner.X, low.X, high.X), Math.Clamp(corner.Y, low.Y, high.Y), Math.Clamp(corner.Z, low.Z, high.Z));
        var off = Math.Abs(shape.Distance(kept));
        return size <= _sharp
            ? off <= _settings.Tolerance / 4
            : kept == corner && quadric.Farthest(corner) <= _settings.Tolerance && off <= _settings.Tolerance / 2;
    }

    /// <summary>Regula falsi with the Illinois correction; the point stays off the ends of the edge.</summary>
    private static Crossing FindCrossing(Shape shape, Vec3 a, double fa, Vec3 b, double fb)
    {
        var (low, high) = (0.0, 1.0);
        var (t, f) = (0.5, 0.0);
        for (var i = 0; i < 12; i++)
        {
            t = low + ((high - low) * fa / (fa - fb));
            f = shape.Distance(a + ((b - a) * t));
            if (Math.Abs(f) < 1e-5) break;
            if (f < 0 == fa < 0)
            {
                (low, fa) = (t, f);
                fb /= 2;
            }
            else
            {
                (high, fb) = (t, f);
                fa /= 2;
            }
        }

        if (t is < 0.001 or > 0.999)
        {
            t = Math.Clamp(t, 0.001, 0.999);
            f = shape.Distance(a + ((b - a) * t));
        }

        var p = a + ((b - a) * t);
        return new(p, shape.Gradient(p, f).Normalized());
    }
}
