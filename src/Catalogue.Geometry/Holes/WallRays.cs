using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Holes;

/// <summary>Rays from an axis to the wall around it: of a hole through air, of a peg through matter.</summary>
/// <param name="tree">Over a closed mesh.</param>
/// <param name="inward">True for holes, whose walls are met from their front; false for pegs.</param>
internal readonly struct WallRays(TriangleTree tree, bool inward)
{
    /// <summary>A wall hit tilts against the axis by less than this sine (14°): cones from 30° on are no part of it, rough facets are.</summary>
    public const double MostTilt = 0.25;

    /// <summary>And lies this near to the cylinder, as a part of its radius.</summary>
    public const double MostOff = 0.08;

    public TriangleTree Tree => tree;

    public bool Inward => inward;

    /// <summary>The first surface met, when it is met from the side that belongs to the wall.</summary>
    public bool Meet(Vec3 from, Vec3 direction, double reach, out RayHit hit)
    {
        if (tree.FirstHit(new(from, direction), reach) is { } met && met.FromFront == inward)
        {
            hit = met;
            return true;
        }

        hit = default;
        return false;
    }

    /// <summary>The unit normal of a triangle, turned to point away from the axis.</summary>
    public Vec3 Outward(int triangle)
    {
        var (a, b, c) = tree.Mesh.Triangle(triangle);
        var n = Vec3.Cross(b - a, c - a).Normalized();
        return inward ? -n : n;
    }

    /// <summary>
    /// Rays square to the axis at one place along it; hits that may be wall are appended to <paramref name="hits"/> when it is given.
    /// </summary>
    /// <param name="phase">Turns the ring, radians.</param>
    /// <param name="off">How far from the frame's radius a hit may lie, as a part of it.</param>
    /// <param name="tilt">How far its facet may tilt against the axis, sine.</param>
    /// <returns>The part of the rays that met wall.</returns>
    public double Ring(in CylinderFrame frame, double along, int rays, double phase, double off, double tilt, List<WallHit>? hits)
    {
        var origin = frame.At(along);
        var reach = frame.Radius * (1 + off);
        var met = 0;
        for (var i = 0; i < rays; i++)
        {
            var direction = frame.Outward(phase + (2 * Math.PI * i / rays));
            if (!Meet(origin, direction, reach, out var hit) || hit.Distance < frame.Radius * (1 - off)) continue;
            var outward = Outward(hit.Triangle);
            if (Math.Abs(Vec3.Dot(outward, frame.Axis)) > tilt || Vec3.Dot(outward, direction) < 0.7) continue;
            met++;
            hits?.Add(new(hit.Triangle, along, hit.Distance, origin + (direction * hit.Distance), outward));
        }

        return (double)met / rays;
    }
}
