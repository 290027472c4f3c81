using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Details;

/// <summary>A place on the surface that stands for an area.</summary>
internal readonly record struct SurfaceSample(Vec3 At, Vec3 Normal, double AreaMm2);

/// <summary>Relief found from a sample.</summary>
/// <param name="IsRaised">The sample lies on top of something that ends near it; else on the floor of a groove.</param>
/// <param name="Width">Of the ridge or groove; infinite at the edge of something broad.</param>
/// <param name="Height">Of the wall, the lower of two.</param>
/// <param name="Distance">From the sample to the nearer wall.</param>
internal readonly record struct ReliefTouch(Vec3 At, bool IsRaised, double Width, double Height, double Distance, double AreaMm2);

/// <summary>Feels for walls beside a place on the surface. See <see cref="DetailMeasures"/> for what counts.</summary>
internal sealed class ReliefProbe(TriangleTree tree)
{
    private const int Directions = 8;

    /// <summary>Just under and just over the surface; the second finds walls with a rounded top or foot.</summary>
    private static readonly double[] Depths = [0.04, 0.15];

    /// <summary>How far beyond a wall the surface is looked for.</summary>
    private static readonly double[] Beyond = [0.06, 0.3, 0.7];

    private static readonly double SteepestSurface = Math.Cos(DetailMeasures.WallDegrees * Math.PI / 180);
    private static readonly double Parallel = Math.Cos(30 * Math.PI / 180);

    /// <summary>By how much less the surface beyond a wall leans than the wall itself: else it is a bend, not a step.</summary>
    private const double LessSteep = 12 * Math.PI / 180;

    public ReliefTouch? Feel(in SurfaceSample sample, int number)
    {
        var frame = Rotation.BringingToZ(sample.Normal);
        // Turned from sample to sample, so that no direction of an edge is favoured.
        var turn = number * 0.6180339887 % 1 * (2 * Math.PI / Directions);
        return Sided(sample, frame, turn, raised: true) ?? Sided(sample, frame, turn, raised: false);
    }

    private ReliefTouch? Sided(in SurfaceSample sample, in Rotation frame, double turn, bool raised)
    {
        foreach (var depth in Depths)
        {
            var start = sample.At + (sample.Normal * (raised ? -depth : depth));

            // Mostly there is nothing to be met, and one look around is cheaper than eight rays.
            if (!tree.MeetsLeaning(start, sample.Normal, DetailMeasures.ReachMm, SteepestSurface)) continue;
            Wall? nearest = null;
            for (var k = 0; k < Directions; k++)
            {
                var (s, c) = Math.SinCos(turn + (k * 2 * Math.PI / Directions));
                if (WallAlong(start, sample.Normal, (frame.RowX * c) + (frame.RowY * s), raised, nearest?.Distance ?? DetailMeasures.ReachMm) is { } wall) nearest = wall;
            }

            if (nearest is not { } found) continue;

            // Square to the wall, and away from it.
            var across = Tangent(found.Normal, sample.Normal) * (raised ? 1 : -1);
            if (across.LengthSquared == 0 || WallAlong(start, sample.Normal, across, raised, DetailMeasures.ReachMm) is not { } one) continue;
            var height = Height(start, sample.Normal, across, one, depth, raised);
            if (height is null) continue;
            var width = double.PositiveInfinity;
            if (WallAlong(start, sample.Normal, -across, raised, DetailMeasures.ReachMm) is { } other
                && Height(start, sample.Normal, -across, other, depth, raised) is { } second)
            {
                width = one.Distance + other.Distance;
                height = Math.Min(height.Value, second);
            }
            else if (!raised)
            {
                // One wall of something broad: it is felt from its top.
                continue;
            }

            return new(sample.At, raised, width, height.Value, one.Distance, sample.AreaMm2);
        }

        return null;
    }

    private readonly record struct Wall(double Distance, Vec3 Normal);

    /// <summary>The first surface along a direction, if it stands steep to the sample's own and is met from the right side.</summary>
    private Wall? WallAlong(Vec3 start, Vec3 normal, Vec3 direction, bool fromInside, double reach)
    {
        if (tree.FirstHit(new(start, direction), reach) is not { } hit || hit.FromFront == fromInside) return null;
        var wall = NormalOf(hit.Triangle);
        return Vec3.Dot(wall, normal) > SteepestSurface ? null : new(hit.Distance, wall);
    }

    /// <summary>From the sample's surface to the surface beyond a wall; null when none lies within reach, or it lies askew.</summary>
    private double? Height(Vec3 start, Vec3 normal, Vec3 direction, Wall wall, double depth, bool raised)
    {
        var lean = Lean(wall.Normal, normal);
        foreach (var beyond in Beyond)
        {
            var from = start + (direction * (wall.Distance + beyond));
            // Down to the ground beside what is raised; up through the matter beside a groove.
            var ray = new Ray(from, raised ? -normal : normal);
            if (tree.FirstHit(ray, DetailMeasures.HighestMm + 0.2) is not { } hit || hit.FromFront != raised) continue;
            var ground = NormalOf(hit.Triangle);
            if (Vec3.Dot(ground, normal) < Parallel || Lean(ground, normal) > lean - LessSteep) continue;
            var height = depth + hit.Distance;
            if (height is < DetailMeasures.LowestMm or > DetailMeasures.HighestMm) continue;
            // What is raised stands on that ground: matter reaches down to it behind the wall.
            var behind = start + (direction * Math.Max(0, wall.Distance - 0.03));
            if (raised && tree.AnyHit(new(behind, -normal), hit.Distance - 0.02)) continue;
            return height;
        }

        return null;
    }

    private static double Lean(Vec3 a, Vec3 b) => Math.Acos(Math.Clamp(Vec3.Dot(a, b), -1, 1));

    private Vec3 NormalOf(int triangle)
    {
        var (a, b, c) = tree.Mesh.Triangle(triangle);
        return Vec3.Cross(b - a, c - a).Normalized();
    }

    private static Vec3 Tangent(Vec3 v, Vec3 normal) => (v - (normal * Vec3.Dot(v, normal))).Normalized();
}
