using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>What two shapes share.</summary>
internal sealed class Intersection(Shape a, Shape b)
    : Shape(Boxes.Common(a.Bounds, b.Bounds), Math.Max(a.Growth, b.Growth))
{
    private readonly BoundingBox _box = Boxes.Common(a.Bounds, b.Bounds);

    public override double Distance(Vec3 p)
    {
        // Far from the shared box its distance alone is a lower bound, and the sign is known.
        return Boxes.IsBeyond(in _box, in p, 4) ? Boxes.Outside(in _box, in p) : Math.Max(a.Distance(p), b.Distance(p));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        if (Boxes.Outside(in _box, in center) + reach > 4) return this; // the far branch of Distance may apply within the reach
        var lead = a.Distance(center) - b.Distance(center);
        if (lead > 2 * reach * Growth) return a.Near(center, reach);
        if (lead < -2 * reach * Growth) return b.Near(center, reach);
        var (na, nb) = (a.Near(center, reach), b.Near(center, reach));
        return ReferenceEquals(na, a) && ReferenceEquals(nb, b) ? this : new Intersection(na, nb);
    }
}
