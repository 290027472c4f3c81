using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>The hull of two balls, a limb that tapers: exact.</summary>
internal sealed class Limb : Shape
{
    private readonly Vec3 _a;
    private readonly Vec3 _axis;
    private readonly double _length;
    private readonly double _ra;
    private readonly double _rb;
    private readonly double _sin;
    private readonly double _cos;

    public Limb(Vec3 a, double ra, Vec3 b, double rb)
        : base(Boxes.Join(Boxes.Around(a, ra), Boxes.Around(b, rb)))
    {
        if (ra < rb) (a, ra, b, rb) = (b, rb, a, ra);
        (_a, _ra, _rb) = (a, ra, rb);
        _length = Vec3.Distance(a, b);
        _axis = (b - a).Normalized();
        _sin = _length > 0 ? (ra - rb) / _length : 1;
        _cos = _sin < 1 ? Math.Sqrt(1 - (_sin * _sin)) : 0;
    }

    public override double Distance(Vec3 p)
    {
        var q = p - _a;
        if (_sin >= 1) return q.Length - _ra; // the larger ball holds the smaller
        var along = Vec3.Dot(q, _axis);
        var aside = Math.Sqrt(Math.Max(0, q.LengthSquared - (along * along)));
        var k = (along * _cos) - (aside * _sin);
        if (k < 0) return q.Length - _ra;
        if (k > _cos * _length) return Math.Sqrt((aside * aside) + ((along - _length) * (along - _length))) - _rb;
        return (aside * _cos) + (along * _sin) - _ra;
    }
}
