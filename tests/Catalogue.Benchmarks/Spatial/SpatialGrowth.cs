using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Benchmarks.Spatial;

/// <summary>Bounds at 1 M triangles on 2 cores: tree ≤ 300 ms, 2 M rays/s and more, self-intersections ≤ 600 ms.</summary>
internal static class SpatialGrowth
{
    private const int Rays = 1_000_000;

    public static IEnumerable<GrowthLine> Lines =>
    [
        new("tree", mesh => () => TriangleTree.Build(mesh)),
        new("tree, shuffled", mesh => Building(Samples.Shuffled(mesh))),
        new("a million rays", ShootingRays),
        new("self-intersections, tree given", mesh => SelfIntersecting(mesh)),
        new("self-intersections, shuffled", mesh => SelfIntersecting(Samples.Shuffled(mesh))),
    ];

    private static Action Building(TriangleMesh mesh) => () => TriangleTree.Build(mesh);

    private static Action SelfIntersecting(TriangleMesh mesh)
    {
        var tree = TriangleTree.Build(mesh);
        return () => SelfIntersections.Find(mesh, tree);
    }

    /// <summary>From random points of the box in random directions, on all cores.</summary>
    private static Action ShootingRays(TriangleMesh mesh)
    {
        var tree = TriangleTree.Build(mesh);
        var random = new Random(5);
        var box = mesh.Bounds;
        var rays = new Ray[Rays];
        for (var i = 0; i < Rays; i++)
        {
            var from = new Vec3(random.NextDouble() * box.Size.X, random.NextDouble() * box.Size.Y, random.NextDouble() * box.Size.Z) + box.Min;
            rays[i] = new(from, new(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5));
        }

        return () => Parallel.For(0, 64, part =>
        {
            for (var i = Rays / 64 * part; i < Rays / 64 * (part + 1); i++) tree.FirstHit(rays[i]);
        });
    }
}
