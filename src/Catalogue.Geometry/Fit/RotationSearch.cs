using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>Walks all rotations, up to exchanging the three axes, as a tree of boxes and bounds a hull's extents on each of them.</summary>
/// <remarks>
/// A rotation is its <see cref="Rodrigues"/> vector. On a box of half sizes s about r₀ the extent along an axis u is at least p · u' for every
/// turned axis u', with p the difference of the two vertices that are extreme at the centre. With w = p · u, g = u × p and
/// σ = (r₀×d − d) / (1 + r₀² + r₀·d), |dᵢ| ≤ sᵢ, the Rodrigues vector from u to u':
/// p · u' = w + [2 σ·g − 2 (σ×u)·(σ×p)] / (1 + σ²). So the extent is at least w − 2k Σ sᵢ |(g + r₀×g)ᵢ| − 2σ² (w + |g|/2) with
/// k = 1 / (1 + r₀² − Σ sᵢ|r₀ᵢ|), and also at least w cos θ − |g| sin θ with tan(θ/2) = |σ|: tight to second order where the extent is smooth, to first
/// order at its creases. A box is halved across the side that costs the bound most. Vertices that are extreme nowhere in a box are
/// left out below it, so that deep boxes cost a few dozen operations whatever the hull.
/// One object, one thread. Memory: a few times the hull's vertices.
/// </remarks>
internal sealed class RotationSearch<TGoal>
    where TGoal : struct, IRotationGoal
{
    private const int Lanes = 16;
    private readonly HullSupport _support;
    private readonly CancellationToken _stop;
    private float[] _arena;
    private int _arenaTop;
    private TGoal _goal;
    private long _budget;
    private bool _complete;

    public RotationSearch(HullSupport support, TGoal goal, CancellationToken stop = default)
    {
        (_support, _goal, _stop) = (support, goal, stop);
        _arena = new float[Math.Max(4096, 8 * support.Floats.Length)];
        support.Floats.CopyTo(_arena, 0);
    }

    /// <summary>The goal with what it has gathered.</summary>
    public ref TGoal Goal => ref _goal;

    /// <summary>Boxes looked at so far.</summary>
    public long Visited { get; private set; }

    /// <summary>Vertices that may be extreme in one direction: three runs of <c>Length</c> numbers in the arena, a multiple of 16.</summary>
    private readonly record struct Run(int Start, int Length);

    private readonly record struct Runs(Run MaxX, Run MinX, Run MaxY, Run MinY, Run MaxZ, Run MinZ, double Turn)
    {
        public int Total => MaxX.Length + MinX.Length + MaxY.Length + MinY.Length + MaxZ.Length + MinZ.Length;
    }

    /// <summary>Looks through all rotations; false when that takes more than <paramref name="budget"/> boxes and was given up.</summary>
    public bool Complete(long budget)
    {
        _budget = budget;
        _complete = true;
        _arenaTop = _support.Floats.Length;
        var all = new Run(0, _support.Padded);
        const double s = Rodrigues.Reach;
        Visit(Vec3.Zero, new(s, s, s), new(all, all, all, all, all, all, double.PositiveInfinity));
        return _complete;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Visit(Vec3 r, Vec3 s, in Runs given)
    {
        if (!_complete || Outside(r, s)) return;
        if (_budget-- <= 0)
        {
            _complete = false;
            return;
        }

        if ((++Visited & 0x3FFF) == 0) _stop.ThrowIfCancellationRequested();
        var rr = r.LengthSquared;
        var denominator = 1 + rr - (s.X * Math.Abs(r.X)) - (s.Y * Math.Abs(r.Y)) - (s.Z * Math.Abs(r.Z));
        var k = 1 / denominator;
        var sigma2 = Math.Min(1, k * k * (1 + rr) * s.LengthSquared); // from a quarter turn on the bound is 0 anyway
        var sigma = Math.Sqrt(sigma2);
        var axes = Rodrigues.ToRotation(r);

        var (maxX, toX) = Farthest(given.MaxX, axes.RowX);
        var (minX, fromX) = Farthest(given.MinX, -axes.RowX);
        var (maxY, toY) = Farthest(given.MaxY, axes.RowY);
        var (minY, fromY) = Farthest(given.MinY, -axes.RowY);
        var (maxZ, toZ) = Farthest(given.MaxZ, axes.RowZ);
        var (minZ, fromZ) = Farthest(given.MinZ, -axes.RowZ);
        var (wx, wy, wz) = (toX + fromX, toY + fromY, toZ + fromZ);
        var box = new RotationBox(r, s, new(wx, wy, wz), denominator > 0)
        {
            X = new(wx, axes.RowX, maxX - minX, r, s, k, sigma2, _support.Rounding),
            Y = new(wy, axes.RowY, maxY - minY, r, s, k, sigma2, _support.Rounding),
            Z = new(wz, axes.RowZ, maxZ - minZ, r, s, k, sigma2, _support.Rounding),
        };
        if (!_goal.LookCloser(box)) return;

        var top = _arenaTop;
        var runs = given;
        var turn = 2 * Math.Atan(sigma);
        if (turn < 0.7 && turn < 0.6 * given.Turn && given.Total > 6 * Lanes)
        {
            var sin = Math.Sin(turn);
            var sin2 = (float)(sin * sin);
            runs = new(
                Keep(given.MaxX, axes.RowX, maxX, toX, sin2), Keep(given.MinX, -axes.RowX, minX, fromX, sin2),
                Keep(given.MaxY, axes.RowY, maxY, toY, sin2), Keep(given.MinY, -axes.RowY, minY, fromY, sin2),
                Keep(given.MaxZ, axes.RowZ, maxZ, toZ, sin2), Keep(given.MinZ, -axes.RowZ, minZ, fromZ, sin2), turn);
        }

        var half = box.HalfOfCostliestSide();
        Visit(r - half, s - half, runs);
        Visit(r + half, s - half, runs);
        _arenaTop = top;
    }

    private static bool Outside(Vec3 r, Vec3 s) =>
        Math.Max(0, Math.Abs(r.X) - s.X) + Math.Max(0, Math.Abs(r.Y) - s.Y) + Math.Max(0, Math.Abs(r.Z) - s.Z) > 1 + 1e-12;

    /// <summary>The vertex of a run that lies farthest along a direction, and how far.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (Vec3 Vertex, double Along) Farthest(Run run, Vec3 direction)
    {
        var dx = Vector512.Create((float)direction.X);
        var dy = Vector512.Create((float)direction.Y);
        var dz = Vector512.Create((float)direction.Z);
        ref var x = ref _arena[run.Start];
        ref var y = ref Unsafe.Add(ref x, run.Length);
        ref var z = ref Unsafe.Add(ref y, run.Length);
        var most = Along(ref x, ref y, ref z, 0, dx, dy, dz);
        var lane = 0;
        if (run.Length > Lanes)
        {
            var where = Vector512<int>.Zero;
            for (var i = Lanes; i < run.Length; i += Lanes)
            {
                var d = Along(ref x, ref y, ref z, i, dx, dy, dz);
                var larger = Vector512.GreaterThan(d, most);
                most = Vector512.ConditionalSelect(larger, d, most);
                where = Vector512.ConditionalSelect(larger.AsInt32(), Vector512.Create(i), where);
            }

            lane = LaneOf(most, out var value);
            var at = where.GetElement(lane) + lane;
            return (new(Unsafe.Add(ref x, at), Unsafe.Add(ref y, at), Unsafe.Add(ref z, at)), value);
        }

        lane = LaneOf(most, out var along);
        return (new(Unsafe.Add(ref x, lane), Unsafe.Add(ref y, lane), Unsafe.Add(ref z, lane)), along);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<float> Along(
        ref float x, ref float y, ref float z, int i, Vector512<float> dx, Vector512<float> dy, Vector512<float> dz) =>
        Vector512.FusedMultiplyAdd(
            Vector512.LoadUnsafe(ref x, (nuint)i), dx,
            Vector512.FusedMultiplyAdd(Vector512.LoadUnsafe(ref y, (nuint)i), dy, Vector512.LoadUnsafe(ref z, (nuint)i) * dz));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int LaneOf(Vector512<float> values, out float largest)
    {
        var eight = Vector256.Max(values.GetLower(), values.GetUpper());
        var four = Vector128.Max(eight.GetLower(), eight.GetUpper());
        four = Vector128.Max(four, Vector128.Shuffle(four, Vector128.Create(2, 3, 0, 1)));
        four = Vector128.Max(four, Vector128.Shuffle(four, Vector128.Create(1, 0, 3, 2)));
        largest = four.ToScalar();
        return BitOperations.TrailingZeroCount(Vector512.Equals(values, Vector512.Create(largest)).ExtractMostSignificantBits());
    }

    /// <summary>
    /// A shorter run at the top of the arena: the vertices that may be extreme somewhere within the turn. Vertex v, behind the extreme one by
    /// d = q − v, cannot be when d · u' > 0 for all u' turned that little: (d · u)² > |d|² sin².
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private Run Keep(Run run, Vec3 direction, Vec3 extreme, double along, float sin2)
    {
        if (run.Length <= Lanes) return run;
        var start = _arenaTop;
        if (_arena.Length - start < (3 * run.Length) + Lanes) Array.Resize(ref _arena, (2 * _arena.Length) + (3 * run.Length) + Lanes);
        var (ux, uy, uz) = (Vector512.Create((float)direction.X), Vector512.Create((float)direction.Y), Vector512.Create((float)direction.Z));
        var (qx, qy, qz) = (Vector512.Create((float)extreme.X), Vector512.Create((float)extreme.Y), Vector512.Create((float)extreme.Z));
        var most = Vector512.Create((float)(along - (2 * _support.Rounding)));
        var bound = Vector512.Create(sin2 * 1.0001f);
        ref var x = ref _arena[run.Start];
        ref var y = ref Unsafe.Add(ref x, run.Length);
        ref var z = ref Unsafe.Add(ref y, run.Length);
        ref var keptX = ref _arena[start];
        ref var keptY = ref Unsafe.Add(ref keptX, run.Length);
        ref var keptZ = ref Unsafe.Add(ref keptY, run.Length);
        var count = 0;
        for (var i = 0; i < run.Length; i += Lanes)
        {
            var (vx, vy, vz) = (Vector512.LoadUnsafe(ref x, (nuint)i), Vector512.LoadUnsafe(ref y, (nuint)i), Vector512.LoadUnsafe(ref z, (nuint)i));
            var behind = Vector512.Max(
                Vector512<float>.Zero, most - Vector512.FusedMultiplyAdd(vx, ux, Vector512.FusedMultiplyAdd(vy, uy, vz * uz)));
            var (ax, ay, az) = (qx - vx, qy - vy, qz - vz);
            var distance2 = Vector512.FusedMultiplyAdd(ax, ax, Vector512.FusedMultiplyAdd(ay, ay, az * az));
            var bits = Vector512.LessThanOrEqual(behind * behind, distance2 * bound).ExtractMostSignificantBits();
            for (; bits != 0; bits &= bits - 1)
            {
                var at = i + BitOperations.TrailingZeroCount(bits);
                Unsafe.Add(ref keptX, count) = Unsafe.Add(ref x, at);
                Unsafe.Add(ref keptY, count) = Unsafe.Add(ref y, at);
                Unsafe.Add(ref keptZ, count) = Unsafe.Add(ref z, at);
                count++;
            }
        }

        var length = (count + Lanes - 1) / Lanes * Lanes;
        if (length > run.Length * 3 / 4) return run;
        Close(start, run.Length, length, count);
        _arenaTop = start + (3 * length);
        return new(start, length);
    }

    /// <summary>Moves the three runs together and fills each up with its last number.</summary>
    private void Close(int start, int from, int length, int count)
    {
        for (var axis = 0; axis < 3; axis++)
        {
            var target = _arena.AsSpan(start + (axis * length), length);
            _arena.AsSpan(start + (axis * from), count).CopyTo(target);
            target[count..].Fill(target[count - 1]);
        }
    }
}
