using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Spatial;

/// <summary>Bounds (1 M triangles, 2 cores): build ≤ 300 ms, ≥ 2 M rays/s. Rays and points are random in the mesh's box; all cores.</summary>
[MemoryDiagnoser]
[SimpleJob(RunStrategy.Monitoring, warmupCount: 2, iterationCount: 5)]
public class TriangleTreeBenchmarks
{
    private const int Count = 1_000_000;
    private TriangleMesh _mesh = null!;
    private TriangleTree _tree = null!;
    private Ray[] _rays = [];
    private Vec3[] _points = [];

    [Params(1_000, 100_000, 1_000_000)]
    public int Triangles { get; set; }

    [Params(false, true)]
    public bool Shuffled { get; set; }

    [GlobalSetup]
    public void SetUp()
    {
        _mesh = KnobblyRing.Make(Triangles, Shuffled);
        _tree = TriangleTree.Build(_mesh);
        var random = new Random(5);
        var box = _mesh.Bounds;
        _rays = new Ray[Count];
        _points = new Vec3[Count];
        for (var i = 0; i < Count; i++)
        {
            var p = new Vec3(random.NextDouble() * box.Size.X, random.NextDouble() * box.Size.Y, random.NextDouble() * box.Size.Z) + box.Min;
            _rays[i] = new(p, new(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5));
            var (a, b, c) = _mesh.Triangle((int)((long)i * _mesh.TriangleCount / Count));
            _points[i] = ((a + b + c) / 3) + (Vec3.Cross(b - a, c - a).Normalized() * 0.1);
        }
    }

    [Benchmark]
    public TriangleTree Build() => TriangleTree.Build(_mesh);

    [Benchmark]
    public void A_million_first_hits() => OnAllCores(i => _tree.FirstHit(_rays[i]));

    [Benchmark]
    public void A_million_nearest_points_a_tenth_of_a_millimetre_off() => OnAllCores(i => _tree.Nearest(_points[i], 0.2));

    private static void OnAllCores(Action<int> one) => Parallel.For(0, 64, part =>
    {
        for (var i = Count / 64 * part; i < Count / 64 * (part + 1); i++) one(i);
    });
}
