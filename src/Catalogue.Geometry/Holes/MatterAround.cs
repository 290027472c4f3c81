using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Holes;

/// <summary>The least matter around a hole, by rays: 24 outward from each of up to 24 rings, 9 through the floor.</summary>
internal static class MatterAround
{
    private const int Rays = 24;
    private const double FarthestMm = 1000;

    public static double? Wall(TriangleTree tree, CylinderTrace trace)
    {
        var frame = trace.Frame;
        if (trace.Whole() is not { } whole) return null;
        var margin = Math.Min(2 * frame.Radius, 0.45 * (whole.High - whole.Low));
        var low = whole.Low + (trace.LowShut ? 0 : margin);
        var high = whole.High - (trace.HighShut ? 0 : margin);
        var rings = Math.Clamp((int)((high - low) / frame.Radius * 4), 3, 24);
        var thickness = new List<double>(rings * Rays);
        for (var i = 0; i < rings; i++)
        {
            var origin = frame.At(low + ((high - low) * i / (rings - 1)));
            for (var k = 0; k < Rays; k++)
            {
                var direction = frame.Outward((2 * Math.PI * k / Rays) + (0.05 * i));
                var reach = frame.Radius * (1 + WallRays.MostOff);
                if (tree.FirstHit(new(origin, direction), reach) is not { FromFront: true } wall || wall.Distance < frame.Radius * (1 - WallRays.MostOff)) continue;
                thickness.Add(Thickness(tree, origin + (direction * wall.Distance), direction, double.PositiveInfinity));
            }
        }

        // A fiftieth of the rays may meet the sharp rim of a detail that runs into the hole.
        thickness.Sort();
        return thickness.Count > 0 && thickness[thickness.Count / 50] is var least && double.IsFinite(least) ? least : null;
    }

    public static double? Floor(TriangleTree tree, CylinderTrace trace)
    {
        var (frame, way) = (trace.Frame, trace.HighShut ? 1 : -1);
        var inside = frame.At((trace.Low + trace.High) / 2);
        var direction = frame.Axis * way;
        var least = double.PositiveInfinity;
        for (var k = 0; k < 9; k++)
        {
            var from = k == 0 ? inside : inside + (frame.Outward(Math.PI * k / 4) * (0.6 * frame.Radius));
            var reach = ((trace.High - trace.Low) / 2) + (2 * frame.Radius);
            if (tree.FirstHit(new(from, direction), reach) is { FromFront: true } floor)
                least = Math.Min(least, Thickness(tree, from + (direction * floor.Distance), direction, least));
        }

        return double.IsFinite(least) ? least : null;
    }

    /// <summary>Along the ray from the surface to where it leaves matter; folds of the surface that it slips through are passed over.</summary>
    private static double Thickness(TriangleTree tree, Vec3 surface, Vec3 direction, double best)
    {
        const double Hair = 1e-4;
        const double Fold = 0.05;
        var passed = 0.0;
        for (var folds = 0; folds < 8; folds++)
        {
            var from = passed + Hair;
            if (tree.FirstHit(new(surface + (direction * from), direction), Math.Min(best, FarthestMm)) is not { FromFront: false } back) break;
            var left = from + back.Distance;
            if (back.Distance > Fold || tree.FirstHit(new(surface + (direction * (left + Hair)), direction), Fold) is not { FromFront: true } again) return left;
            passed = left + Hair + again.Distance;
        }

        return double.PositiveInfinity;
    }
}
