using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A shape stretched along the axes. A lower bound of the distance: the inner one times the least factor.</summary>
internal sealed class Stretch(Shape inner, Vec3 factor) : Shape(BoxOf(inner.Bounds, factor), inner.Growth)
{
    private readonly double _least = Math.Min(factor.X, Math.Min(factor.Y, factor.Z));

    public override double Distance(Vec3 p) => inner.Distance(new(p.X / factor.X, p.Y / factor.Y, p.Z / factor.Z)) * _least;

    private static BoundingBox BoxOf(BoundingBox b, Vec3 f) => new(
        new(b.Min.X * f.X, b.Min.Y * f.Y, b.Min.Z * f.Z),
        new(b.Max.X * f.X, b.Max.Y * f.Y, b.Max.Z * f.Z));

    public override Shape Near(Vec3 center, double reach)
    {
        var near = inner.Near(new(center.X / factor.X, center.Y / factor.Y, center.Z / factor.Z), reach / _least);
        return ReferenceEquals(near, inner) ? this : new Stretch(near, factor);
    }
}
