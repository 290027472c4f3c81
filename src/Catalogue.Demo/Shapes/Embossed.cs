using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>
/// A shape whose surface stands <c>height</c> mm higher (or lies lower, when negative) inside a region, with shoulders 2.5 times as wide as
/// the step is high: shallow detail that a coarse grid can follow.
/// </summary>
/// <remarks>
/// The slope of the shoulder is at most 1.5 · height / width = 0.6: that much the value may grow faster than the distance.
/// </remarks>
internal sealed class Embossed(Shape inner, Shape region, double height)
    : Shape(Boxes.Grown(inner.Bounds, Math.Max(0, height)), inner.Growth + (0.6 * region.Growth))
{
    private readonly double _shoulder = 1.25 * Math.Abs(height);

    public override double Distance(Vec3 p)
    {
        var d = inner.Distance(p);
        var t = Math.Clamp((_shoulder - region.Distance(p)) / (2 * _shoulder), 0, 1);
        return d - (height * t * t * (3 - (2 * t)));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var m = region.Distance(center);
        var sure = _shoulder + (reach * region.Growth);
        if (m > sure) return inner.Near(center, reach);
        if (m < -sure) return new Offset(inner.Near(center, reach), height);
        return new Embossed(inner.Near(center, reach), region.Near(center, reach), height);
    }
}
