using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Hulls;

public sealed class ConvexHullTests
{
    private static readonly Gen<float[]> Clouds = Gen.Float[-100, 100].Array[0, 300].Select(a => a[..(a.Length / 3 * 3)]);

    [Fact]
    public void A_box_is_its_own_hull()
    {
        var hull = ConvexHull.Of(Solids.Box(100, 60, 30));
        Assert.Equal((3, 8, 12), (hull.Dimension, hull.VertexCount, hull.FaceCount));
        Assert.Equal(12, hull.Edges.Length);
        Assert.Equal(180_000, hull.Volume, 6);
        Assert.Equal(2 * (6000 + 3000 + 1800), hull.Area, 6);
    }

    // CRC Standard Mathematical Tables: regular solids of edge 1, volume and area.
    [Theory]
    [InlineData("tetrahedron", 0.1178511, 1.7320508, 6)]
    [InlineData("octahedron", 0.4714045, 3.4641016, 12)]
    [InlineData("dodecahedron", 7.6631190, 20.6457288, 30)]
    [InlineData("icosahedron", 2.1816950, 8.6602540, 30)]
    public void The_hull_of_a_regular_solid_s_corners_is_that_solid(string solid, double volume, double area, int edges)
    {
        var hull = ConvexHull.Of(RegularSolids.Corners(solid));
        Assert.Equal(volume, hull.Volume, 5);
        Assert.Equal(area, hull.Area, 5);
        Assert.Equal(edges, hull.Edges.Length);
    }

    [Fact]
    public void A_torus_is_filled_and_keeps_half_its_tube()
    {
        var hull = ConvexHull.Of(Solids.Torus(20, 5, 128, 64));
        // Pappus: half tube π r²/2 swept by its centroid R + 4r/3π, plus the cylinder of radius R and height 2r within.
        var exact = (2 * Math.PI * (20 + (4 * 5 / (3 * Math.PI))) * Math.PI * 25 / 2) + (Math.PI * 400 * 10);
        Assert.InRange(hull.Volume / exact, 0.996, 1);
    }

    [Fact]
    public void No_points_give_an_empty_hull() => Assert.Equal((-1, 0, 0), Shape(ConvexHull.Of([])));

    [Fact]
    public void A_mesh_without_triangles_gives_an_empty_hull() => Assert.Equal((-1, 0, 0), Shape(ConvexHull.Of(new TriangleMesh([1, 2, 3], []))));

    [Fact]
    public void One_point_many_times_gives_a_point() => Assert.Equal((0, 1, 0), Shape(ConvexHull.Of([1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3])));

    [Fact]
    public void Points_of_a_line_give_its_two_ends()
    {
        var points = Enumerable.Range(0, 1000).SelectMany(i => new float[] { i * 371 % 1000, 2 * (i * 371 % 1000), 0 }).ToArray();
        var hull = ConvexHull.Of(points);
        Assert.Equal((1, 2, 0), Shape(hull));
        Assert.Equal(Math.Sqrt(5) * 999, Vec3.Distance(hull.Vertex(0), hull.Vertex(1)), 3);
    }

    [Fact]
    public void Points_of_a_plane_give_both_sides_of_a_polygon()
    {
        var points = new List<float>();
        for (var i = 0; i < 100; i++)
        {
            for (var j = 0; j < 100; j++) points.AddRange([i, j, 3]);
        }

        var hull = ConvexHull.Of([.. points]);
        Assert.Equal((2, 4, 4), Shape(hull));
        Assert.Equal(2 * 99 * 99, hull.Area, 6);
        Assert.Equal(0, hull.Volume);
        Assert.Equal(4, hull.Edges.Length);
    }

    [Theory, InlineData(false), InlineData(true)]
    public void A_million_points_of_one_plane_and_one_above_give_a_pyramid(bool turned)
    {
        var turn = turned ? Rotation.About(new(1, 2, 3), 0.7) : Rotation.Identity;
        var points = new List<float>();
        for (var i = 0; i < 1000; i++)
        {
            for (var j = 0; j < 1000; j++) Add(new(i, j, 0));
        }

        Add(new(500, 500, 400));
        var hull = ConvexHull.Of([.. points]);
        Assert.Equal(3, hull.Dimension);
        Assert.Equal(999.0 * 999 * 400 / 3, hull.Volume, turned ? 1e3 : 1e-3);
        if (!turned) Assert.Equal(5, hull.VertexCount);
        void Add(Vec3 p)
        {
            var q = turn.Apply(p);
            points.AddRange([(float)q.X, (float)q.Y, (float)q.Z]);
        }
    }

    [Theory, InlineData(float.NaN), InlineData(float.PositiveInfinity), InlineData(float.NegativeInfinity)]
    public void A_number_that_is_not_finite_is_refused(float odd) =>
        Assert.Throws<ArgumentException>(() => ConvexHull.Of([0, 0, 0, 1, odd, 0, 0, 0, 1]));

    [Theory, InlineData(1e30f), InlineData(1e-30f), InlineData(1e-44f)]
    public void Enormous_and_tiny_coordinates_keep_their_shape(float unit)
    {
        var hull = ConvexHull.Of([0, 0, 0, unit, 0, 0, 0, unit, 0, 0, 0, unit]);
        Assert.Equal((3, 4, 4), Shape(hull));
    }

    [Fact]
    public void Every_point_lies_inside() => Clouds.Sample(points =>
    {
        var hull = ConvexHull.Of(points);
        Assert.True(LargestDistanceOutside(hull, points) <= hull.ToleranceMm + 1e-5);
    });

    [Fact]
    public void Every_point_lies_inside_when_many_are_alike() => Gen.Int[-2, 2].Array[0, 150].Sample(numbers =>
    {
        var points = numbers[..(numbers.Length / 3 * 3)].Select(i => (float)i).ToArray();
        var hull = ConvexHull.Of(points);
        Assert.True(LargestDistanceOutside(hull, points) <= hull.ToleranceMm + 1e-9);
        if (hull.Dimension == 3) AssertClosedAndConvex(hull);
    });

    [Fact]
    public void The_hull_of_a_cloud_is_closed_and_convex() => Clouds.Sample(points =>
    {
        var hull = ConvexHull.Of(points);
        if (hull.Dimension == 3) AssertClosedAndConvex(hull);
    });

    [Fact]
    public void The_hull_of_a_large_mesh_is_closed_and_convex()
    {
        var mesh = Solids.Torus(50, 20, 400, 200).Transformed(Rotation.About(new(1, 2, 3), 1.1), new(1000, -500, 30));
        var hull = ConvexHull.Of(mesh);
        AssertClosedAndConvex(hull, 97);
        Assert.True(LargestDistanceOutside(hull, mesh.Positions.ToArray(), 997) <= hull.ToleranceMm + 1e-9);
    }

    [Fact]
    public void Stored_bytes_give_the_same_hull_back()
    {
        foreach (var mesh in new[] { Solids.Torus(20, 5, 64, 32), Solids.Box(1, 2, 3), new TriangleMesh([], []) })
        {
            var hull = ConvexHull.Of(mesh);
            var read = ConvexHull.FromBytes(hull.ToBytes());
            Assert.Equal(hull.Positions.ToArray(), read.Positions.ToArray());
            Assert.Equal(hull.Faces.ToArray(), read.Faces.ToArray());
            Assert.Equal((hull.Dimension, hull.ToleranceMm, hull.Volume), (read.Dimension, read.ToleranceMm, read.Volume));
        }
    }

    [Fact]
    public void Damaged_bytes_are_refused()
    {
        var bytes = ConvexHull.Of(Solids.Box(1, 2, 3)).ToBytes();
        Assert.Throws<FormatException>(() => ConvexHull.FromBytes(bytes.AsSpan(0, bytes.Length - 1)));
        Assert.Throws<FormatException>(() => ConvexHull.FromBytes([]));
        bytes[^1] = 0xFF;
        Assert.Throws<FormatException>(() => ConvexHull.FromBytes(bytes));
        bytes[0] ^= 1;
        Assert.Throws<FormatException>(() => ConvexHull.FromBytes(bytes));
    }

    private static (int Dimension, int Vertices, int Faces) Shape(ConvexHull hull) => (hull.Dimension, hull.VertexCount, hull.FaceCount);

    private static double LargestDistanceOutside(ConvexHull hull, float[] points, int every = 1)
    {
        var most = double.NegativeInfinity;
        for (var face = 0; face < hull.FaceCount; face++)
        {
            var normal = hull.FaceNormal(face);
            var offset = Vec3.Dot(normal, hull.Vertex(hull.Faces[3 * face]));
            for (var i = 0; i < points.Length; i += 3 * every)
                most = Math.Max(most, Vec3.Dot(normal, new(points[i], points[i + 1], points[i + 2])) - offset);
        }

        return most;
    }

    private static void AssertClosedAndConvex(ConvexHull hull, int every = 1)
    {
        var halves = new HashSet<(int, int)>();
        for (var i = 0; i < hull.Faces.Length; i++)
            Assert.True(halves.Add((hull.Faces[i], hull.Faces[(i / 3 * 3) + ((i + 1) % 3)])));
        Assert.All(halves, edge => Assert.Contains((edge.Item2, edge.Item1), halves));
        Assert.Equal(2, hull.VertexCount - (halves.Count / 2) + hull.FaceCount); // Euler
        Assert.True(LargestDistanceOutside(hull, hull.Positions.ToArray(), every) <= hull.ToleranceMm + 1e-6);
    }
}
