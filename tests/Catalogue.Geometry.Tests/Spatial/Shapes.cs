using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Tests.Spatial;

/// <summary>Meshes the spatial tests share.</summary>
internal static class Shapes
{
    /// <summary>A closed, knobbly ring of 2 · around · tube triangles, about 60 mm wide: curved everywhere, with folds that face each other.</summary>
    public static TriangleMesh Knobbly(int around, int tube) => Solids.Tube(around, tube, (u, w) =>
    {
        var r = 6 * (1 + (0.25 * Math.Sin(7 * u)) + (0.08 * Math.Sin((23 * u) + (5 * w))) + (0.1 * Math.Cos((3 * w) + (2 * u))));
        var k = (25 * (1 + (0.3 * Math.Sin(2 * u)))) + (r * Math.Cos(w));
        return new(k * Math.Cos(u), k * Math.Sin(u) * 0.8, (r * Math.Sin(w) * 1.2) + (8 * Math.Sin(3 * u)));
    });

    /// <summary>Every triangle cut in four at the middles of its edges; the surface stays where it is (to single-precision rounding).</summary>
    public static TriangleMesh Subdivided(TriangleMesh mesh)
    {
        var positions = new List<float>(mesh.Positions.ToArray());
        var middles = new Dictionary<(int, int), int>();
        var indices = new List<int>(12 * mesh.TriangleCount);
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (a, b, c) = (mesh.Indices[3 * t], mesh.Indices[(3 * t) + 1], mesh.Indices[(3 * t) + 2]);
            var (ab, bc, ca) = (Middle(a, b), Middle(b, c), Middle(c, a));
            indices.AddRange([a, ab, ca, b, bc, ab, c, ca, bc, ab, bc, ca]);
        }

        return new([.. positions], [.. indices]);

        int Middle(int a, int b)
        {
            var key = a < b ? (a, b) : (b, a);
            if (middles.TryGetValue(key, out var m)) return m;
            var p = (mesh.Vertex(a) + mesh.Vertex(b)) * 0.5;
            positions.AddRange([(float)p.X, (float)p.Y, (float)p.Z]);
            return middles[key] = (positions.Count / 3) - 1;
        }
    }

    public static Vec3 PointIn(BoundingBox box, Random random) => new(
        box.Min.X + (random.NextDouble() * box.Size.X),
        box.Min.Y + (random.NextDouble() * box.Size.Y),
        box.Min.Z + (random.NextDouble() * box.Size.Z));

    public static Vec3 Direction(Random random)
    {
        while (true)
        {
            var v = new Vec3((2 * random.NextDouble()) - 1, (2 * random.NextDouble()) - 1, (2 * random.NextDouble()) - 1);
            if (v.LengthSquared is > 0.01 and <= 1) return v.Normalized();
        }
    }
}
