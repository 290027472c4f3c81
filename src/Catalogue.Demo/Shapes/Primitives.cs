using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A ball: exact.</summary>
internal sealed class Ball(Vec3 center, double radius) : Shape(Boxes.Around(center, radius))
{
    public override double Distance(Vec3 p) => Vec3.Distance(p, center) - radius;
}

/// <summary>
/// An ellipsoid about its centre, axes along x, y, z. First order: k₀(k₀ − 1)/k₁ with k₀ = |p/r| and k₁ = |p/r²|, right to first order at
/// the surface and within about 10 % of the distance near it for the mild aspect ratios used here.
/// </summary>
internal sealed class Ellipsoid(Vec3 center, Vec3 radii)
    : Shape(new(center - radii, center + radii), growth: 1.25)
{
    private readonly double _least = Math.Min(radii.X, Math.Min(radii.Y, radii.Z));

    public override double Distance(Vec3 p)
    {
        var x = (p.X - center.X) / radii.X;
        var y = (p.Y - center.Y) / radii.Y;
        var z = (p.Z - center.Z) / radii.Z;
        var k0 = Math.Sqrt((x * x) + (y * y) + (z * z));
        if (k0 < 0.05) return -_least * (1 - k0);
        x /= radii.X;
        y /= radii.Y;
        z /= radii.Z;
        return k0 * (k0 - 1) / Math.Sqrt((x * x) + (y * y) + (z * z));
    }
}

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

/// <summary>A block about its centre, its edges rounded by <c>round</c> (which is part of the size): exact.</summary>
internal sealed class Block(Vec3 center, Vec3 size, double round = 0)
    : Shape(new(center - (size * 0.5), center + (size * 0.5)))
{
    private readonly Vec3 _core = (size * 0.5) - new Vec3(round, round, round);

    public override double Distance(Vec3 p)
    {
        var x = Math.Abs(p.X - center.X) - _core.X;
        var y = Math.Abs(p.Y - center.Y) - _core.Y;
        var z = Math.Abs(p.Z - center.Z) - _core.Z;
        var inside = Math.Min(0, Math.Max(x, Math.Max(y, z)));
        var (ox, oy, oz) = (Math.Max(0, x), Math.Max(0, y), Math.Max(0, z));
        return inside + Math.Sqrt((ox * ox) + (oy * oy) + (oz * oz)) - round;
    }
}

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

/// <summary>All points on the side of a plane that the normal points away from: exact. Unbounded: only to cut with.</summary>
internal sealed class HalfSpace(Vec3 normal, Vec3 at) : Shape(Boxes.Everything)
{
    private readonly Vec3 _normal = normal.Normalized();

    public override double Distance(Vec3 p) => Vec3.Dot(p - at, _normal);
}

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

/// <summary>Small arithmetic on boxes and corners that several shapes share.</summary>
internal static class Boxes
{
    private const double Far = 1e6;

    public static BoundingBox Everything { get; } = new(new(-Far, -Far, -Far), new(Far, Far, Far));

    public static BoundingBox Around(Vec3 center, double radius)
    {
        var r = new Vec3(radius, radius, radius);
        return new(center - r, center + r);
    }

    public static BoundingBox Join(BoundingBox a, BoundingBox b) => a.Including(b.Min).Including(b.Max);

    public static BoundingBox Common(BoundingBox a, BoundingBox b) => new(
        new(Math.Max(a.Min.X, b.Min.X), Math.Max(a.Min.Y, b.Min.Y), Math.Max(a.Min.Z, b.Min.Z)),
        new(Math.Min(a.Max.X, b.Max.X), Math.Min(a.Max.Y, b.Max.Y), Math.Min(a.Max.Z, b.Max.Z)));

    public static BoundingBox Grown(BoundingBox box, double mm)
    {
        var by = new Vec3(mm, mm, mm);
        return new(box.Min - by, box.Max + by);
    }

    /// <summary>A flat-ended bar reaches aside by its radius times the sine of its angle to each axis.</summary>
    public static BoundingBox OfBar(Vec3 a, Vec3 b, double radius)
    {
        var u = (b - a).Normalized();
        var reach = new Vec3(
            radius * Math.Sqrt(Math.Max(0, 1 - (u.X * u.X))),
            radius * Math.Sqrt(Math.Max(0, 1 - (u.Y * u.Y))),
            radius * Math.Sqrt(Math.Max(0, 1 - (u.Z * u.Z))));
        return BoundingBox.Empty.Including(a - reach).Including(a + reach).Including(b - reach).Including(b + reach);
    }

    /// <summary>Distance to the box from outside; 0 inside.</summary>
    public static double Outside(in BoundingBox box, in Vec3 p) => Math.Sqrt(OutsideSquared(in box, in p));

    /// <summary>Its square, which most comparisons can do with.</summary>
    public static double OutsideSquared(in BoundingBox box, in Vec3 p)
    {
        var x = Math.Max(0, Math.Max(box.Min.X - p.X, p.X - box.Max.X));
        var y = Math.Max(0, Math.Max(box.Min.Y - p.Y, p.Y - box.Max.Y));
        var z = Math.Max(0, Math.Max(box.Min.Z - p.Z, p.Z - box.Max.Z));
        return (x * x) + (y * y) + (z * z);
    }

    /// <summary>True when the point is outside the box, by at least <paramref name="mm"/>.</summary>
    public static bool IsBeyond(in BoundingBox box, in Vec3 p, double mm)
    {
        var squared = OutsideSquared(in box, in p);
        return squared > 0 && (mm <= 0 || squared >= mm * mm);
    }

    /// <summary>Distance to where two perpendicular slabs meet, from the signed distances to both.</summary>
    public static double Corner(double a, double b) => a > 0 && b > 0 ? Math.Sqrt((a * a) + (b * b)) : Math.Max(a, b);
}
