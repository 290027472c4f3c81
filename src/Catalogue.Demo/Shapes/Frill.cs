using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>
/// A round frill about z: a disc whose height swings <c>waves</c> times around, more toward its rim. A lower bound of the distance: the height
/// above the wavy middle less the half thickness, divided by the steepest slope's length.
/// </summary>
internal sealed class Frill(double radius, double thickness, double swing, int waves, double turn)
    : Shape(new(new(-radius, -radius, -swing - thickness), new(radius, radius, swing + thickness)))
{
    private readonly double _slope = Math.Sqrt(1 + Math.Pow(swing * waves / radius, 2) + Math.Pow(2 * swing / radius, 2));

    public override double Distance(Vec3 p)
    {
        var r = Math.Sqrt((p.X * p.X) + (p.Y * p.Y));
        var part = Math.Min(1, r / radius);
        var height = swing * part * part * Math.Sin((waves * Math.Atan2(p.Y, p.X)) + turn);
        return Boxes.Corner((Math.Abs(p.Z - height) - (thickness / 2)) / _slope, r - radius);
    }
}
