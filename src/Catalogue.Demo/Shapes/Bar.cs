using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A round bar with flat ends from <c>a</c> to <c>b</c>: exact.</summary>
internal sealed class Bar : Shape
{
    private readonly Vec3 _middle;
    private readonly Vec3 _axis;
    private readonly double _half;
    private readonly double _radius;

    public Bar(Vec3 a, Vec3 b, double radius)
        : base(Boxes.OfBar(a, b, radius))
    {
        _middle = (a + b) * 0.5;
        _axis = (b - a).Normalized();
        _half = Vec3.Distance(a, b) / 2;
        _radius = radius;
    }

    public override double Distance(Vec3 p)
    {
        var q = p - _middle;
        var along = Vec3.Dot(q, _axis);
        var aside = Math.Sqrt(Math.Max(0, q.LengthSquared - (along * along))) - _radius;
        return Boxes.Corner(aside, Math.Abs(along) - _half);
    }
}
