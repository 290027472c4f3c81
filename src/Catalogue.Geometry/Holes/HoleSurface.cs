using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>For each triangle the hole whose wall it belongs to.</summary>
public static class HoleSurface
{
    /// <summary>A wall keeps this share of the radius to the axis, as the search allows for roughness and facets.</summary>
    private const double Least = 0.85;
    private const double Most = 1.06;

    /// <param name="holes">As <see cref="PinHoles"/> found them in that mesh.</param>
    /// <returns>The number of the hole in the list, −1 for none; one for each triangle. O(m · holes).</returns>
    public static int[] Of(TriangleMesh mesh, IReadOnlyList<RoundHole> holes)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(holes);
        var of = new int[mesh.TriangleCount];
        for (var t = 0; t < of.Length; t++)
        {
            of[t] = -1;
            var (a, b, c) = mesh.Triangle(t);
            var middle = (a + b + c) / 3;
            var normal = Vec3.Cross(b - a, c - a).Normalized();
            for (var h = 0; h < holes.Count && of[t] < 0; h++)
                if (IsWallOf(holes[h], a, b, c, middle, normal)) of[t] = h;
        }

        return of;
    }

    private static bool IsWallOf(RoundHole hole, Vec3 a, Vec3 b, Vec3 c, Vec3 middle, Vec3 normal)
    {
        var fromCenter = middle - hole.Center;
        var along = Vec3.Dot(fromCenter, hole.Axis);

        // The wall begins and ends along a slant where the mouth is on slanted surface: half a diameter more at each end.
        if (Math.Abs(along) > (hole.DepthMm + hole.DiameterMm) / 2) return false;
        var outward = fromCenter - (hole.Axis * along);
        var radius = hole.DiameterMm / 2;
        if (!(Vec3.Dot(outward, normal) < -0.8 * outward.Length) || Math.Abs(Vec3.Dot(normal, hole.Axis)) > 0.3) return false;
        return Lies(a) && Lies(b) && Lies(c);

        bool Lies(Vec3 p)
        {
            var v = p - hole.Center;
            var off = (v - (hole.Axis * Vec3.Dot(v, hole.Axis))).Length;
            return off > Least * radius && off < Most * radius;
        }
    }
}
