using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Limbs;

/// <summary>The material of a part as cubes of the columns' pitch, only where there is some: numbered column after column, upward.</summary>
/// <remarks>A stretch of material takes the cubes it fills at least half, and at least one; what it fills beyond them is counted to the nearest, so that volumes are the columns' own.</remarks>
internal sealed class SolidCells
{
    private readonly SolidColumns _columns;

    // For each stretch: the layer of its lowest cube, the number of its first cube, its foot at height 0.
    private readonly int[] _lowest;
    private readonly int[] _first;
    private readonly Vec3[] _foot;
    private readonly Vec3 _up;
    private readonly int[] _spanOf;

    // For each stretch those whose cubes may touch its own, itself among them.
    private readonly int[] _besideStarts;
    private readonly Beside[] _beside;

    /// <summary>A stretch beside another.</summary>
    /// <param name="Lowest">Layer of its lowest cube.</param>
    /// <param name="Highest">Of its highest.</param>
    /// <param name="Shift">Number of a cube less its layer.</param>
    /// <param name="Steps">Columns from one to the other, along x and along y: 0, 1 or 2.</param>
    private readonly record struct Beside(int Lowest, int Highest, int Shift, int Steps);

    public SolidCells(SolidColumns columns, CancellationToken cancel)
    {
        _columns = columns;
        var spans = columns.AllSpans;
        var pitch = columns.PitchMm;
        (_lowest, _first) = (new int[spans.Length], new int[spans.Length + 1]);
        for (var s = 0; s < spans.Length; s++)
        {
            var (low, high) = ((int)Math.Round(spans[s].Bottom / pitch), (int)Math.Round(spans[s].Top / pitch) - 1);
            if (high < low) low = high = (int)Math.Floor((spans[s].Bottom + spans[s].Top) / 2 / pitch);
            _lowest[s] = low;
            _first[s + 1] = _first[s] + high - low + 1;
        }

        Count = _first[^1];
        (_spanOf, _foot, Volumes) = (new int[Count], new Vec3[spans.Length], new float[Count]);
        _up = columns.At(0, 0, 1) - columns.At(0, 0, 0);
        for (var c = 0; c < columns.Width * columns.Depth; c++)
            for (var s = columns.Starts[c]; s < columns.Starts[c + 1]; s++) _foot[s] = columns.At(c % columns.Width, c / columns.Width, 0);
        cancel.ThrowIfCancellationRequested();
        var square = pitch * pitch;
        for (var s = 0; s < spans.Length; s++)
        {
            for (var cell = _first[s]; cell < _first[s + 1]; cell++)
            {
                _spanOf[cell] = s;
                var layer = _lowest[s] + cell - _first[s];
                var bottom = cell == _first[s] ? spans[s].Bottom : layer * pitch;
                var top = cell == _first[s + 1] - 1 ? spans[s].Top : (layer + 1) * pitch;
                Volumes[cell] = (float)((top - bottom) * square);
            }
        }

        cancel.ThrowIfCancellationRequested();
        (_besideStarts, _beside) = FindBeside();
    }

    public int Count { get; }

    public double PitchMm => _columns.PitchMm;

    /// <summary>Material of each cube, mm³.</summary>
    public float[] Volumes { get; }

    public Vec3 Center(int cell)
    {
        var s = _spanOf[cell];
        return _foot[s] + (_up * ((_lowest[s] + cell - _first[s] + 0.5) * PitchMm));
    }

    private (int[] Starts, Beside[] All) FindBeside()
    {
        var (starts, all) = (new int[_lowest.Length + 1], new List<Beside>(9 * _lowest.Length));
        for (var column = 0; column < _columns.Width * _columns.Depth; column++)
        {
            var (i, j) = (column % _columns.Width, column / _columns.Width);
            for (var s = _columns.Starts[column]; s < _columns.Starts[column + 1]; s++)
            {
                var (low, high) = (_lowest[s] - 1, Highest(s) + 1);
                for (var dj = Math.Max(-1, -j); dj <= Math.Min(1, _columns.Depth - 1 - j); dj++)
                {
                    for (var di = Math.Max(-1, -i); di <= Math.Min(1, _columns.Width - 1 - i); di++)
                    {
                        var other = column + (dj * _columns.Width) + di;
                        for (var t = _columns.Starts[other]; t < _columns.Starts[other + 1]; t++)
                            if (_lowest[t] <= high && Highest(t) >= low) all.Add(new(_lowest[t], Highest(t), _first[t] - _lowest[t], Math.Abs(di) + Math.Abs(dj)));
                    }
                }

                starts[s + 1] = all.Count;
            }
        }

        return (starts, [.. all]);

        int Highest(int s) => _lowest[s] + _first[s + 1] - _first[s] - 1;
    }

    /// <summary>The up to 26 cubes around one, each with its distance in thirds of a cube: 3 by a face, 4 by an edge, 5 by a corner.</summary>
    public int Neighbours(int cell, Span<(int Cell, int Thirds)> around)
    {
        var s = _spanOf[cell];
        var layer = _lowest[s] + cell - _first[s];
        var count = 0;
        for (var b = _besideStarts[s]; b < _besideStarts[s + 1]; b++)
        {
            ref readonly var beside = ref _beside[b];
            var high = Math.Min(layer + 1, beside.Highest);
            for (var k = Math.Max(layer - 1, beside.Lowest); k <= high; k++)
            {
                var steps = beside.Steps + Math.Abs(k - layer);
                if (steps > 0 && count < around.Length) around[count++] = (k + beside.Shift, 2 + steps);
            }
        }

        return count;
    }

    /// <summary>
    /// Ways through the material, in thirds of a cube (chamfer 3-4-5, within 8 % of straight), from cubes already at 0 to all that are at
    /// <see cref="int.MaxValue"/> and can be reached. O(cubes).
    /// </summary>
    [SkipLocalsInit]
    public void Spread(int[] distance, List<int> from, CancellationToken cancel)
    {
        var buckets = new List<int>[6];
        for (var b = 0; b < 6; b++) buckets[b] = [];
        buckets[0].AddRange(from);
        Span<(int Cell, int Thirds)> around = stackalloc (int, int)[64];
        for (int d = 0, empty = 0; empty < 6; d++)
        {
            var bucket = buckets[d % 6];
            if (bucket.Count == 0)
            {
                empty++;
                continue;
            }

            empty = 0;
            if ((d & 7) == 0) cancel.ThrowIfCancellationRequested();
            foreach (var cell in bucket)
            {
                if (distance[cell] != d) continue;
                var count = Neighbours(cell, around);
                for (var n = 0; n < count; n++)
                {
                    var (next, thirds) = around[n];
                    if (d + thirds >= distance[next]) continue;
                    distance[next] = d + thirds;
                    buckets[(d + thirds) % 6].Add(next);
                }
            }

            bucket.Clear();
        }
    }

    /// <summary>How many cubes, by faces, each one is from the surface: 0 at the surface. O(cubes).</summary>
    public int[] Depths(CancellationToken cancel)
    {
        var depth = new int[Count];
        var queue = new int[Count];
        var (head, tail) = (0, 0);
        Span<int> around = stackalloc int[6];
        for (var cell = 0; cell < Count; cell++)
        {
            depth[cell] = Faces(cell, around) < 6 ? 0 : int.MaxValue;
            if (depth[cell] == 0) queue[tail++] = cell;
        }

        while (head < tail)
        {
            if ((head & 65535) == 0) cancel.ThrowIfCancellationRequested();
            var cell = queue[head++];
            var count = Faces(cell, around);
            for (var n = 0; n < count; n++)
            {
                if (depth[around[n]] != int.MaxValue) continue;
                depth[around[n]] = depth[cell] + 1;
                queue[tail++] = around[n];
            }
        }

        return depth;
    }

    /// <summary>The up to six cubes that share a face with one.</summary>
    private int Faces(int cell, Span<int> around)
    {
        var s = _spanOf[cell];
        var layer = _lowest[s] + cell - _first[s];
        var count = 0;
        if (cell > _first[s]) around[count++] = cell - 1;
        if (cell + 1 < _first[s + 1]) around[count++] = cell + 1;
        for (var b = _besideStarts[s]; b < _besideStarts[s + 1]; b++)
        {
            ref readonly var beside = ref _beside[b];
            if (beside.Steps == 1 && layer >= beside.Lowest && layer <= beside.Highest && count < around.Length) around[count++] = layer + beside.Shift;
        }

        return count;
    }
}
