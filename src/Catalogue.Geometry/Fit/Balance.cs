using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>
/// Weights of three extents, none negative, 1 in all, under which their slopes cancel as far as they can: then the weighted sum cannot fall even where each
/// extent alone could. (The point of a triangle nearest to the origin; multipliers of the best rotation in the sense of Kuhn and Tucker.)
/// </summary>
internal static class Balance
{
    public static (double X, double Y, double Z) Of(Vec3 a, Vec3 b, Vec3 c)
    {
        // Inside the triangle: barycentric coordinates of the origin's projection onto its plane.
        var (u, v) = (b - a, c - a);
        var (uu, uv, vv) = (u.LengthSquared, Vec3.Dot(u, v), v.LengthSquared);
        var (au, av) = (Vec3.Dot(a, u), Vec3.Dot(a, v));
        var determinant = (uu * vv) - (uv * uv);
        if (determinant > 1e-12 * uu * vv)
        {
            var y = ((uv * av) - (vv * au)) / determinant;
            var z = ((uv * au) - (uu * av)) / determinant;
            if (y >= 0 && z >= 0 && y + z <= 1) return (1 - y - z, y, z);
        }

        var (ab, bc, ca) = (OfTwo(a, b), OfTwo(b, c), OfTwo(c, a));
        var (nab, nbc, nca) = (Squared(a, b, ab), Squared(b, c, bc), Squared(c, a, ca));
        return nab <= nbc && nab <= nca ? (1 - ab, ab, 0) : nbc <= nca ? (0, 1 - bc, bc) : (ca, 0, 1 - ca);
    }

    /// <summary>The share of <paramref name="b"/> in the point of the segment a–b nearest to the origin.</summary>
    public static double OfTwo(Vec3 a, Vec3 b)
    {
        var u = b - a;
        var length = u.LengthSquared;
        return length > 0 ? Math.Clamp(-Vec3.Dot(a, u) / length, 0, 1) : 0;
    }

    private static double Squared(Vec3 a, Vec3 b, double share) => ((a * (1 - share)) + (b * share)).LengthSquared;
}
