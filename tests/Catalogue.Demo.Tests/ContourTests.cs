using Catalogue.Demo.Contouring;
using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Demo.Tests;

public sealed class ContourTests
{
    private static readonly Vec3 Askew = new(1, 2, 3);

    [Fact]
    public void A_ball_is_closed_and_its_vertices_lie_on_the_sphere()
    {
        var mesh = Meshed(new Ball(new(1, 2, 3), 15));
        var check = AssertSound(mesh);
        Assert.All(mesh.Vertices.ToArray(), v => Assert.Equal(15, Vec3.Distance(new(v.X, v.Y, v.Z), new(1, 2, 3)), 0.01));
        Assert.InRange(check.Shells[0].VolumeMm3, (4.0 / 3 * Math.PI * 3375) - 40, 4.0 / 3 * Math.PI * 3375);
    }

    [Fact]
    public void A_turned_block_keeps_its_sharp_corners()
    {
        var mesh = Meshed(new Block(Vec3.Zero, new(20, 30, 10)).Turned(Askew, 33));
        var check = AssertSound(mesh);
        Assert.Equal(6000, check.Shells[0].VolumeMm3, 6000 * 2e-4);
        var farthest = mesh.Vertices.ToArray().Max(v => v.Length());
        Assert.Equal(Math.Sqrt(100 + 225 + 25), farthest, 0.05);
    }

    [Fact]
    public void A_hollow_ball_has_an_inward_shell()
    {
        var check = AssertSound(Meshed(new Ball(Vec3.Zero, 15).Hollow(3)));
        Assert.Equal(2, check.Shells.Count);
        Assert.InRange(-check.Shells[1].VolumeMm3, (4.0 / 3 * Math.PI * 1728) - 30, 4.0 / 3 * Math.PI * 1728);
    }

    [Fact]
    public void A_pin_hole_is_round_to_three_hundredths_of_a_millimetre()
    {
        var (a, b) = (new Vec3(-20, 3, 1), new Vec3(20, -3, -1));
        var mesh = Meshed(new Block(Vec3.Zero, new(20, 30, 10), 1).Minus(new Bar(a, b, 0.85)).Turned(Askew, 33));
        AssertSound(mesh);
        var turn = Rotation.About(Askew, double.DegreesToRadians(33));
        var (start, axis) = (turn.Apply(a), turn.Apply((b - a).Normalized()));
        var near = 0;
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (p, q, r) = mesh.Triangle(t);
            var inside = new[] { p, q, r }.All(v => FromAxis(v) < 0.95 && Math.Abs(Vec3.Dot(v, axis)) < 9);
            if (!inside) continue;
            near++;
            Assert.InRange(FromAxis((p + q + r) / 3), 0.82, 0.8575);
        }

        Assert.True(near > 100);
        double FromAxis(Vec3 v) => Vec3.Cross(v - start, axis).Length;
    }

    [Fact]
    public void A_thin_rod_stays_in_one_piece()
    {
        var check = AssertSound(Meshed(new Bar(Vec3.Zero, new(10, 20, 30), 0.5)));
        Assert.Single(check.Shells);
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 12)];

    // Whatever is melted, cut and hollowed together: closed, two triangles at each edge, running opposite ways.
    [Theory, MemberData(nameof(Seeds))]
    public void Any_heap_of_shapes_gives_a_closed_manifold_mesh(int seed)
    {
        var random = new Random(seed);
        Vec3 Point() => new((random.NextDouble() * 16) - 8, (random.NextDouble() * 16) - 8, (random.NextDouble() * 16) - 8);
        Shape Any() => random.Next(6) switch
        {
            0 => new Ball(Point(), 1 + (random.NextDouble() * 4)),
            1 => new Limb(Point(), 1 + random.NextDouble(), Point(), 0.6 + random.NextDouble()),
            2 => new Block(Point(), new(2 + random.NextDouble(), 4, 3), random.Next(2) * 0.4),
            3 => new Bar(Point(), Point(), 0.8 + random.NextDouble()),
            4 => new Ring(4, 0.8).Along(Point(), Point()),
            _ => new Extrusion(Outline.Star(5, 4, 1.7), -1, 1).Along(Point(), Point()),
        };
        var shape = Any().And(Any(), Any()).Melt(1, Any()).Minus(Any(), Any()).Carve(0.6, Any()).And(Any());
        AssertSound(Meshed(shape, new() { Coarsest = 0.6 }));
    }

    [Fact]
    public void What_is_left_out_near_a_point_never_mattered_there()
    {
        var shape = FathomJoeSuit();
        var random = new Random(5);
        var box = shape.Bounds;
        var onSurface = 0;
        for (var i = 0; i < 300; i++)
        {
            var center = box.Min + new Vec3(box.Size.X * random.NextDouble(), box.Size.Y * random.NextDouble(), box.Size.Z * random.NextDouble());
            var near = shape.Near(center, 1.5);
            for (var k = 0; k < 10; k++)
            {
                var p = center + (new Vec3(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5) * 1.6);
                Assert.Equal(shape.Distance(p) < 0, near.Distance(p) < 0);
                for (var step = 0; step < 4; step++) p -= shape.Gradient(p, shape.Distance(p)) * shape.Distance(p);
                if (Vec3.Distance(p, center) > 1.5 || Math.Abs(shape.Distance(p)) > 1e-6) continue;
                onSurface++;
                Assert.Equal(0, near.Distance(p), 2e-6);
            }
        }

        Assert.True(onSurface > 100);
        static Shape FathomJoeSuit() => Figures.FathomJoeShapes.Suit();
    }

    [Fact]
    public void The_same_shape_gives_the_same_mesh()
    {
        var (a, b) = (Meshed(Figures.Kit.KeyShape()), Meshed(Figures.Kit.KeyShape()));
        Assert.True(a.Positions.SequenceEqual(b.Positions) && a.Indices.SequenceEqual(b.Indices));
    }

    [Fact]
    public void An_empty_shape_is_refused() =>
        Assert.Throws<ArgumentException>(() => Meshed(new Ball(Vec3.Zero, 2).Minus(new Ball(Vec3.Zero, 3))));

    private static TriangleMesh Meshed(Shape shape, ContourSettings? settings = null) =>
        Contour.Of(shape, settings, TestContext.Current.CancellationToken);

    private static EdgeCheck AssertSound(TriangleMesh mesh)
    {
        var check = EdgeCheck.Of(mesh);
        Assert.Equal((0, 0, 0, 0), (check.OpenEdges, check.CrowdedEdges, check.SameWayEdges, check.DegenerateTriangles));
        return check;
    }
}
