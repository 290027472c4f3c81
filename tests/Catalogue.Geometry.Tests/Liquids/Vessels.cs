using Catalogue.Geometry.Health;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Tests.Liquids;

/// <summary>Hollow bodies of revolution, and the check asked of them.</summary>
internal static class Vessels
{
    public static readonly Rotation Upright = Rotation.Identity;
    public static readonly Rotation UpsideDown = Rotation.About(Vec3.UnitX, Math.PI);
    public static readonly Rotation OnItsSide = Rotation.About(Vec3.UnitX, Math.PI / 2);

    public static TrappedLiquid Liquid(TriangleMesh mesh, Rotation? pose = null) =>
        TrappedLiquid.Of(mesh, TriangleTree.Build(mesh), MeshHealth.Of(mesh), pose ?? Rotation.Identity);

    /// <summary>Turns a closed outline of (radius, z) once about z; corners on the axis become one vertex.</summary>
    public static TriangleMesh Revolved(int sides, params (double R, double Z)[] outline)
    {
        var positions = new List<float>();
        var rings = new List<int[]>();
        foreach (var (r, z) in outline)
        {
            var ring = new int[sides];
            for (var s = 0; s < sides; s++)
            {
                if (r == 0 && s > 0)
                {
                    ring[s] = ring[0];
                    continue;
                }

                var (sin, cos) = Math.SinCos(2 * Math.PI * s / sides);
                ring[s] = positions.Count / 3;
                positions.AddRange([(float)(r * cos), (float)(r * sin), (float)z]);
            }

            rings.Add(ring);
        }

        var indices = new List<int>();
        for (var k = 0; k < rings.Count; k++)
        {
            var (p, q) = (rings[k], rings[(k + 1) % rings.Count]);
            for (var s = 0; s < sides; s++)
            {
                var t = (s + 1) % sides;
                Add(p[s], p[t], q[t]);
                Add(p[s], q[t], q[s]);
            }
        }

        var mesh = new TriangleMesh([.. positions], [.. indices]);
        return MeshMeasures.Of(mesh).VolumeMm3 > 0 ? mesh : Solids.Inverted(mesh);

        void Add(int a, int b, int c)
        {
            if (a != b && b != c && c != a) indices.AddRange([a, b, c]);
        }
    }

    /// <summary>A beaker whose mouth is at +z: 2 mm of wall, inner radius and depth as given.</summary>
    public static TriangleMesh Cup(double radius, double depth, int sides = 96) => Revolved(sides,
        (0, 0), (radius + 2, 0), (radius + 2, depth + 2), (radius, depth + 2), (radius, 2), (0, 2));

    /// <summary>A hollow ball with round holes at its poles, of radius 0 for none.</summary>
    public static TriangleMesh Ball(double outer, double inner, double topHole, double bottomHole, int sides = 96)
    {
        if (topHole == 0 && bottomHole == 0) return Solids.Together(Solids.Icosphere(outer, 5), Solids.Inverted(Solids.Icosphere(inner, 5)));
        var outline = new List<(double, double)>();
        Arc(outer, bottomHole, topHole, up: true);
        Arc(inner, bottomHole, topHole, up: false);
        return Revolved(sides, [.. outline]);

        void Arc(double radius, double bottom, double top, bool up)
        {
            var (from, to) = (Math.Asin(bottom / radius) - (Math.PI / 2), (Math.PI / 2) - Math.Asin(top / radius));
            for (var k = 0; k <= 96; k++)
            {
                var angle = up ? from + ((to - from) * k / 96) : to - ((to - from) * k / 96);
                var r = Math.Cos(angle) * radius;
                outline.Add((r < 1e-9 ? 0 : r, Math.Sin(angle) * radius));
            }
        }
    }

    /// <summary>Area of a regular polygon with its corners on a circle.</summary>
    public static double Disc(double radius, int sides = 96) => sides / 2.0 * Math.Sin(2 * Math.PI / sides) * radius * radius;
}
