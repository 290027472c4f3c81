using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Limbs;

/// <summary>The material of a part as cubes of the columns' pitch, only where there is some: numbered column after column, upward.</summary>
/// <remarks>A stretch of material takes the cubes it fills at least half, and at least one; what it fills beyond them is counted to the nearest, so that volumes are the columns' own.</remarks>
internal sealed class SolidCells
{
    private readonly SolidColumns _columns;

    // For each stretch: the layer of its lowest cube, the number of its first cube.
    private readonly int[] _lowest;
    private readonly int[] _first;
    private readonly int[] _spanOf;
    private readonly int[] _columnOf;

    public SolidCells(SolidColumns columns)
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
        (_spanOf, _columnOf, Volumes) = (new int[Count], new int[spans.Length], new float[Count]);
        for (var c = 0; c < columns.Width * columns.Depth; c++)
            for (var s = columns.Starts[c]; s < columns.Starts[c + 1]; s++) _columnOf[s] = c;
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
    }

    public int Count { get; }

    public double PitchMm => _columns.PitchMm;

    /// <summary>Material of each cube, mm³.</summary>
    public float[] Volumes { get; }

    public Vec3 Center(int cell)
    {
        var s = _spanOf[cell];
        var column = _columnOf[s];
        return _columns.At(column % _columns.Width, column / _columns.Width, (_lowest[s] + cell - _first[s] + 0.5) * PitchMm);
    }

    /// <summary>The up to 26 cubes around one, each with its distance in thirds of a cube: 3 by a face, 4 by an edge, 5 by a corner.</summary>
    public int Neighbours(int cell, Span<(int Cell, int Thirds)> around)
    {
        var s = _spanOf[cell];
        var (column, layer) = (_columnOf[s], _lowest[s] + cell - _first[s]);
        var (i, j) = (column % _columns.Width, column / _columns.Width);
        var count = 0;
        for (var dj = -1; dj <= 1; dj++)
        {
            if (j + dj < 0 || j + dj >= _columns.Depth) continue;
            for (var di = -1; di <= 1; di++)
            {
                if (i + di < 0 || i + di >= _columns.Width) continue;
                var other = column + (dj * _columns.Width) + di;
                for (var t = _columns.Starts[other]; t < _columns.Starts[other + 1]; t++)
                {
                    var (low, high) = (Math.Max(layer - 1, _lowest[t]), Math.Min(layer + 1, _lowest[t] + _first[t + 1] - _first[t] - 1));
                    for (var k = low; k <= high; k++)
                    {
                        var steps = Math.Abs(di) + Math.Abs(dj) + Math.Abs(k - layer);
                        if (steps > 0 && count < around.Length) around[count++] = (_first[t] + k - _lowest[t], 2 + steps);
                    }
                }
            }
        }

        return count;
    }

    /// <summary>
    /// Ways through the material, in thirds of a cube (chamfer 3-4-5, within 8 % of straight), from cubes already at 0 to all that are at
    /// <see cref="int.MaxValue"/> and can be reached. O(cubes).
    /// </summary>
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
        var (column, layer) = (_columnOf[s], _lowest[s] + cell - _first[s]);
        var (i, j) = (column % _columns.Width, column / _columns.Width);
        var count = 0;
        if (cell > _first[s]) around[count++] = cell - 1;
        if (cell + 1 < _first[s + 1]) around[count++] = cell + 1;
        if (i > 0) At(column - 1, around);
        if (i + 1 < _columns.Width) At(column + 1, around);
        if (j > 0) At(column - _columns.Width, around);
        if (j + 1 < _columns.Depth) At(column + _columns.Width, around);
        return count;

        void At(int other, Span<int> into)
        {
            for (var t = _columns.Starts[other]; t < _columns.Starts[other + 1]; t++)
            {
                var number = layer - _lowest[t];
                if (number < 0 || number >= _first[t + 1] - _first[t]) continue;
                into[count++] = _first[t] + number;
                return;
            }
        }
    }
}
