using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A shape mirrored at x = 0, alone or together with its half at x ≥ 0.</summary>
internal sealed class Mirror(Shape inner, bool both) : Shape(BoxOf(inner.Bounds, both), inner.Growth)
{
    public override double Distance(Vec3 p) => inner.Distance(p with { X = both ? Math.Abs(p.X) : -p.X });

    private static BoundingBox BoxOf(BoundingBox b, bool both) => new(
        b.Min with { X = -b.Max.X },
        b.Max with { X = both ? b.Max.X : -b.Min.X });

    public override Shape Near(Vec3 center, double reach)
    {
        // Folding brings no two points further apart, so the reach stays the same.
        if (both && center.X > reach) return inner.Near(center, reach);
        var one = !both || center.X < -reach;
        var near = inner.Near(center with { X = one ? -center.X : Math.Abs(center.X) }, reach);
        return one == !both && ReferenceEquals(near, inner) ? this : new Mirror(near, !one);
    }
}
