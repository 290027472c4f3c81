using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A ball: exact.</summary>
internal sealed class Ball(Vec3 center, double radius) : Shape(Boxes.Around(center, radius))
{
    public override double Distance(Vec3 p) => Vec3.Distance(p, center) - radius;
}
