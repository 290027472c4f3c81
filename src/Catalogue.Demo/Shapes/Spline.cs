using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>Catmull–Rom splines: a curve through given points, its tangent at each the half chord of its neighbours.</summary>
internal static class Spline
{
    /// <summary>The value between <paramref name="b"/> (t = 0) and <paramref name="c"/> (t = 1).</summary>
    public static double At(double a, double b, double c, double d, double t) =>
        0.5 * ((2 * b) + (t * (c - a + (t * ((2 * a) - (5 * b) + (4 * c) - d + (t * ((3 * (b - c)) + d - a)))))));

    /// <summary>
    /// A rope that follows the points and takes their thicknesses in between: a chain of <paramref name="pieces"/> limbs between neighbours.
    /// </summary>
    public static Shape Rope(int pieces, params (Vec3 At, double Radius)[] points)
    {
        var last = points.Length - 1;
        var chain = new List<Shape>(last * pieces);
        var (from, fromRadius) = points[0];
        for (var k = 1; k <= last * pieces; k++)
        {
            var (to, radius) = On(points, (double)k / pieces);
            chain.Add(new Limb(from, fromRadius, to, radius));
            (from, fromRadius) = (to, radius);
        }

        return new Union(chain);
    }

    /// <summary>Middle and thickness of a rope at <paramref name="t"/>, counted in points: 1.5 is half way from the second to the third.</summary>
    public static (Vec3 At, double Radius) On((Vec3 At, double Radius)[] points, double t)
    {
        var last = points.Length - 1;
        var i = Math.Clamp((int)t, 0, last - 1);
        t -= i;
        var (a, b, c, d) = (points[Math.Max(0, i - 1)], points[i], points[i + 1], points[Math.Min(last, i + 2)]);
        return (
            new(At(a.At.X, b.At.X, c.At.X, d.At.X, t), At(a.At.Y, b.At.Y, c.At.Y, d.At.Y, t), At(a.At.Z, b.At.Z, c.At.Z, d.At.Z, t)),
            At(a.Radius, b.Radius, c.Radius, d.Radius, t));
    }
}
