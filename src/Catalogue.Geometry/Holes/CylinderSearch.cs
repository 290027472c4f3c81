using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Holes;

/// <summary>From seeds to round walls, each once.</summary>
internal sealed class CylinderSearch(WallRays rays, double mostDiameter, int mostFound, ProgressPart progress, CancellationToken cancel)
{
    /// <summary>So often a place is tried before it is given up: a first guess may be thrown off by a crossing hole or a step nearby.</summary>
    private const int Tries = 2;

    private readonly List<CylinderTrace> _found = [];
    private readonly List<CylinderTrace> _rejected = [];
    private readonly Dictionary<(int, int, int, int), int> _tried = [];

    public List<CylinderTrace> Run(List<WallSeed> seeds)
    {
        for (var i = 0; i < seeds.Count && _found.Count < mostFound; i++)
        {
            if ((i & 255) == 0)
            {
                cancel.ThrowIfCancellationRequested();
                progress.Report(i / (double)seeds.Count);
            }

            var seed = seeds[i];
            var middle = seed.Point + (seed.Across * (seed.Distance / 2));
            if (IsOn(_found, seed, middle) || IsOn(_rejected, seed, middle) || !MayTry(middle, seed.Distance) || Guess(seed, middle) is not { } guess) continue;
            var trace = new CylinderTrace(rays, guess);
            if (trace.Run(mostDiameter, cancel) && !IsKnown(trace)) _found.Add(trace);
            else if (trace.Judged) _rejected.Add(trace);
        }

        return _found;
    }

    /// <summary>On a wall that was followed already, to whichever end.</summary>
    private static bool IsOn(List<CylinderTrace> traces, WallSeed seed, Vec3 middle)
    {
        foreach (var trace in traces)
        {
            var frame = trace.Frame;
            if (Math.Abs(seed.Distance - (2 * frame.Radius)) > 0.5 * frame.Radius) continue;
            var (along, away) = frame.Coordinates(middle);
            if (away < 0.4 * frame.Radius && along > trace.Low - frame.Radius && along < trace.High + frame.Radius) return true;
        }

        return false;
    }

    private bool IsKnown(CylinderTrace trace)
    {
        foreach (var other in _found)
        {
            if (Math.Abs(other.NominalRadius - trace.NominalRadius) > 0.1 * other.NominalRadius) continue;
            if (Math.Abs(Vec3.Dot(other.Frame.Axis, trace.Frame.Axis)) < 0.9) continue;
            var (along, away) = other.Frame.Coordinates(trace.Frame.At((trace.Low + trace.High) / 2));
            if (away < 0.4 * other.NominalRadius && along > other.Low && along < other.High) return true;
        }

        return false;
    }

    /// <summary>A wall of many triangles gives many seeds with the same middle: a few are enough.</summary>
    private bool MayTry(Vec3 middle, double width)
    {
        var level = (int)Math.Floor(Math.Log2(width));
        var cell = Math.Pow(2, level) / 2;
        ref var count = ref CollectionsMarshal.GetValueRefOrAddDefault(
            _tried, (level, (int)Math.Floor(middle.X / cell), (int)Math.Floor(middle.Y / cell), (int)Math.Floor(middle.Z / cell)), out _);
        return count++ < Tries;
    }

    /// <summary>
    /// Square to the seed's direction there is a direction in which the wall is as far on both sides as it is along the seed: the shortest of four. The axis is
    /// square to both, within 22.5°.
    /// </summary>
    private CylinderFrame? Guess(WallSeed seed, Vec3 middle)
    {
        var radius = seed.Distance / 2;
        var ring = CylinderFrame.Of(middle, seed.Across, radius);
        var (best, across) = (2.5 * radius, Vec3.Zero);
        for (var i = 0; i < 4; i++)
        {
            var direction = ring.Outward(Math.PI * i / 4);
            if (!rays.Meet(middle, direction, 1.35 * radius, out var one) || one.Distance < 0.7 * radius) continue;
            if (!rays.Meet(middle, -direction, 1.35 * radius, out var two) || two.Distance < 0.7 * radius) continue;
            if (one.Distance + two.Distance < best) (best, across) = (one.Distance + two.Distance, direction);
        }

        return across == Vec3.Zero ? null : CylinderFrame.Of(middle, Vec3.Cross(seed.Across, across), radius);
    }
}
