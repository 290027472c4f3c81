using Catalogue.Geometry.Limbs;

namespace Catalogue.Benchmarks.Limbs;

/// <summary>How the search for limbs grows with the mesh; most of it is by cubes, whose number does not. One thread.</summary>
internal static class LimbsGrowth
{
    public static IEnumerable<GrowthLine> Lines => [new("limbs", mesh => () => LimbMeasures.Of(mesh), 1_000_000)];
}
