using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A difference whose edge is rounded: the smooth maximum, never below the maximum.</summary>
internal sealed class SmoothDifference(Shape from, Shape cut, double radius)
    : Shape(from.Bounds, Math.Max(from.Growth, cut.Growth))
{
    private readonly BoundingBox _box = cut.Bounds;

    public override double Distance(Vec3 p)
    {
        var d = from.Distance(p);
        if (Boxes.IsBeyond(in _box, in p, radius - d)) return d;
        var c = -cut.Distance(p);
        var h = Math.Max(radius - Math.Abs(d - c), 0);
        return Math.Max(d, c) + (h * h / (4 * radius));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var lead = from.Distance(center) + cut.Distance(center);
        var sure = radius + (2 * reach * Growth);
        if (lead > sure) return from.Near(center, reach);
        var near = cut.Near(center, reach);
        if (lead < -sure) return new Complement(near);
        var kept = from.Near(center, reach);
        return ReferenceEquals(kept, from) && ReferenceEquals(near, cut) ? this : new SmoothDifference(kept, near, radius);
    }
}
