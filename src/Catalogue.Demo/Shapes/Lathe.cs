using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>An outline of (radius, height) pairs turned about the z axis, as on a lathe: exact for an <see cref="Outline.Profile"/>.</summary>
internal sealed class Lathe(Outline outline)
    : Shape(new(new(-outline.Right, -outline.Right, outline.Bottom), new(outline.Right, outline.Right, outline.Top)))
{
    public override double Distance(Vec3 p) => outline.Distance(Math.Sqrt((p.X * p.X) + (p.Y * p.Y)), p.Z);

    public override Shape Near(Vec3 center, double reach)
    {
        var near = outline.Near(Math.Sqrt((center.X * center.X) + (center.Y * center.Y)), center.Z, reach);
        return ReferenceEquals(near, outline) ? this : new Lathe(near);
    }
}
