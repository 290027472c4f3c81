using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A shape turned, then moved.</summary>
internal sealed class Placed : Shape
{
    private readonly Shape _inner;
    private readonly Rotation _back;
    private readonly Rotation _turn;
    private readonly Vec3 _shift;

    private Placed(Shape inner, Rotation turn, Vec3 shift)
        : base(BoxOf(inner.Bounds, turn, shift), inner.Growth)
    {
        _inner = inner;
        _turn = turn;
        _back = turn.Inverse();
        _shift = shift;
    }

    public static Placed Of(Shape shape, Rotation turn, Vec3 shift) => shape is Placed p
        ? new(p._inner, turn.After(p._turn), turn.Apply(p._shift) + shift)
        : new(shape, turn, shift);

    public override double Distance(Vec3 p) => _inner.Distance(_back.Apply(p - _shift));

    private static BoundingBox BoxOf(BoundingBox box, Rotation turn, Vec3 shift)
    {
        var result = BoundingBox.Empty;
        for (var i = 0; i < 8; i++)
        {
            result = result.Including(shift + turn.Apply(new(
                (i & 1) == 0 ? box.Min.X : box.Max.X,
                (i & 2) == 0 ? box.Min.Y : box.Max.Y,
                (i & 4) == 0 ? box.Min.Z : box.Max.Z)));
        }

        return result;
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var near = _inner.Near(_back.Apply(center - _shift), reach);
        return ReferenceEquals(near, _inner) ? this : Of(near, _turn, _shift);
    }
}
