using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>Extents of rotations found so far, none needlessly larger than another, with the question "is there one within these lengths".</summary>
internal sealed class ParetoFront
{
    private const int Lanes = 16;
    private float[] _small = Filled(1024);
    private float[] _middle = Filled(1024);
    private float[] _large = Filled(1024);
    private Vec3[] _rotations = new Vec3[1024];
    private int _lastHit;

    public int Count { get; private set; }

    public (SortedExtents Extents, Vec3 Rotation) this[int i] => (new(_small[i], _middle[i], _large[i]), _rotations[i]);

    /// <summary>Is there a member whose three extents are all within those given, each with <paramref name="slack"/> added?</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Dominates(SortedExtents extents, double slack)
    {
        var (s, m, l) = ((float)(extents.Small + slack), (float)(extents.Middle + slack), (float)(extents.Large + slack));
        if (_small[_lastHit] <= s && _middle[_lastHit] <= m && _large[_lastHit] <= l) return true;
        var (vs, vm, vl) = (Vector512.Create(s), Vector512.Create(m), Vector512.Create(l));
        ref var small = ref _small[0];
        ref var middle = ref _middle[0];
        ref var large = ref _large[0];
        for (var i = 0; i < Count; i += Lanes)
        {
            var within = Vector512.LessThanOrEqual(Vector512.LoadUnsafe(ref small, (nuint)i), vs)
                & Vector512.LessThanOrEqual(Vector512.LoadUnsafe(ref middle, (nuint)i), vm)
                & Vector512.LessThanOrEqual(Vector512.LoadUnsafe(ref large, (nuint)i), vl);
            var bits = within.ExtractMostSignificantBits();
            if (bits == 0) continue;
            _lastHit = i + BitOperations.TrailingZeroCount(bits);
            return true;
        }

        return false;
    }

    public void Add(SortedExtents extents, Vec3 rotation)
    {
        if (Count == _small.Length)
        {
            _small = Grown(_small);
            _middle = Grown(_middle);
            _large = Grown(_large);
            Array.Resize(ref _rotations, 2 * Count);
        }

        (_small[Count], _middle[Count], _large[Count]) = ((float)extents.Small, (float)extents.Middle, (float)extents.Large);
        _lastHit = Count;
        _rotations[Count++] = rotation;
    }

    /// <summary>Forgets all but the first <paramref name="count"/>.</summary>
    public void Shorten(int count)
    {
        for (var i = count; i < Count; i++) (_small[i], _middle[i], _large[i]) = (float.PositiveInfinity, float.PositiveInfinity, float.PositiveInfinity);
        (Count, _lastHit) = (count, 0);
    }

    private static float[] Filled(int length)
    {
        var values = new float[length];
        Array.Fill(values, float.PositiveInfinity);
        return values;
    }

    private static float[] Grown(float[] values)
    {
        var larger = Filled(2 * values.Length);
        values.CopyTo(larger, 0);
        return larger;
    }
}
