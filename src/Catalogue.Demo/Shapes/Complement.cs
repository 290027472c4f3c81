using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>Everything that a shape is not.</summary>
internal sealed class Complement(Shape inner) : Shape(Boxes.Everything, inner.Growth)
{
    public override double Distance(Vec3 p) => -inner.Distance(p);
}
