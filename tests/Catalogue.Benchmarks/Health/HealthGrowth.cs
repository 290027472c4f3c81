using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Benchmarks.Health;

/// <summary>Bound: health without self-intersections of 1 M triangles ≤ 300 ms.</summary>
internal static class HealthGrowth
{
    // Welded as a reader leaves it: vertices in order of first appearance.
    public static IEnumerable<GrowthLine> Lines =>
    [
        new("health", mesh => () => MeshHealth.Of(mesh)),
        new("health, shuffled", mesh => Of(ExactWeld.Of(Samples.Shuffled(mesh)))),
        new("measures", mesh => () => MeshMeasures.Of(mesh)),
    ];

    private static Action Of(TriangleMesh mesh) => () => MeshHealth.Of(mesh);
}
