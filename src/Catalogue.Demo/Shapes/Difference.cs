using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>What of one shape lies outside another.</summary>
internal sealed class Difference(Shape from, Shape cut)
    : Shape(from.Bounds, Math.Max(from.Growth, cut.Growth))
{
    private readonly BoundingBox _box = cut.Bounds;

    public override double Distance(Vec3 p)
    {
        var d = from.Distance(p);
        return Boxes.IsBeyond(in _box, in p, -d) ? d : Math.Max(d, -cut.Distance(p));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var lead = from.Distance(center) + cut.Distance(center);
        if (lead > 2 * reach * Growth) return from.Near(center, reach);
        var near = cut.Near(center, reach);
        if (lead < -2 * reach * Growth) return new Complement(near);
        var kept = from.Near(center, reach);
        return ReferenceEquals(kept, from) && ReferenceEquals(near, cut) ? this : new Difference(kept, near);
    }
}
