using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A ring about z in the plane z = 0: exact.</summary>
internal sealed class Ring(double major, double minor)
    : Shape(new(new(-major - minor, -major - minor, -minor), new(major + minor, major + minor, minor)))
{
    public override double Distance(Vec3 p)
    {
        var r = Math.Sqrt((p.X * p.X) + (p.Y * p.Y)) - major;
        return Math.Sqrt((r * r) + (p.Z * p.Z)) - minor;
    }
}
