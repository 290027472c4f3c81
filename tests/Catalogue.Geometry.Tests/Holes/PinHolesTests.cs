using Catalogue.Geometry.Health;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Xunit;
using Shapes = Catalogue.Geometry.Tests.Spatial.Shapes;

namespace Catalogue.Geometry.Tests.Holes;

public sealed class PinHolesTests
{
    private static readonly Rotation Tilt = Rotation.About(new(0.3, -0.8, 0.5), 0.77);

    // By construction: the corners lie on circles of these diameters.
    [Theory, InlineData(12), InlineData(16), InlineData(24), InlineData(64)]
    public void Forty_holes_of_a_plate_are_found_with_their_diameters(int sides)
    {
        var holes = Enumerable.Range(0, 40).Select(i => (Diameter: 0.8 + (1.4 * i / 39), sides, 0.0)).ToList();
        var found = Find(Closed(Drilled.Plate(5, 3, 8, holes))).Holes;
        Assert.Equal(40, found.Count);
        for (var i = 0; i < 40; i++)
        {
            var middle = new Vec3(((i % 8) + 0.5) * 5, ((i / 8) + 0.5) * 5, 1.5);
            var hole = found.MinBy(h => Vec3.Distance(h.Center, middle))!;
            Assert.Equal(holes[i].Diameter, hole.DiameterMm, 0.001);
            Assert.Equal(holes[i].Diameter * Math.Cos(Math.PI / sides), hole.ClearMm, 0.01);
            Assert.Equal(3, hole.DepthMm, 0.01);
            Assert.True(hole.Through);
            Assert.Null(hole.FloorMm);
            Assert.Equal(1, Math.Abs(hole.Axis.Z), 1e-4);
            Assert.True(Vec3.Distance(hole.Center, middle) < 0.01);
            if (i % 8 == 0) Assert.Equal((5 - holes[i].Diameter) / 2, hole.WallMm!.Value, 0.05);
            else Assert.InRange(hole.WallMm!.Value, (5 - holes[i].Diameter) / 2, 5 - holes[i].Diameter);
        }
    }

    [Fact]
    public void A_turned_plate_gives_the_same_holes()
    {
        var holes = Enumerable.Range(0, 12).Select(i => (0.8 + (0.1 * i), 16, 0.3)).ToList();
        var plate = Drilled.Plate(5, 2, 4, holes);
        var shift = new Vec3(40, -25, 13);
        var straight = Find(plate).Holes;
        var turned = Find(plate.Transformed(Tilt, shift)).Holes;
        Assert.Equal(12, straight.Count);
        Assert.Equal(12, turned.Count);
        foreach (var hole in straight)
        {
            var same = turned.MinBy(t => Vec3.Distance(t.Center, Tilt.Apply(hole.Center) + shift))!;
            Assert.Equal(hole.DiameterMm, same.DiameterMm, 0.002);
            Assert.Equal(hole.DepthMm, same.DepthMm, 0.01);
            Assert.Equal(hole.WallMm!.Value, same.WallMm!.Value, 0.03);
            Assert.True(Vec3.Distance(same.Center, Tilt.Apply(hole.Center) + shift) < 0.01);
            Assert.True(Vec3.Cross(same.Axis, Tilt.Apply(hole.Axis)).Length < 0.005);
        }
    }

    [Theory, InlineData(12), InlineData(24)]
    public void Cutting_the_triangles_up_changes_nothing(int sides)
    {
        var plate = Drilled.Plate(5, 3, 2, [(1.7, sides, 0), (1.2, sides, 0), (0.9, sides, 0.5), (2.2, sides, 0)]);
        var whole = Find(plate).Holes;
        var cut = Find(Shapes.Subdivided(Shapes.Subdivided(plate))).Holes;
        Assert.Equal(4, whole.Count);
        Assert.Equal(4, cut.Count);
        foreach (var (one, other) in whole.Zip(cut))
        {
            Assert.Equal(one.DiameterMm, other.DiameterMm, 0.002);
            Assert.Equal(one.DepthMm, other.DepthMm, 0.01);
            Assert.True(Vec3.Distance(one.Center, other.Center) < 0.01);
        }
    }

    // The wall left in a cell of 5 mm whose hole of 1.5 mm sits 1.2 mm off its middle: 2.5 − 1.2 − 0.75.
    [Fact]
    public void The_least_wall_is_on_the_side_a_hole_is_shifted_to()
    {
        var hole = Assert.Single(Find(Drilled.Plate(5, 4, 1, [(1.5, 64, 1.2)])).Holes);
        Assert.Equal(0.55, hole.WallMm!.Value, 0.01);
    }

    [Theory, InlineData(12), InlineData(20), InlineData(48)]
    public void A_blind_hole_has_a_mouth_a_depth_and_a_floor(int sides)
    {
        var body = Closed(Drilled.Turned(sides, (0, 0), (5, 0), (5, 10), (0.85, 10), (0.85, 3), (0, 3)));
        var hole = Assert.Single(Find(body.Transformed(Tilt)).Holes);
        Assert.False(hole.Through);
        Assert.Equal(1.7, hole.DiameterMm, 0.002);
        Assert.Equal(7, hole.DepthMm, 0.01);
        Assert.Equal(3, hole.FloorMm!.Value, 0.01);
        Assert.Equal(5 - 0.85, hole.WallMm!.Value, 0.16);
        Assert.True(Vec3.Distance(hole.Mouth, Tilt.Apply(new(0, 0, 10))) < 0.01);
        Assert.True(Vec3.Distance(hole.Axis, Tilt.Apply(new(0, 0, -1))) < 0.001);
    }

    [Fact]
    public void The_cone_that_a_drill_leaves_is_a_floor_too()
    {
        // 118° point: its depth is 0.3 of the diameter.
        var body = Closed(Drilled.Turned(24, (0, 0), (5, 0), (5, 10), (1, 10), (1, 3), (0, 3 - (1 / Math.Tan(59 * Math.PI / 180)))));
        var hole = Assert.Single(Find(body).Holes);
        Assert.False(hole.Through);
        Assert.Equal(7, hole.DepthMm, 0.01);
        Assert.Equal(2, hole.DiameterMm, 0.002);
    }

    [Theory, InlineData(45), InlineData(30)]
    public void A_countersink_is_not_part_of_the_hole(double halfAngle)
    {
        var deep = 1 / Math.Tan(halfAngle * Math.PI / 180);
        var body = Closed(Drilled.Turned(32, (0.75, 0), (6, 0), (6, 8), (1.75, 8), (0.75, 8 - deep)));
        var hole = Assert.Single(Find(body).Holes);
        Assert.True(hole.Through);
        Assert.Equal(8 - deep, hole.DepthMm, 0.02);
        Assert.Equal(1.5, hole.DiameterMm, 0.002);
    }

    [Fact]
    public void Each_step_of_a_stepped_hole_is_a_hole_of_its_own()
    {
        var body = Closed(Drilled.Turned(24, (0.8, 0), (6, 0), (6, 9), (2, 9), (2, 5), (0.8, 5)));
        var holes = Find(body).Holes;
        Assert.Equal(2, holes.Count);
        Assert.Equal((1.6, 5, true), (Math.Round(holes[0].DiameterMm, 3), Math.Round(holes[0].DepthMm, 1), holes[0].Through));
        Assert.Equal((4, 4, false), (Math.Round(holes[1].DiameterMm, 3), Math.Round(holes[1].DepthMm, 1), holes[1].Through));
        Assert.True(Vec3.Distance(holes[1].Mouth, new(0, 0, 9)) < 0.02);
    }

    [Fact]
    public void A_thin_washer_has_a_hole()
    {
        var hole = Assert.Single(Find(Closed(Drilled.Turned(48, (1.1, 0), (4, 0), (4, 0.6), (1.1, 0.6)))).Holes);
        Assert.Equal(2.2, hole.DiameterMm, 0.002);
        Assert.Equal(0.6, hole.DepthMm, 0.01);
        Assert.True(hole.Through);
    }

    [Theory, InlineData(11.8, 1), InlineData(12.4, 0)]
    public void Rooms_wider_than_the_limit_are_cups(double diameter, int count) =>
        Assert.Equal(count, Find(Drilled.Turned(48, (0, 0), (10, 0), (10, 20), (diameter / 2, 20), (diameter / 2, 2), (0, 2))).Holes.Count);

    // Roughness of ±2 % of the radius on a wall of 0.2 mm triangles; the mean of the corners is the drawn circle.
    [Fact]
    public void A_rough_wall_is_measured_within_one_per_cent()
    {
        var random = new Random(7);
        for (var i = 0; i < 10; i++)
        {
            var r = 0.5 + (0.1 * i);
            var heights = Enumerable.Range(0, 31).Select(k => (r, 6 - (0.2 * k))).ToArray();
            var body = Drilled.Turned(36, [(4, 0), (4, 6), .. heights]);
            var positions = body.Positions.ToArray();
            for (var v = 0; v < body.VertexCount; v++)
            {
                var p = body.Vertex(v);
                var out1 = double.Hypot(p.X, p.Y);
                if (out1 > 2 || p.Z is < 0.01 or > 5.99) continue;
                var f = 1 + (0.04 * (random.NextDouble() - 0.5));
                (positions[3 * v], positions[(3 * v) + 1]) = ((float)(p.X * f), (float)(p.Y * f));
            }

            var hole = Assert.Single(Find(new TriangleMesh(positions, body.Indices.ToArray()).Transformed(Tilt)).Holes);
            Assert.InRange(hole.DiameterMm, 2 * r * 0.99, 2 * r * 1.01);
            Assert.Equal(6, hole.DepthMm, 0.25);
            Assert.True(Vec3.Cross(hole.Axis, Tilt.Apply(Vec3.UnitZ)).Length < 0.01);
        }
    }

    public static TheoryData<string, TriangleMesh> WithoutHoles => new()
    {
        { "cube", Solids.Box(10, 10, 10) },
        { "ball", Solids.Icosphere(5, 4) },
        { "void like a ball", Solids.Together(Solids.Icosphere(8, 3), Solids.Inverted(Solids.Icosphere(3, 4))) },
        { "torus", Solids.Torus(20, 5, 96, 48) },
        { "small ring", Solids.Torus(2, 1, 64, 32) },
        { "fat ring", Solids.Torus(5, 4, 96, 96) },
        { "knobbly ring", Shapes.Knobbly(120, 60) },
        { "conical hole", Drilled.Turned(48, (1, 0), (6, 0), (6, 8), (1.6, 8)) },
        { "hexagonal hole", Drilled.Turned(6, (1, 0), (4, 0), (4, 8), (1, 8)) },
        { "square hole", Drilled.Turned(4, (1, 0), (4, 0), (4, 8), (1, 8)) },
        { "waisted hole", Drilled.Turned(48, [(9, 0), (9, 8), .. Enumerable.Range(0, 33).Select(k => (1 + (0.03 * (k - 16) * (k - 16) / 16.0), 8 - (0.25 * k)))]) },
        { "egg-shaped void", Egg() },
    };

    [Theory, MemberData(nameof(WithoutHoles))]
    public void Nothing_is_found_where_there_is_no_round_hole(string name, TriangleMesh mesh)
    {
        Assert.Empty(Find(mesh).Holes);
        Assert.Empty(Find(mesh.Transformed(Tilt)).Holes);
        Assert.NotEmpty(name);
    }

    // A slot of width 2 whose ends are half circles; 0.2 mm longer than wide is no circle any more.
    [Theory, InlineData(0.2), InlineData(1), InlineData(4)]
    public void A_slot_is_not_a_hole(double longer)
    {
        var plate = Drilled.Turned(64, (1, 0), (9, 0), (9, 3), (1, 3));
        var positions = plate.Positions.ToArray();
        for (var v = 0; v < plate.VertexCount; v++)
            positions[3 * v] += (float)(Math.Sign(Math.Round(plate.Vertex(v).X, 4)) * longer / 2);
        Assert.Empty(Find(new TriangleMesh(positions, plate.Indices.ToArray())).Holes);
    }

    [Fact]
    public void Pegs_are_told_from_holes()
    {
        // A plug of 3 mm with a 45° chamfer on a block of 8 mm.
        var plug = Closed(Drilled.Turned(24, (0, 0), (7, 0), (7, 8), (1.5, 8), (1.5, 13.5), (1, 14), (0, 14)));
        var found = Find(plug.Transformed(Tilt));
        Assert.Empty(found.Holes);
        var peg = Assert.Single(found.Pegs);
        Assert.Equal(3, peg.DiameterMm, 0.002);
        Assert.Equal(5.5, peg.LengthMm, 0.01);
        Assert.False(peg.Loose);
        Assert.True(Vec3.Distance(peg.Tip, Tilt.Apply(new(0, 0, 13.5))) < 0.01);
        Assert.True(Vec3.Distance(peg.Axis, Tilt.Apply(Vec3.UnitZ)) < 0.001);
        Assert.True(Assert.Single(Find(Solids.Cylinder(0.75, 20, 32)).Pegs).Loose);
    }

    [Fact]
    public void The_order_of_triangles_does_not_matter()
    {
        var plate = Drilled.Plate(5, 3, 3, [(1.7, 24, 0), (1.2, 24, 0), (0.9, 24, 0)]);
        var order = Enumerable.Range(0, plate.TriangleCount).ToArray();
        new Random(3).Shuffle(order);
        var shuffled = new TriangleMesh(plate.Positions.ToArray(), [.. order.SelectMany(t => plate.Indices.Slice(3 * t, 3).ToArray())]);
        foreach (var (one, other) in Find(plate).Holes.Zip(Find(shuffled).Holes))
        {
            Assert.Equal(one.DiameterMm, other.DiameterMm, 0.001);
            Assert.True(Vec3.Distance(one.Center, other.Center) < 0.005);
        }

        Assert.Equal(Find(plate).Holes, Find(plate).Holes);
    }

    [Fact]
    public void No_more_than_a_hundred_are_told_of()
    {
        var found = Find(Drilled.Plate(3, 1, 12, [.. Enumerable.Repeat((1.0, 12, 0.0), 120)]));
        Assert.Equal(PinHoles.MostReported, found.Holes.Count);
        Assert.True(found.More);
    }

    [Fact]
    public void Asked_to_stop_it_stops()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var mesh = Solids.Torus(20, 5, 20, 20);
        var tree = TriangleTree.Build(mesh);
        Assert.Throws<OperationCanceledException>(() => PinHoles.Find(mesh, tree, cancel: stop.Token));
    }

    private static TriangleMesh Egg()
    {
        var ball = Solids.Icosphere(1, 4);
        var positions = ball.Positions.ToArray();
        for (var i = 0; i < positions.Length; i++) positions[i] *= i % 3 == 2 ? 6 : 2;
        return Solids.Together(Solids.Icosphere(10, 3), Solids.Inverted(new(positions, ball.Indices.ToArray())));
    }

    private static TriangleMesh Closed(TriangleMesh mesh)
    {
        var health = MeshHealth.Of(mesh);
        Assert.True(health.Closed && health.Oriented && health.InsideOutShells() == 0);
        return mesh;
    }

    private static PinHoles Find(TriangleMesh mesh) => PinHoles.Find(mesh, TriangleTree.Build(mesh), cancel: TestContext.Current.CancellationToken);
}

file static class HealthAnswers
{
    public static int InsideOutShells(this MeshHealth health) => health.Shells.Count(s => s.Kind == ShellKind.InsideOut);
}
