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
        _subdivided = ComparisonGrowth.Subdivided(_part);
    }

    [Benchmark]
    public double Against_its_subdivided_self()
    {
        var (one, two) = (TriangleTree.Build(_part), TriangleTree.Build(_subdivided));
        return Math.Max(SurfaceDeviation.Of(one, two, 0.01).Largest, SurfaceDeviation.Of(two, one, 0.01).Largest);
    }
}
