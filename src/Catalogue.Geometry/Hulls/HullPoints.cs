using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>Points laid out for wide instructions (all x, all y, all z), with the first passes over very many of them.</summary>
internal sealed class HullPoints
{
    private static readonly Vec3[] Probes = SpreadDirections(48);

    private readonly float[] _x;
    private readonly float[] _y;
    private readonly float[] _z;

    private HullPoints(int capacity)
    {
        _x = new float[capacity];
        _y = new float[capacity];
        _z = new float[capacity];
    }

    public int Count { get; private set; }

    public Vec3 this[int i] => new(_x[i], _y[i], _z[i]);

    /// <summary>Takes the points over; with <paramref name="used"/>, only those that are named there. O(n).</summary>
    /// <exception cref="ArgumentException">A coordinate is not finite.</exception>
    public static HullPoints From(ReadOnlySpan<float> positions, ReadOnlySpan<int> used, bool onlyUsed)
    {
        var n = positions.Length / 3;
        var points = new HullPoints(n);
        var vertices = MemoryMarshal.Cast<float, Vector3>(positions);
        if (onlyUsed)
        {
            var seen = new bool[n];
            foreach (var i in used) seen[i] = true;
            for (var i = 0; i < n; i++)
            {
                if (seen[i]) points.Add(vertices[i]);
            }
        }
        else
        {
            foreach (var v in vertices) points.Add(v);
        }

        if (!AllFinite(points._x.AsSpan(0, points.Count)) || !AllFinite(points._y.AsSpan(0, points.Count))
            || !AllFinite(points._z.AsSpan(0, points.Count)))
        {
            throw new ArgumentException("A coordinate is infinite or not a number.", nameof(positions));
        }

        return points;
    }

    private void Add(Vector3 v)
    {
        _x[Count] = v.X;
        _y[Count] = v.Y;
        _z[Count++] = v.Z;
    }

    private static bool AllFinite(ReadOnlySpan<float> values)
    {
        // x · 0 is 0 for finite numbers and NaN otherwise
        var sum = Vector512<float>.Zero;
        var wide = MemoryMarshal.Cast<float, Vector512<float>>(values);
        foreach (var v in wide) sum += v * Vector512<float>.Zero;
        var total = Vector512.Sum(sum);
        foreach (var v in values[(wide.Length * Vector512<float>.Count)..]) total += v * 0;
        return total == 0;
    }

    public BoundingBox Bounds()
    {
        if (Count == 0) return BoundingBox.Empty;
        var (x0, x1) = Range(_x.AsSpan(0, Count));
        var (y0, y1) = Range(_y.AsSpan(0, Count));
        var (z0, z1) = Range(_z.AsSpan(0, Count));
        return new(new(x0, y0, z0), new(x1, y1, z1));
    }

    private static (float Min, float Max) Range(ReadOnlySpan<float> values)
    {
        var (min, max) = (values[0], values[0]);
        var wide = MemoryMarshal.Cast<float, Vector512<float>>(values);
        if (wide.Length > 0)
        {
            var (low, high) = (wide[0], wide[0]);
            foreach (var v in wide)
            {
                low = Vector512.Min(low, v);
                high = Vector512.Max(high, v);
            }

            for (var i = 0; i < Vector512<float>.Count; i++) (min, max) = (Math.Min(min, low[i]), Math.Max(max, high[i]));
        }

        foreach (var v in values[(wide.Length * Vector512<float>.Count)..]) (min, max) = (Math.Min(min, v), Math.Max(max, v));
        return (min, max);
    }

    /// <summary>The index of the point with the largest <paramref name="direction"/> · p; the first of several.</summary>
    public int Farthest(Vec3 direction)
    {
        var (dx, dy, dz) = ((float)direction.X, (float)direction.Y, (float)direction.Z);
        var best = float.NegativeInfinity;
        var at = 0;
        var i = 0;
        if (Count >= 64)
        {
            var (vx, vy, vz) = (Vector512.Create(dx), Vector512.Create(dy), Vector512.Create(dz));
            var wx = MemoryMarshal.Cast<float, Vector512<float>>(_x.AsSpan(0, Count));
            var wy = MemoryMarshal.Cast<float, Vector512<float>>(_y.AsSpan(0, Count));
            var wz = MemoryMarshal.Cast<float, Vector512<float>>(_z.AsSpan(0, Count));
            var most = Vector512.Create(float.NegativeInfinity);
            var where = Vector512<int>.Zero;
            for (var k = 0; k < wx.Length; k++)
            {
                var d = Vector512.FusedMultiplyAdd(vx, wx[k], Vector512.FusedMultiplyAdd(vy, wy[k], vz * wz[k]));
                var larger = Vector512.GreaterThan(d, most);
                most = Vector512.ConditionalSelect(larger, d, most);
                where = Vector512.ConditionalSelect(larger.AsInt32(), Vector512.Create(k), where);
            }

            for (var lane = 0; lane < Vector512<float>.Count; lane++)
            {
                var index = (where[lane] * Vector512<float>.Count) + lane;
                if (most[lane] > best || (most[lane] == best && index < at)) (best, at) = (most[lane], index);
            }

            i = wx.Length * Vector512<float>.Count;
        }

        for (; i < Count; i++)
        {
            var d = (dx * _x[i]) + (dy * _y[i]) + (dz * _z[i]);
            if (d > best) (best, at) = (d, i);
        }

        return at;
    }

    /// <summary>The points that lie farthest in each of 48 directions spread over the sphere, each once, in order of index.</summary>
    public int[] Extremes()
    {
        var found = new SortedSet<int>();
        foreach (var probe in Probes) found.Add(Farthest(probe));
        return [.. found];
    }

    /// <summary>
    /// The points that are not surely inside the polytope of the given planes (unit normals, n · p = offset): at least
    /// <paramref name="depth"/> below all of them is inside. O(n · planes), sixteen at a time.
    /// </summary>
    public List<int> NotInside(ReadOnlySpan<(Vec3 Normal, double Offset)> planes, double depth)
    {
        var kept = new List<int>();
        var wx = MemoryMarshal.Cast<float, Vector512<float>>(_x.AsSpan(0, Count));
        var wy = MemoryMarshal.Cast<float, Vector512<float>>(_y.AsSpan(0, Count));
        var wz = MemoryMarshal.Cast<float, Vector512<float>>(_z.AsSpan(0, Count));
        var wide = new (Vector512<float> X, Vector512<float> Y, Vector512<float> Z, Vector512<float> Limit)[planes.Length];
        for (var i = 0; i < planes.Length; i++)
        {
            var (n, offset) = planes[i];
            wide[i] = (Vector512.Create((float)n.X), Vector512.Create((float)n.Y), Vector512.Create((float)n.Z),
                Vector512.Create((float)(offset - depth)));
        }

        var last = 0; // the plane that let the previous points out goes first: neighbours in the list are neighbours in space
        for (var k = 0; k < wx.Length; k++)
        {
            var outside = Vector512<float>.Zero;
            for (var j = 0; j < wide.Length; j++)
            {
                var which = j == 0 ? last : j == last ? 0 : j;
                ref var plane = ref wide[which];
                var d = Vector512.FusedMultiplyAdd(plane.X, wx[k], Vector512.FusedMultiplyAdd(plane.Y, wy[k], plane.Z * wz[k]));
                outside |= Vector512.GreaterThan(d, plane.Limit);
                if (outside.ExtractMostSignificantBits() == 0xFFFF)
                {
                    last = which;
                    break;
                }
            }

            var bits = outside.ExtractMostSignificantBits();
            while (bits != 0)
            {
                kept.Add((k * Vector512<float>.Count) + BitOperations.TrailingZeroCount(bits));
                bits &= bits - 1;
            }
        }

        for (var i = wx.Length * Vector512<float>.Count; i < Count; i++) kept.Add(i);
        return kept;
    }

    /// <summary>n unit vectors spread evenly over the sphere along a golden spiral, after the 26 axis, edge and corner directions of a cube.</summary>
    private static Vec3[] SpreadDirections(int spiral)
    {
        var directions = new List<Vec3>();
        for (var x = -1; x <= 1; x++)
        {
            for (var y = -1; y <= 1; y++)
            {
                for (var z = -1; z <= 1; z++)
                {
                    if (x != 0 || y != 0 || z != 0) directions.Add(new Vec3(x, y, z).Normalized());
                }
            }
        }

        for (var i = 0; i < spiral; i++)
        {
            var height = 1 - (((2 * i) + 1.0) / spiral);
            var (s, c) = Math.SinCos(i * Math.PI * (3 - Math.Sqrt(5)));
            var r = Math.Sqrt(1 - (height * height));
            directions.Add(new(r * c, r * s, height));
        }

        return [.. directions];
    }
}
