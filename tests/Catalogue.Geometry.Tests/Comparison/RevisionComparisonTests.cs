using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Comparison;

public sealed class RevisionComparisonTests
{
    // A ball's surface is at R − r from a concentric one everywhere; the facets of both are off by at most their sagitta (closed form).
    [Fact]
    public void Concentric_balls_differ_by_the_difference_of_their_radii()
    {
        var found = Between(Solids.Icosphere(10, 5), Solids.Icosphere(13, 5), 0.001);
        var sagitta = 13 * Icosphere3Gap / 16;
        Assert.Equal(3, found.LargestDeviation, sagitta + 0.002);
        Assert.Equal(3, found.BeforeToAfter.Mean, sagitta);
        Assert.Equal(3, found.AfterToBefore.Mean, sagitta);
        Assert.Equal(0.001, found.BeforeToAfter.ErrorBound, 1e-12);
        Assert.Equal(10, found.BeforeToAfter.At.Length, sagitta);
        Assert.Equal(13, found.BeforeToAfter.To.Length, sagitta);
        Assert.Equal(new(6, 6, 6), Rounded(found.Size * 1.01));
    }

    private const double Icosphere3Gap = 0.004528;

    // Icosphere of level 3 in a unit sphere: 0.004528 (trade facts, geometry). The sphere is stood in for by one of level 8, itself off by 4e-6.
    [Fact]
    public void A_ball_of_1280_triangles_is_off_its_sphere_by_the_sagitta()
    {
        var found = Between(Solids.Icosphere(1, 3), Solids.Icosphere(1, 7), 1e-5);
        Assert.Equal(Icosphere3Gap, found.LargestDeviation, 4e-5);
    }

    [Fact]
    public void A_part_does_not_differ_from_its_subdivided_self()
    {
        var part = Shapes.Knobbly(60, 30);
        var found = Between(part, Shapes.Subdivided(part), 0.0001);
        Assert.InRange(found.LargestDeviation, 0, 5e-6);
        Assert.Equal(0.0001, found.BeforeToAfter.ErrorBound, 1e-12);
        Assert.False(found.TopologyChanged);
        Assert.Equal(0, found.VolumeMm3, 0.01);
    }

    [Fact]
    public void The_same_flat_faces_cut_up_differently_do_not_differ()
    {
        // The diagonals run the other way, so no triangle of one lies on a single triangle of the other.
        var box = Solids.Box(40, 30, 20);
        var other = Shapes.Subdivided(Shapes.Subdivided(Solids.Box(40, 30, 20).Transformed(Rotation.FromRowMajor([-1, 0, 0, 0, -1, 0, 0, 0, 1]), new(40, 30, 0))));
        var found = Between(box, other, 1e-4);
        Assert.InRange(found.LargestDeviation, 0, 1e-6);
        Assert.Equal(1e-4, found.BeforeToAfter.ErrorBound, 1e-12);
    }

    [Fact]
    public void The_largest_deviation_is_found_inside_a_large_triangle()
    {
        // A spike of 0.8 mm on a face of 40 × 30.
        var slab = Solids.Box(40, 30, 5);
        var spiked = Between(slab, Solids.Together(slab, Pyramid(20, 15, 5, -0.8f, 3)), 0.001);
        Assert.Equal(0.8, spiked.AfterToBefore.Largest, 0.0011);
        Assert.Equal(0, spiked.BeforeToAfter.Largest, 1e-6);
        Assert.InRange(Vec3.Distance(spiked.AfterToBefore.At, new(20, 15, 5.8)), 0, 0.01);

        // From a triangle to its own three edges (as thin strips): farthest at the incentre, r = area / half circumference = 6 / 6 for 3-4-5.
        var triangle = new TriangleMesh([0, 0, 0, 4, 0, 0, 0, 3, 0], [0, 1, 2]);
        var strips = new TriangleMesh([0, 0, 0, 4, 0, 0, 0, 3, 0, 0, 0, 1, 4, 0, 1, 0, 3, 1], [0, 1, 3, 1, 4, 3, 1, 2, 4, 2, 5, 4, 2, 0, 5, 0, 3, 5]);
        var inside = SurfaceDeviation.Of(TriangleTree.Build(triangle), TriangleTree.Build(strips), 1e-4);
        Assert.Equal(1, inside.Largest, 1e-4);
        Assert.InRange(Vec3.Distance(inside.At, new(1, 1, 0)), 0, 1e-2);

        // The mean distance to the edges is a third of the greatest: the volume of the roof over the area.
        Assert.Equal(1 / 3.0, inside.Mean, 5 * inside.MeanError);
    }

    [Theory, InlineData(1e-1), InlineData(1e-3)]
    public void The_bound_holds_against_dense_sampling(double errorBound)
    {
        var one = Shapes.Knobbly(30, 12);
        var two = Shapes.Knobbly(24, 14).Transformed(Rotation.About(new(1, 2, 3), 0.02));
        var found = SurfaceDeviation.Of(TriangleTree.Build(one), TriangleTree.Build(two), errorBound);
        var tree = TriangleTree.Build(two);
        var largest = 0.0;
        for (var t = 0; t < one.TriangleCount; t++)
        {
            var (a, b, c) = one.Triangle(t);
            for (var i = 0; i <= 12; i++)
            {
                for (var j = 0; i + j <= 12; j++) largest = Math.Max(largest, tree.Nearest(a + ((b - a) * (i / 12.0)) + ((c - a) * (j / 12.0)))!.Value.Distance);
            }
        }

        Assert.InRange(largest, 0.1, found.Largest + errorBound);
        Assert.Equal(found.Largest, Vec3.Distance(found.At, found.To), 1e-9);
        Assert.Equal(found.Largest, tree.Nearest(found.At)!.Value.Distance, 1e-9);
        Assert.Equal(errorBound, found.ErrorBound, 1e-12);
    }

    [Fact]
    public void A_moved_part_deviates_by_the_move()
    {
        var box = Solids.Box(10, 10, 10);
        var found = Between(box, box.Transformed(Rotation.Identity, new(0, 0, 4)), 0.001);
        Assert.Equal(4, found.LargestDeviation, 0.0011);
        Assert.Equal(Vec3.Zero, found.Size);
        Assert.Equal(0, found.VolumeMm3, 1e-9);
    }

    [Fact]
    public void A_void_and_a_through_hole_are_changes_of_topology()
    {
        var ball = Solids.Icosphere(10, 3);
        var hollow = Between(ball, Solids.Together(ball, Solids.Inverted(Solids.Icosphere(5, 3))), 0.01);
        Assert.True(hollow.TopologyChanged);
        Assert.Equal((1, 0), (hollow.Before.Shells, hollow.Before.Voids));
        Assert.Equal((2, 1), (hollow.After.Shells, hollow.After.Voids));
        Assert.Equal(5, hollow.AfterToBefore.Largest, 0.1);
        Assert.Equal(0, hollow.BeforeToAfter.Largest, 1e-6);
        Assert.InRange(hollow.VolumeMm3, -524, -515); // a ball of radius 5: 523.6
        var ring = Between(ball, Solids.Torus(7, 3, 64, 32), 0.01);
        Assert.Equal((0, 1), (ring.Before.Handles, ring.After.Handles));
    }

    [Fact]
    public void It_says_the_same_again_and_can_be_stopped()
    {
        var (one, two) = (TriangleTree.Build(Shapes.Knobbly(200, 60)), TriangleTree.Build(Shapes.Knobbly(150, 70)));
        Assert.Equal(SurfaceDeviation.Of(one, two, 0.01), SurfaceDeviation.Of(one, two, 0.01));
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => SurfaceDeviation.Of(one, two, 0.01, stop.Token));
        Assert.Throws<ArgumentException>(() => SurfaceDeviation.Of(one, TriangleTree.Build(new TriangleMesh([], [])), 0.01));
    }

    private static RevisionComparison Between(TriangleMesh before, TriangleMesh after, double errorBound) =>
        RevisionComparison.Between(ComparedRevision.Of(before), ComparedRevision.Of(after), errorBound);

    private static Vec3 Rounded(Vec3 v) => new(Math.Round(v.X), Math.Round(v.Y), Math.Round(v.Z));

    /// <summary>A closed pyramid with a square base of the given half-width at height z, its tip <paramref name="depth"/> below (negative: above) it.</summary>
    private static TriangleMesh Pyramid(float x, float y, float z, float depth, float half) => new(
        [x - half, y - half, z, x + half, y - half, z, x + half, y + half, z, x - half, y + half, z, x, y, z - depth],
        depth > 0 ? [0, 1, 2, 0, 2, 3, 1, 0, 4, 2, 1, 4, 3, 2, 4, 0, 3, 4] : [0, 2, 1, 0, 3, 2, 0, 1, 4, 1, 2, 4, 2, 3, 4, 3, 0, 4]);
}
