using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>A round wall followed from a guess to its two ends, measured and judged.</summary>
/// <remarks>
/// The axis is refined from rings of rays near the guess, then from longer and longer stretches of wall; each end is where half the ring no longer meets
/// wall, found by bisection. A gap of up to one diameter in a hole
/// (a crossing one) is stepped over. What is left is a cylinder when it has a constant radius
/// (spread of ring means at most 1.5 %, slope at most 2°), is no oval (second harmonic at most 3 %) and no polygon of seven sides or fewer, is at least
/// a fifth of a diameter long and, when it is short, begins and ends sharply: which a sphere, an egg, a cone and the eye of a ring do not.
/// </remarks>
internal sealed class CylinderTrace
{
    private const int RingRays = 24;
    private const double Golden = 2.399963229728653;
    private const double LongestMm = 400;

    private readonly WallRays _rays;
    private readonly List<WallHit> _hits = [];
    private CylinderFrame _frame;
    private double _low;
    private double _high;
    private double _off;
    private double _tilt;

    public CylinderTrace(WallRays rays, CylinderFrame guess)
    {
        _rays = rays;
        _frame = guess;
    }

    /// <summary>Along <see cref="CylinderFrame.Axis"/>, mm: from one end to the other.</summary>
    public double Low => _low;

    public double High => _high;
    public CylinderFrame Frame => _frame;

    /// <summary>It was followed to both ends; whatever it is, it need not be followed again.</summary>
    public bool Judged { get; private set; }

    /// <summary>Radius of the circle the corners lie on, mm.</summary>
    public double NominalRadius { get; private set; }

    /// <summary>Radius of the widest rod that passes, mm.</summary>
    public double ClearRadius { get; private set; }

    /// <summary>True when the end is shut by a surface across it.</summary>
    public bool LowShut { get; private set; }

    public bool HighShut { get; private set; }

    /// <summary>Follows and judges the wall around the guess; false when it is no cylinder.</summary>
    public bool Run(double mostDiameter, CancellationToken cancel)
    {
        if (!Settle()) return false;
        for (var pass = 0; pass < 6; pass++)
        {
            // While the axis is still askew its far stretches are met out of round: with strict bounds, only what agrees with the error would be seen.
            cancel.ThrowIfCancellationRequested();
            if (!Follow(pass == 0 ? 3 * _frame.Radius : LongestMm, 0.2, 0.4)) return false;
            var before = _frame;
            if (!Refine() || 2 * _frame.Radius > mostDiameter || Vec3.Dot(_frame.Axis, before.Axis) < 0.9) return false;
            var swing = (_high - _low) * Vec3.Cross(_frame.Axis, before.Axis).Length;
            if (pass > 0 && swing + Vec3.Distance(_frame.Center, before.Center) < 0.01 * _frame.Radius) break;
        }

        return Follow(LongestMm, WallRays.MostOff, WallRays.MostTilt) && Refine() && Follow(LongestMm, WallRays.MostOff, WallRays.MostTilt) && IsCylinder();
    }

    private bool Refine()
    {
        if (CylinderFit.Refine(_frame, CollectionsMarshal.AsSpan(_hits)) is not { } refined) return false;
        _frame = refined;
        return true;
    }

    /// <summary>From a guess that may be 20° and a third of a radius off to a frame that the ring around it agrees with.</summary>
    private bool Settle()
    {
        var start = _frame.Center;
        for (var round = 0; round < 3; round++)
        {
            _hits.Clear();
            var met = 0.0;
            for (var i = -1; i <= 1; i++)
                met = Math.Max(met, _rays.Ring(_frame, 0.15 * i * _frame.Radius, 16, (Golden * i) + round, round == 0 ? 0.4 : 0.2, round == 0 ? 0.6 : 0.4, _hits));
            if (met < 0.7) return false;
            if (!Refine() || Vec3.Distance(_frame.Center, start) > _frame.Radius) return false;
        }

        return true;
    }

    private bool IsWall(double along, List<WallHit>? hits = null, double least = 0.5) =>
        _rays.Ring(_frame, along, RingRays, Golden * Math.Round(along / _frame.Radius * 8), _off, _tilt, hits) >= least;

    /// <summary>Walks both ways from the middle, collects the hits, finds the ends.</summary>
    private bool Follow(double reach, double off, double tilt)
    {
        (_off, _tilt) = (off, tilt);
        _hits.Clear();
        if (!IsWall(0, _hits)) return false;
        _low = -Walk(-1, reach);
        _high = Walk(1, reach);
        return true;
    }

    private double Walk(int way, double reach)
    {
        var fine = _frame.Radius / 4;
        var good = 0.0;
        var step = fine;
        for (var count = 0; good < reach; count++)
        {
            // A long bore needs no ring every eighth of a diameter all along.
            if (count == 48) step = 4 * fine;
            var next = good + step;
            if (IsWall(way * next, _hits))
            {
                good = next;
                continue;
            }

            if (_rays.Inward && BeyondGap(way, next, fine) is { } resumed) good = resumed;
            else return End(way, good, next);
        }

        return good;
    }

    private double? BeyondGap(int way, double from, double fine)
    {
        for (var i = 1; i <= 8; i++)
        {
            var at = from + (i * fine);
            if (IsWall(way * at, null, 0.75) && IsWall(way * (at + (0.5 * fine)), null, 0.75)) return at;
        }

        return null;
    }

    private double End(int way, double good, double bad)
    {
        while (bad - good > 1e-3 * _frame.Radius)
        {
            var middle = (good + bad) / 2;
            if (IsWall(way * middle)) good = middle;
            else bad = middle;
        }

        return good;
    }

    /// <summary>From the first to the last place where the wall goes all the way round, along the axis; null when it does nowhere.</summary>
    public (double Low, double High)? Whole()
    {
        var step = Math.Max((_high - _low) / 100, _frame.Radius / 16);
        var (low, high) = (_low + (step / 4), _high - (step / 4));
        while (low < high && !IsWall(low, null, 0.95)) low += step;
        while (high > low && !IsWall(high, null, 0.95)) high -= step;
        return low < high ? (low, high) : null;
    }

    private bool IsCylinder()
    {
        Judged = true;
        var (radius, depth) = (_frame.Radius, _high - _low);
        if (depth < 0.4 * radius) return false;
        var slices = Math.Clamp((int)(depth / radius * 4), 5, 24);
        var all = new List<double>();
        var rings = new List<(double Along, double Mean)>();
        double cosines = 0, sines = 0, tilt = 0;
        var (full, rays) = (0, 0);
        var ring = new List<WallHit>();
        for (var i = 0; i < slices; i++)
        {
            var along = _low + (depth * (i + 0.5) / slices);
            ring.Clear();

            // Where another hole crosses, its walls are met and tell nothing of this one.
            if (_rays.Ring(_frame, along, RingRays, Golden * i, WallRays.MostOff, WallRays.MostTilt, null) < 0.8) continue;
            var met = _rays.Ring(_frame, along, RingRays, Golden * i, 0.3, 0.6, ring);
            rings.Add((along, ring.Average(h => h.Distance)));
            foreach (var hit in ring)
            {
                all.Add(hit.Distance);
                tilt += Vec3.Dot(hit.Outward, _frame.Axis);
            }

            rays += ring.Count;
            _hits.AddRange(ring.Where(h => Math.Abs(h.Distance - radius) < WallRays.MostOff * radius));
            if (met < 0.95) continue;
            full += ring.Count;
            foreach (var hit in ring)
            {
                var d = hit.Point - _frame.At(hit.Along);
                var angle = 2 * Math.Atan2(Vec3.Dot(d, _frame.V), Vec3.Dot(d, _frame.U));
                cosines += hit.Distance * Math.Cos(angle);
                sines += hit.Distance * Math.Sin(angle);
            }
        }

        if (all.Count < RingRays || rings.Count < 2 || full < RingRays * slices / 8) return false;
        all.Sort();
        var (thin, wide) = (all[all.Count / 50], all[all.Count * 19 / 20]);
        if (wide > 1.09 * all[all.Count / 20]) return false;
        if (2 * double.Hypot(cosines, sines) / full > 0.03 * radius) return false;
        if (Math.Abs(tilt / rays) > 0.035 || !IsSteady(rings)) return false;

        var (lowSharp, highSharp) = (IsSharp(-1), IsSharp(1));
        if (depth < radius ? !(lowSharp && highSharp) : depth < 2 * radius && !(lowSharp || highSharp)) return false;
        (LowShut, HighShut) = (IsShut(-1), IsShut(1));

        // A limb with a round end is no peg: a plug's tip is cut off or chamfered.
        if (!_rays.Inward && !(LowShut && lowSharp) && !(HighShut && highSharp)) return false;
        (ClearRadius, NominalRadius) = (thin, NominalCircle.Radius(_rays.Tree.Mesh, _frame, _low, _high, _hits.Select(h => h.Triangle)));
        return true;
    }

    /// <summary>Ring means that neither spread nor slope.</summary>
    private bool IsSteady(List<(double Along, double Mean)> rings)
    {
        double n = rings.Count, mean = rings.Average(r => r.Mean), middle = rings.Average(r => r.Along), sxx = 0, sxy = 0, spread = 0;
        foreach (var (along, value) in rings)
        {
            sxx += (along - middle) * (along - middle);
            sxy += (along - middle) * (value - mean);
            spread += (value - mean) * (value - mean);
        }

        return Math.Sqrt(spread / n) <= 0.015 * _frame.Radius && (sxx < _frame.Radius * _frame.Radius || Math.Abs(sxy / sxx) <= 0.035);
    }

    /// <summary>The wall is gone a twentieth of a diameter beyond its end, rather than curving away.</summary>
    private bool IsSharp(int way)
    {
        var beyond = (way < 0 ? _low : _high) + (way * ((0.1 * _frame.Radius) + 0.02));
        return _rays.Ring(_frame, beyond, RingRays, 0.3, 0.1, 0.5, null) < 0.5;
    }

    /// <summary>Most of what runs along the wall is stopped soon after its end: by a flat, conical or round floor, or by a step to a narrower hole.</summary>
    private bool IsShut(int way)
    {
        const int Rays = 12;
        var (radius, back) = (_frame.Radius, Math.Min(0.1 * _frame.Radius, (_high - _low) / 4));
        var end = way < 0 ? _low : _high;
        var inside = _frame.At(end - (way * back));
        var beyond = _frame.At(end + (way * ((0.1 * radius) + 0.02)));
        var (stopped, rooted) = (0, 0);
        for (var i = 0; i < Rays; i++)
        {
            var outward = _frame.Outward(0.2 + (2 * Math.PI * i / Rays));
            if (_rays.Tree.AnyHit(new(inside + (outward * (0.8 * radius)), _frame.Axis * way), back + (0.7 * radius))) stopped++;
            if (!_rays.Inward && _rays.Tree.FirstHit(new(beyond, outward)) is { FromFront: false } hit && hit.Distance > 1.05 * radius) rooted++;
        }

        // A peg on a thin wall is stopped behind it too, but at its root the matter widens.
        return 2 * stopped > Rays && 2 * rooted < Rays;
    }
}
