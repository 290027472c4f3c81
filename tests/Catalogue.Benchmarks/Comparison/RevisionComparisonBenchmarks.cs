using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;
using Catalogue.Benchmarks.Spatial;
using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Comparison;

/// <summary>Bound: a part of 1 M triangles against its subdivided self at 0.01 mm, both ways and both trees, ≤ 3 s on 2 cores.</summary>
[SimpleJob(RunStrategy.Monitoring, warmupCount: 1, iterationCount: 3)]
public class RevisionComparisonBenchmarks
{
    private TriangleMesh _part = null!;
    private TriangleMesh _subdivided = null!;

    /// <summary>Triangles of the part; its subdivided self has four times as many.</summary>
    [Params(1_000, 25_000, 250_000, 1_000_000)]
    public int Triangles { get; set; }

    [GlobalSetup]
    public void SetUp()
    {
        _part = KnobblyRing.Make(Triangles);
        _subdivided = Subdivided(_part);
    }

    [Benchmark]
    public double Against_its_subdivided_self()
    {
        var (one, two) = (TriangleTree.Build(_part), TriangleTree.Build(_subdivided));
        return Math.Max(SurfaceDeviation.Of(one, two, 0.01).Largest, SurfaceDeviation.Of(two, one, 0.01).Largest);
    }

    private static TriangleMesh Subdivided(TriangleMesh mesh)
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
