using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Meshes;

public sealed class PolygonTriangulationTests
{
    [Theory]
    [InlineData("0,0 4,0 4,4 0,4", 16)] // square
    [InlineData("0,0 4,0 1,1 0,4", 4)] // arrowhead, reflex third corner
    [InlineData("0,0 4,0 0,4 1,1", 6)] // arrowhead, reflex last corner
    [InlineData("0,0 2,0 4,0 4,4 2,4 0,4", 16)] // corners on straight edges
    [InlineData("0,0 6,0 6,6 4,6 4,2 2,2 2,6 0,6", 28)] // U
    [InlineData("0,0 9,0 9,9 0,9 0,0 3,3 3,6 6,6 6,3 3,3", 72)] // a hole joined by a slit
    [InlineData("0,0 8,0 8,8 1,8 1,3 6,3 6,6 3,6 3,5 5,5 5,4 2,4 2,7 7,7 7,1 0,1", 0)] // spiral; area by the shoelace formula
    public void The_triangles_cover_the_polygon_once(string corners, double area)
    {
        var flat = corners.Split(' ').Select(p => p.Split(',').Select(v => double.Parse(v, System.Globalization.CultureInfo.InvariantCulture)).ToArray()).ToArray();
        if (area == 0) area = Math.Abs(flat.Select((p, i) => (p[0] * flat[(i + 1) % flat.Length][1]) - (p[1] * flat[(i + 1) % flat.Length][0])).Sum()) / 2;
        foreach (var turn in new[] { Rotation.Identity, Rotation.About(Vec3.UnitX, Math.PI), Rotation.About(new(1, 2, 3), 1) })
        {
            for (var first = 0; first < flat.Length; first++)
            {
                var polygon = Enumerable.Range(0, flat.Length).Select(i => flat[(first + i) % flat.Length]).Select(p => Single(turn.Apply(new(p[0], p[1], 0)))).ToArray();
                var triangles = new int[3 * (polygon.Length - 2)];
                Assert.True(new PolygonTriangulation().Cut(polygon, triangles));
                var (covered, normal) = (0.0, Vec3.Zero);
                for (var i = 0; i < triangles.Length; i += 3)
                {
                    var cross = Vec3.Cross(polygon[triangles[i + 1]] - polygon[triangles[i]], polygon[triangles[i + 2]] - polygon[triangles[i]]);
                    covered += cross.Length / 2;
                    normal += cross;
                }

                Assert.Equal(area, covered, 1e-4);
                Assert.Equal(area, normal.Length / 2, 1e-4);
            }
        }
    }

    [Fact]
    public void A_long_spiral_is_cut_cleanly()
    {
        // Two arms, a unit apart, wound inward: hardly any corner is an ear at a time.
        const int N = 3000;
        var polygon = new Vec3[2 * N];
        for (var i = 0; i < N; i++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * i / 60);
            var r = 200 - (i / 20.0);
            polygon[i] = Single(new(r * c, r * s, 0));
            polygon[(2 * N) - 1 - i] = Single(new((r - 1) * c, (r - 1) * s, 0));
        }

        Assert.True(new PolygonTriangulation().Cut(polygon, new int[3 * ((2 * N) - 2)]));
    }

    [Fact]
    public void The_most_tangled_polygon_ends_in_time_too()
    {
        var random = new Random(5);
        var polygon = new Vec3[PolygonTriangulation.MostCorners];
        for (var i = 0; i < polygon.Length; i++) polygon[i] = new(random.Next(1000), random.Next(1000), random.Next(3));
        Assert.False(new PolygonTriangulation().Cut(polygon, new int[3 * (polygon.Length - 2)]));
    }

    [Fact]
    public void A_polygon_that_crosses_itself_is_said_to()
    {
        var triangles = new int[6];
        Assert.False(new PolygonTriangulation().Cut([new(0, 0, 0), new(1, 1, 0), new(1, 0, 0), new(0, 1, 0)], triangles));
    }

    [Theory, InlineData(1), InlineData(2), InlineData(3)]
    public void Random_scribbles_end_in_n_minus_two_triangles(int seed)
    {
        var random = new Random(seed);
        var cutter = new PolygonTriangulation();
        for (var round = 0; round < 300; round++)
        {
            var polygon = new Vec3[random.Next(3, 60)];
            for (var i = 0; i < polygon.Length; i++) polygon[i] = new(random.Next(6), random.Next(6), random.Next(2));
            var triangles = new int[3 * (polygon.Length - 2)];
            cutter.Cut(polygon, triangles);
            Assert.All(triangles, t => Assert.InRange(t, 0, polygon.Length - 1));
            Assert.Equal(polygon.Length, triangles.Distinct().Count());
        }
    }

    private static Vec3 Single(Vec3 p) => new((float)p.X, (float)p.Y, (float)p.Z);
}
