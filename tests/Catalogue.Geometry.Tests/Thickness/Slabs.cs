using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Tests.Thickness;

/// <summary>Plates, wedges and profiles of known thickness.</summary>
internal static class Slabs
{
    /// <summary>A slab between two planes that would meet at the y axis at the given angle, from x = near to x = far along both, y from −width to 0.</summary>
    public static TriangleMesh Wedge(double degrees, double near, double far, double width)
    {
        var (s, c) = Math.SinCos(degrees * Math.PI / 360);
        return Profile([(near * c, -near * s), (far * c, -far * s), (far * c, far * s), (near * c, near * s)], width)
            .Transformed(Rotation.FromRowMajor([1, 0, 0, 0, 0, -1, 0, 1, 0]));
    }

    /// <summary>A polygon in the xy plane, counter-clockwise, drawn out along z: closed; the ends are cut into ears.</summary>
    public static TriangleMesh Profile((double X, double Y)[] polygon, double depth)
    {
        var n = polygon.Length;
        var positions = new List<float>();
        foreach (var (x, y) in polygon) positions.AddRange([(float)x, (float)y, 0, (float)x, (float)y, (float)depth]);
        var indices = new List<int>();
        for (var i = 0; i < n; i++)
        {
            var (a, b) = (2 * i, 2 * ((i + 1) % n));
            indices.AddRange([a, b, b + 1, a, b + 1, a + 1]);
        }

        var left = Enumerable.Range(0, n).ToList();
        while (left.Count >= 3)
        {
            for (var i = 0; i < left.Count; i++)
            {
                var (p, q, r) = (left[(i + left.Count - 1) % left.Count], left[i], left[(i + 1) % left.Count]);
                if (Turn(p, q, r) <= 0 || left.Any(o => o != p && o != q && o != r && Turn(p, q, o) >= 0 && Turn(q, r, o) >= 0 && Turn(r, p, o) >= 0)) continue;
                indices.AddRange([2 * p, 2 * r, 2 * q, (2 * p) + 1, (2 * q) + 1, (2 * r) + 1]);
                left.RemoveAt(i);
                break;
            }
        }

        return new([.. positions], [.. indices]);

        double Turn(int a, int b, int c) =>
            ((polygon[b].X - polygon[a].X) * (polygon[c].Y - polygon[a].Y)) - ((polygon[b].Y - polygon[a].Y) * (polygon[c].X - polygon[a].X));
    }

    /// <summary>A box with its four upright edges cut off at 45°.</summary>
    public static TriangleMesh Chamfered(double x, double y, double z, double cut) => Profile(
        [(cut, 0), (x - cut, 0), (x, cut), (x, y - cut), (x - cut, y), (cut, y), (0, y - cut), (0, cut)], z);

    /// <summary>A profile (radius, height), counter-clockwise, turned about the z axis; closed where it meets the axis, or a ring.</summary>
    public static TriangleMesh Turned((double R, double Z)[] profile, int sides, bool closed = true)
    {
        var positions = new List<float>();
        foreach (var (r, z) in profile)
        {
            for (var i = 0; i < sides; i++)
            {
                var (s, c) = Math.SinCos(2 * Math.PI * i / sides);
                positions.AddRange([(float)(r * c), (float)(r * s), (float)z]);
            }
        }

        var indices = new List<int>();
        for (var k = 0; k < (closed ? profile.Length - 1 : profile.Length); k++)
        {
            var next = (k + 1) % profile.Length;
            for (var i = 0; i < sides; i++)
            {
                var (a, b, c, d) = ((k * sides) + i, (k * sides) + ((i + 1) % sides), (next * sides) + i, (next * sides) + ((i + 1) % sides));
                if (profile[k].R == 0) indices.AddRange([k * sides, d, c]);
                else if (profile[next].R == 0) indices.AddRange([a, b, next * sides]);
                else indices.AddRange([a, b, d, a, d, c]);
            }
        }

        return new([.. positions], [.. indices]);
    }
}
