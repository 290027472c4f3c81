using BenchmarkDotNet.Attributes;
using Catalogue.Demo.Scenario;

namespace Catalogue.Benchmarks.Demo;

/// <summary>What the demo range costs to make, figure by figure: every mesh of every revision, one after another on one core.</summary>
[MemoryDiagnoser]
public class DemoRangeBenchmarks
{
    private DemoFigure _figure = null!;

    [ParamsSource(nameof(Slugs))]
    public string Figure { get; set; } = "";

    public static IEnumerable<string> Slugs => HalfTidePlayers.Range().Figures.Select(f => f.Slug);

    [GlobalSetup]
    public void Find() => _figure = HalfTidePlayers.Range().Figures.Single(f => f.Slug == Figure);

    [Benchmark]
    public int AllMeshes() => _figure.Parts.SelectMany(p => p.Variants).SelectMany(v => v.Revisions).Sum(r => r.Mesh(CancellationToken.None).TriangleCount);
}
