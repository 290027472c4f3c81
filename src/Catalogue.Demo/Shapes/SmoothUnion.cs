using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>Two shapes melted together: the polynomial smooth minimum min(a, b) − h²/(4k), h = max(k − |a − b|, 0), never above the minimum.</summary>
internal sealed class SmoothUnion(Shape a, Shape b, double radius)
    : Shape(Boxes.Grown(Boxes.Join(a.Bounds, b.Bounds), radius / 4), Math.Max(a.Growth, b.Growth))
{
    private readonly BoundingBox _boxA = a.Bounds;
    private readonly BoundingBox _boxB = b.Bounds;

    public override double Distance(Vec3 p)
    {
        var first = Boxes.OutsideSquared(in _boxA, in p) < Boxes.OutsideSquared(in _boxB, in p);
        var near = first ? a.Distance(p) : b.Distance(p);
        if (first) return Boxes.IsBeyond(in _boxB, in p, near + radius) ? near : Melt(near, b.Distance(p));
        return Boxes.IsBeyond(in _boxA, in p, near + radius) ? near : Melt(near, a.Distance(p));
    }

    private double Melt(double x, double y)
    {
        var h = Math.Max(radius - Math.Abs(x - y), 0);
        return Math.Min(x, y) - (h * h / (4 * radius));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var lead = a.Distance(center) - b.Distance(center);
        var sure = radius + (2 * reach * Growth);
        if (lead > sure) return b.Near(center, reach);
        if (lead < -sure) return a.Near(center, reach);
        var (na, nb) = (a.Near(center, reach), b.Near(center, reach));
        return ReferenceEquals(na, a) && ReferenceEquals(nb, b) ? this : new SmoothUnion(na, nb, radius);
    }
}
