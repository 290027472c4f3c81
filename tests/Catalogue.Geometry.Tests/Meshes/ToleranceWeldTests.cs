using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Meshes;

public sealed class ToleranceWeldTests
{
    [Fact]
    public void Vertices_within_the_tolerance_become_one_and_others_do_not()
    {
        var weld = ToleranceWeld.Of(new TriangleMesh([0, 0, 0, 5, 0, 0, 0, 5, 0, 0.009f, 0, 0, 5, 0.011f, 0, 0, 5, -0.01f], [0, 1, 2, 3, 5, 4]), 0.01);
        Assert.Equal([0, 1, 2, 0, 2, 3], weld.Mesh.Indices.ToArray());
        Assert.Equal((4, 2, 0), (weld.Mesh.VertexCount, weld.MergedVertices, weld.LostTriangles));
        Assert.Equal(0.01, weld.FarthestMoveMm, 1e-6);
    }

    [Fact]
    public void A_vertex_joins_the_nearest_and_never_travels_along_a_chain()
    {
        // Five points 0.9 apart: the first stays, the second joins it, the third is too far from the first and stays, and so on.
        var weld = ToleranceWeld.Of(new TriangleMesh([0, 0, 0, 0.9f, 0, 0, 1.8f, 0, 0, 2.7f, 0, 0, 3.6f, 0, 0, 0, 9, 0], [0, 2, 5, 1, 3, 5, 2, 4, 5]), 1);
        Assert.Equal([0, 1, 3, 0, 1, 3, 1, 2, 3], weld.Mesh.Indices.ToArray());
        Assert.Equal([0, 1.8f, 3.6f, 0], Enumerable.Range(0, 4).Select(v => (float)weld.Mesh.Vertex(v).X));
    }

    [Fact]
    public void A_triangle_that_loses_a_corner_is_left_out()
    {
        var weld = ToleranceWeld.Of(new TriangleMesh([0, 0, 0, 0.001f, 0, 0, 0, 5, 0, 5, 0, 0], [0, 1, 2, 1, 3, 2]), 0.01);
        Assert.Equal((1, 1), (weld.LostTriangles, weld.Mesh.TriangleCount));
    }

    [Fact]
    public void A_shaken_heap_of_triangles_becomes_the_surface_it_was()
    {
        var ball = Solids.Icosphere(10, 3);
        var random = new Random(7);
        var heap = new float[3 * ball.Indices.Length];
        for (var i = 0; i < heap.Length; i++)
            heap[i] = ball.Positions[(3 * ball.Indices[i / 3]) + (i % 3)] + (0.002f * (random.NextSingle() - 0.5f)) + 5000;
        var weld = ToleranceWeld.Of(new TriangleMesh(heap, [.. Enumerable.Range(0, ball.Indices.Length)]), 0.02);
        var health = MeshHealth.Of(weld.Mesh);
        Assert.True(health.Closed && health.Manifold && health.Oriented);
        Assert.Equal((ball.VertexCount, ball.TriangleCount), (health.Vertices, health.Triangles));
        Assert.InRange(weld.FarthestMoveMm, 0, 0.02);
    }

    [Fact]
    public void A_million_points_in_one_place_are_one()
    {
        var weld = ToleranceWeld.Of(new TriangleMesh(new float[3_000_000], [0, 1, 2]), 1e-3);
        Assert.Equal((999_999, 1, 0), (weld.MergedVertices, weld.LostTriangles, weld.Mesh.VertexCount));
    }

    [Theory, InlineData(0), InlineData(-1), InlineData(double.NaN), InlineData(double.PositiveInfinity)]
    public void A_tolerance_that_is_none_is_refused(double tolerance) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ToleranceWeld.Of(Solids.Box(1, 1, 1), tolerance));
}
