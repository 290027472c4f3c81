using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Comparison;

/// <summary>Bound: a part of 1 M triangles against its subdivided self at 0.01 mm, both ways and both trees, ≤ 3 s on 2 cores.</summary>
internal static class ComparisonGrowth
{
    public static IEnumerable<GrowthLine> Lines => [new("comparison with its subdivided self", Comparing, 1_000_000)];

    private static Action Comparing(TriangleMesh mesh)
    {
        var finer = Subdivided(mesh);
        return () =>
        {
            var (one, two) = (TriangleTree.Build(mesh), TriangleTree.Build(finer));
            SurfaceDeviation.Of(one, two, 0.01);
            SurfaceDeviation.Of(two, one, 0.01);
        };
    }

    /// <summary>Four triangles for each.</summary>
    internal static TriangleMesh Subdivided(TriangleMesh mesh)
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
}
