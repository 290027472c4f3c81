using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;
using Catalogue.Benchmarks.Spatial;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Health;

/// <summary>Bound: ≤ 600 ms on 1 M triangles and 2 cores, the tree being there.</summary>
[SimpleJob(RunStrategy.Monitoring, warmupCount: 2, iterationCount: 5)]
public class SelfIntersectionsBenchmarks
{
    private TriangleMesh _mesh = null!;
    private TriangleTree _tree = null!;

    [Params(1_000, 100_000, 1_000_000)]
    public int Triangles { get; set; }

    [Params(false, true)]
    public bool Shuffled { get; set; }

    [GlobalSetup]
    public void SetUp()
    {
        _mesh = KnobblyRing.Make(Triangles, Shuffled);
        _tree = TriangleTree.Build(_mesh);
    }

    [Benchmark]
    public SelfIntersections Find() => SelfIntersections.Find(_mesh, _tree);
}
