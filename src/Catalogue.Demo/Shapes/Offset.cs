using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A shape grown (or shrunk) by a distance. Exact where the inner distance is.</summary>
internal sealed class Offset(Shape inner, double mm) : Shape(Boxes.Grown(inner.Bounds, mm), inner.Growth)
{
    public override double Distance(Vec3 p) => inner.Distance(p) - mm;

    public override Shape Near(Vec3 center, double reach)
    {
        var near = inner.Near(center, reach);
        return ReferenceEquals(near, inner) ? this : new Offset(near, mm);
    }
}
