using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Xunit;

namespace Catalogue.Geometry.Tests.Orientations;

/// <summary>The directions that orientation advice looks along are spread evenly: shadows over them have the mean that geometry demands.</summary>
public sealed class ShadowTests
{
    // Cauchy, 1832: the mean shadow of a convex body over all directions is a quarter of its surface. Box 100 × 60 × 30: 21 600 ÷ 4 = 5 400.
    [Fact]
    public void The_mean_shadow_of_a_brick_is_a_quarter_of_its_surface()
    {
        var brick = ConvexHull.Of(Solids.Box(100, 60, 30));
        Assert.Equal(5400, Directions().Average(d => Shadow(brick, d)), 5.0);
    }

    [Fact]
    public void The_mean_shadow_of_a_ball_is_a_quarter_of_its_surface_too()
    {
        var ball = ConvexHull.Of(Solids.Icosphere(20, 3));
        Assert.Equal(1, Directions().Average(d => Shadow(ball, d)) / (ball.Area / 4), 0.001);
    }

    // The largest shadow of a box is √((ab)² + (bc)² + (ca)²): √(6000² + 1800² + 3000²) = 6945.5022, along that vector.
    [Fact]
    public void No_direction_casts_a_larger_shadow_than_the_known_one()
    {
        var brick = ConvexHull.Of(Solids.Box(100, 60, 30));
        Assert.Equal(6945.5022, Shadow(brick, new Vec3(60 * 30, 100 * 30, 100 * 60).Normalized()), 1e-4);
        Assert.InRange(Directions().Max(d => Shadow(brick, d)), 6900, 6945.5023);
    }

    private static IEnumerable<Vec3> Directions() => Enumerable.Range(0, OrientationCandidates.OverTheSphere).Select(OrientationCandidates.OnSphere);

    /// <summary>Half of what all faces together cover.</summary>
    private static double Shadow(ConvexHull hull, Vec3 direction)
    {
        var sum = 0.0;
        for (var i = 0; i < hull.Faces.Length; i += 3)
        {
            var (a, b, c) = (hull.Vertex(hull.Faces[i]), hull.Vertex(hull.Faces[i + 1]), hull.Vertex(hull.Faces[i + 2]));
            sum += Math.Abs(Vec3.Dot(Vec3.Cross(b - a, c - a), direction)) / 4;
        }

        return sum;
    }
}
