using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Health;

public sealed class SelfIntersectionsTests
{
    public static TheoryData<string> CleanMeshes => ["box", "ball", "prism", "ring", "shell", "turned flat", "far away"];

    [Theory, MemberData(nameof(CleanMeshes))]
    public void A_clean_mesh_has_none(string name)
    {
        var mesh = name switch
        {
            "box" => Subdivided(Solids.Box(7, 8, 9), 4),
            "ball" => Solids.Icosphere(10, 4),
            "prism" => Solids.Cylinder(5, 20, 97),
            "ring" => Shapes.Knobbly(200, 80),
            "shell" => Solids.Together(Solids.Icosphere(10, 3), Solids.Inverted(Solids.Icosphere(9.9, 3))),
            // Coplanar up to rounding only: every flat neighbour is a hair off its plane, on either side.
            "turned flat" => Subdivided(Solids.Box(7, 8, 9), 5).Transformed(Rotation.About(new(1, 2, 3), 0.7)),
            _ => Solids.Icosphere(10, 4).Transformed(Rotation.Identity, new(1000, -2000, 500)),
        };
        var found = Find(mesh);
        Assert.Equal(0, found.Count);
        Assert.True(found.CountIsExact);
        Assert.Empty(found.Places);
    }

    [Fact]
    public void Two_boxes_pushed_into_each_other_meet_where_their_faces_cross()
    {
        var mesh = Solids.Together(Solids.Box(10, 10, 10), Solids.Box(4, 4, 20).Transformed(Rotation.Identity, new(3.1f, 3.2f, -5.3f)));
        var found = Find(mesh);
        Assert.Equal(PlainCount(mesh), found.Count);
        Assert.InRange(found.Count, 8, 64);
        Assert.All(found.Places, p =>
        {
            Assert.True(p.First < p.Second);
            Assert.InRange(p.At.Z, -0.001, 10.001);
            Assert.True(Math.Abs(p.At.Z) < 1e-6 || Math.Abs(p.At.Z - 10) < 1e-6);
        });
    }

    [Fact]
    public void Overlaps_in_one_plane_count()
    {
        // Two boxes stacked face on face, the upper one moved aside: 2 × 2 triangles of the two faces, of which all pairs overlap or touch.
        var mesh = Solids.Together(Solids.Box(10, 10, 10), Solids.Box(10, 10, 10).Transformed(Rotation.Identity, new(3, 2, 10)));
        Assert.Equal(PlainCount(mesh), Find(mesh).Count);
        Assert.True(Find(mesh).Count > 3);
        Assert.Contains(Find(mesh).Places, p => p.At.Z == 10);
    }

    [Fact]
    public void A_sheet_folded_flat_onto_itself_counts_and_one_folded_nearly_flat_does_not()
    {
        Assert.Equal(1, Find(Fold(0)).Count);
        Assert.Equal(0, Find(Fold(1e-30f)).Count);
        Assert.Equal(0, Find(Fold(-1e-30f)).Count);
        static TriangleMesh Fold(float z) => new([0, 0, 0, 10, 0, 0, 3, 5, 0, 6, 4, z], [0, 1, 2, 1, 0, 3]);
    }

    [Fact]
    public void Triangles_that_share_a_corner_count_only_when_they_meet_elsewhere()
    {
        // The second triangle stands on the shared corner, leans through the first, or lies in its plane beside or on it.
        Assert.Equal(0, Find(AtCorner([0, 0, 5, 1, 1, 6])).Count);
        Assert.Equal(1, Find(AtCorner([3, 3, 1, 4, 2, -1])).Count);
        Assert.Equal(0, Find(AtCorner([-5, 0, 0, 0, -5, 0])).Count);
        Assert.Equal(1, Find(AtCorner([5, 4, 0, 4, 5, 0])).Count);
        Assert.Equal(1, Find(AtCorner([20, 10, 0, 10, 20, 0])).Count);
        // Touching along an edge without sharing it.
        Assert.Equal(1, Find(AtCorner([5, 0, 0, 0, -5, 0])).Count);
        static TriangleMesh AtCorner(float[] two) => new([0, 0, 0, 10, 0, 0, 0, 10, 0, .. two], [0, 1, 2, 0, 3, 4]);
    }

    [Fact]
    public void Corners_at_one_place_are_shared_even_when_the_mesh_is_not_welded()
    {
        var ball = Solids.Icosphere(10, 3);
        var soup = new float[9 * ball.TriangleCount];
        for (var i = 0; i < ball.Indices.Length; i++) ball.Positions.Slice(3 * ball.Indices[i], 3).CopyTo(soup.AsSpan(3 * i));
        Assert.Equal(0, Find(new(soup, [.. Enumerable.Range(0, soup.Length / 3)])).Count);
    }

    [Fact]
    public void A_triangle_that_is_there_twice_overlaps_itself_and_one_without_area_does_not()
    {
        Assert.Equal(1, Find(new([0, 0, 0, 1, 0, 0, 0, 1, 0], [0, 1, 2, 0, 2, 1])).Count);
        Assert.Equal(0, Find(new([0, 0, 0, 10, 0, 0, 0, 10, 0, 1, 1, -5, 1, 1, 5], [0, 1, 2, 3, 4, 4])).Count);
        Assert.Equal(0, Find(new([0, 0, 0, 10, 0, 0, 0, 10, 0, 1, 1, -5, 1, 1, 0, 1, 1, 5], [0, 1, 2, 3, 4, 5])).Count);
    }

    [Fact]
    public void A_point_that_just_touches_a_face_counts_and_one_a_hair_above_it_does_not()
    {
        Assert.Equal(1, Find(Spike(0)).Count);
        Assert.Equal(0, Find(Spike(1e-38f)).Count);
        static TriangleMesh Spike(float z) => new([0, 0, 0, 10, 0, 0, 0, 10, 0, 2, 2, z, 3, 2, 5, 2, 3, 5], [0, 1, 2, 3, 4, 5]);
    }

    [Theory, InlineData(1), InlineData(2), InlineData(3), InlineData(4)]
    public void The_count_is_that_of_testing_every_pair(int seed)
    {
        // Corners on a coarse grid, so that every coplanar and touching case comes up again and again.
        var random = new Random(seed);
        var positions = new float[3 * 60];
        for (var i = 0; i < positions.Length; i++) positions[i] = random.Next(5) * 0.3f;
        var indices = new int[3 * 120];
        for (var i = 0; i < indices.Length; i++) indices[i] = random.Next(60);
        var mesh = new TriangleMesh(positions, indices);
        var turned = mesh.Transformed(Rotation.FromRowMajor([0, 1, 0, 0, 0, 1, 1, 0, 0]));
        Assert.Equal(PlainCount(mesh), Find(mesh).Count);
        Assert.Equal(Find(mesh).Count, Find(turned).Count);
        Assert.True(Find(mesh).Count > 100);
    }

    [Fact]
    public void Places_are_spread_and_no_more_than_asked_for()
    {
        var mesh = Solids.Together(Solids.Icosphere(10, 4), Solids.Icosphere(10, 4).Transformed(Rotation.About(new(1, 2, 3), 1), new(9, 0, 0)));
        var all = Find(mesh);
        Assert.InRange(all.Count, 100, 2000);
        var some = SelfIntersections.Find(mesh, TriangleTree.Build(mesh), 5);
        Assert.Equal(5, some.Places.Count);
        Assert.Equal(all.Count, some.Count);
        // Both balls pass through every place; theirs is the circle in the plane between them.
        Assert.All(all.Places, p => Assert.Equal(4.5, p.At.X, 0.2));
        Assert.True(some.Places.Max(p => p.At.Y) - some.Places.Min(p => p.At.Y) > 12);
    }

    private static SelfIntersections Find(TriangleMesh mesh) => SelfIntersections.Find(mesh, TriangleTree.Build(mesh));

    private static int PlainCount(TriangleMesh mesh)
    {
        var count = 0;
        for (var i = 0; i < mesh.TriangleCount; i++)
        {
            var (a, b, c) = mesh.Triangle(i);
            for (var j = i + 1; j < mesh.TriangleCount; j++)
            {
                var (p, q, r) = mesh.Triangle(j);
                var one = TrianglePair.Intersects(a, b, c, p, q, r);
                Assert.Equal(one, TrianglePair.Intersects(q, r, p, c, b, a));
                if (one) count++;
            }
        }

        return count;
    }

    private static TriangleMesh Subdivided(TriangleMesh mesh, int times)
    {
        for (var i = 0; i < times; i++) mesh = Shapes.Subdivided(mesh);
        return mesh;
    }
}
