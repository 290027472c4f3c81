using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>
/// A solid given by its signed distance in mm: negative inside, positive outside, zero on the surface.
/// </summary>
/// <remarks>
/// The contract every shape keeps, and <see cref="Contouring.Contour"/> relies on: the sign is exact, and the value never exceeds the true
/// distance by more than the factor <see cref="Growth"/> (it may fall short). Immutable and safe to use from
/// many threads. Distance functions of the primitives are elementary geometry, derived here from their definitions.
/// </remarks>
internal abstract class Shape
{
    /// <summary>The step of the differences in <see cref="Gradient"/>, mm.</summary>
    private const double Step = 1e-4;

    protected Shape(BoundingBox bounds, double growth = 1) => (Bounds, Growth) = (bounds, growth);

    /// <summary>A box that holds the whole solid.</summary>
    public BoundingBox Bounds { get; }

    /// <summary>The most the distance changes over 1 mm: 1 for a true distance, more where <see cref="Distance"/> is only first-order.</summary>
    public double Growth { get; }

    /// <summary>Signed distance of <paramref name="p"/> in mm.</summary>
    public abstract double Distance(Vec3 p);

    /// <summary>
    /// A simpler shape with the same distances everywhere within <paramref name="reach"/> mm of <paramref name="center"/>: what cannot
    /// matter there is left out. No distance changes by more than <paramref name="reach"/> · <see cref="Growth"/> within the reach, so a part
    /// that loses against another by more than twice that at the centre loses everywhere in it.
    /// </summary>
    public virtual Shape Near(Vec3 center, double reach) => this;

    /// <summary>
    /// The outward direction of steepest growth of the distance at <paramref name="p"/>, not normalised: forward differences, three
    /// evaluations, given the distance <paramref name="here"/> at p.
    /// </summary>
    public Vec3 Gradient(Vec3 p, double here) => new(
        (Distance(p with { X = p.X + Step }) - here) / Step,
        (Distance(p with { Y = p.Y + Step }) - here) / Step,
        (Distance(p with { Z = p.Z + Step }) - here) / Step);

    /// <summary>This and the others in one solid.</summary>
    public Shape And(params Shape[] others) => new Union([this, .. others]);

    /// <summary>This and the others in one solid, with the inner corners filled over about <paramref name="radius"/> mm.</summary>
    public Shape Melt(double radius, params Shape[] others)
    {
        Shape result = this;
        foreach (var other in others) result = new SmoothUnion(result, other, radius);
        return result;
    }

    /// <summary>What of this lies outside all the others.</summary>
    public Shape Minus(params Shape[] others) => new Difference(this, others.Length == 1 ? others[0] : new Union(others));

    /// <summary>What of this lies inside the other.</summary>
    public Shape Within(Shape other) => new Intersection(this, other);

    /// <summary>What of this lies outside <paramref name="other"/>, the cut's edge rounded over about <paramref name="radius"/> mm.</summary>
    public Shape Carve(double radius, Shape other) => new SmoothDifference(this, other, radius);

    /// <summary>Everything within <paramref name="mm"/> of this; shrinks when negative.</summary>
    public Shape Grown(double mm) => new Offset(this, mm);

    /// <summary>The wall of this, <paramref name="thickness"/> mm inward from its surface, hollow inside.</summary>
    public Shape Hollow(double thickness) => Minus(Grown(-thickness));

    /// <summary>This, raised (or sunk, when negative) by <paramref name="height"/> mm inside <paramref name="region"/>, with soft shoulders.</summary>
    public Shape Embossed(Shape region, double height) => new Embossed(this, region, height);

    /// <summary>This, with its surface standing <paramref name="height"/> mm higher inside <paramref name="region"/>.</summary>
    public Shape Raised(Shape region, double height) => And(Grown(height).Within(region));

    /// <summary>This, with its surface lying <paramref name="depth"/> mm deeper inside <paramref name="region"/>.</summary>
    public Shape Engraved(Shape region, double depth) => Minus(region.Minus(Grown(-depth)));

    public Shape Moved(double x, double y, double z) => Placed.Of(this, Rotation.Identity, new(x, y, z));

    public Shape Moved(Vec3 by) => Placed.Of(this, Rotation.Identity, by);

    /// <summary>Turned about the origin, right-hand rule, in degrees.</summary>
    public Shape Turned(Vec3 axis, double degrees) => Placed.Of(this, Rotation.About(axis, double.DegreesToRadians(degrees)), Vec3.Zero);

    /// <summary>Turned about an axis through <paramref name="at"/>.</summary>
    public Shape Turned(Vec3 axis, double degrees, Vec3 at) => Moved(-at).Turned(axis, degrees).Moved(at);

    /// <summary>Turned so that the shape's +z points along <paramref name="direction"/>, then moved by <paramref name="at"/>.</summary>
    public Shape Along(Vec3 direction, Vec3 at) => Placed.Of(this, Rotation.BringingToZ(direction).Inverse(), at);

    /// <summary>Stretched about the origin by positive factors.</summary>
    public Shape Stretched(double x, double y, double z) => new Stretch(this, new(x, y, z));

    /// <summary>The shape seen in a mirror at x = 0.</summary>
    public Shape Reflected() => new Mirror(this, both: false);

    /// <summary>The half of the shape at x ≥ 0 and its reflection.</summary>
    public Shape Paired() => new Mirror(this, both: true);

    /// <summary><paramref name="count"/> copies about the z axis; the shape has to stay within one sector around +x.</summary>
    public Shape Around(int count) => new PolarRepeat(this, count);
}
