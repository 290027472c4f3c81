using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>All points on the side of a plane that the normal points away from: exact. Unbounded: only to cut with.</summary>
internal sealed class HalfSpace(Vec3 normal, Vec3 at) : Shape(Boxes.Everything)
{
    private readonly Vec3 _normal = normal.Normalized();

    public override double Distance(Vec3 p) => Vec3.Dot(p - at, _normal);
}
