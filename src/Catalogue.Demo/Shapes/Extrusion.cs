using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A flat outline in the x–y plane, thick from z = <c>bottom</c> to <c>top</c>: exact.</summary>
internal sealed class Extrusion(Outline outline, double bottom, double top)
    : Shape(new(new(outline.Left, outline.Bottom, bottom), new(outline.Right, outline.Top, top)))
{
    private readonly double _middle = (bottom + top) / 2;
    private readonly double _half = (top - bottom) / 2;

    public override double Distance(Vec3 p) => Boxes.Corner(outline.Distance(p.X, p.Y), Math.Abs(p.Z - _middle) - _half);

    public override Shape Near(Vec3 center, double reach)
    {
        var near = outline.Near(center.X, center.Y, reach);
        return ReferenceEquals(near, outline) ? this : new Extrusion(near, bottom, top);
    }
}
