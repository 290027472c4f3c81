using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Overhangs;

public sealed class OverhangTests
{
    [Fact]
    public void A_box_on_the_plate_rests_on_its_underside_and_hangs_over_nowhere()
    {
        var found = Of(Solids.Box(20, 30, 40));
        Assert.Equal(600, found.RestingMm2, 2);
        Assert.Equal(40, found.HeightMm, 3);
        Assert.Equal(0, found.AreaSteeperThan(0));
        Assert.Empty(found.Bridges);
        Assert.Empty(found.Islands);
    }

    // A parallelogram's side: height / cos(angle) · depth; the columns under it fill a triangle. Limit 45° from the vertical: experiment JAITA 2020.
    [Theory, InlineData(44, false), InlineData(45, false), InlineData(46, true)]
    public void A_plate_that_leans_by_one_degree_more_than_the_limit_hangs_over_and_one_degree_less_does_not(double degrees, bool hangs)
    {
        foreach (var turn in Turns())
        {
            var found = Of(Brickwork.Leaning(degrees), turn);
            var radians = degrees * Math.PI / 180;
            Assert.Equal(hangs ? 30 / Math.Cos(radians) * 20 : 0, found.AreaSteeperThan(45), hangs ? 4.0 : 0.0);
            Assert.Equal(hangs ? 30 * 30 * Math.Tan(radians) / 2 * 20 : 0, found.SupportVolumeAt(45), hangs ? 20.0 : 0.0);
            Assert.Equal(30 / Math.Cos(radians) * 20, found.AreaSteeperThan(degrees - 0.999), 4.0);
            Assert.Equal(60, found.RestingMm2, 2.5);
        }
    }

    // By hand: two ledges of 15 × 10, 20 above the plate.
    [Fact]
    public void The_arms_of_a_T_need_columns_down_to_the_plate_and_are_no_bridge()
    {
        var found = Of(Brickwork.Tee());
        Assert.Equal(300, found.AreaSteeperThan(45), 2);
        Assert.Equal(6000, found.SupportVolumeAt(45), 1);
        Assert.Equal(300, found.ContactAt(45), 2);
        Assert.Equal(100, found.RestingMm2, 2);
        Assert.Empty(found.Bridges);
        Assert.Empty(found.Islands);
    }

    // By hand: the same with a foot of 40 × 10 × 3 under it; columns end on the foot and touch it.
    [Fact]
    public void Columns_end_on_the_part_below_and_leave_marks_there()
    {
        var found = Of(Brickwork.Of([0, 15, 25, 40], [0, 10], [0, 3, 20, 25], (x, _, z) => z is < 3 or > 20 || (x > 15 && x < 25)));
        Assert.Equal(300, found.AreaSteeperThan(45), 2);
        Assert.Equal(300 * 17, found.SupportVolumeAt(45), 0.02 * 300 * 20);
        Assert.Equal(600, found.ContactAt(45), 6.0);
    }

    // By hand: a slab over a slab half as wide: half of its ledge's columns reach the plate.
    [Fact]
    public void Columns_that_reach_the_plate_only_beside_a_foot_are_told_apart()
    {
        var found = Of(Brickwork.Of([0, 7, 15, 25, 40], [0, 10], [0, 3, 20, 25], (x, _, z) => z > 20 || (x > 15 && x < 25) || (z < 3 && x is > 7 and < 25)));
        Assert.Equal((80 * 17) + (220 * 20), found.SupportVolumeAt(45), 0.02 * 6000);
        Assert.Equal(300 + 80, found.ContactAt(45), 3.0);
    }

    [Fact]
    public void A_table_is_a_bridge_from_wall_to_wall_whichever_way_it_is_turned_on_the_plate()
    {
        foreach (var degrees in (double[])[0, 17, 45, 62.5, 90])
        {
            var turn = Rotation.About(Vec3.UnitZ, degrees * Math.PI / 180);
            var found = OverhangMeasures.Of(TriangleTree.Build(Brickwork.Table()), turn);
            var bridge = Assert.Single(found.Bridges);
            Assert.Equal(30, bridge.SpanMm, 0.3);
            Assert.Equal(600, bridge.AreaMm2, 6.0);
            Assert.Equal(9000, bridge.SupportVolumeMm3, 90.0);
            Assert.Equal(600, found.AreaSteeperThan(45), 1);
            Assert.Equal(20, bridge.At.X, 0.2);
            Assert.Equal(15, bridge.At.Z, 3);
            Assert.InRange(bridge.At.Y, 0, 20);
        }
    }

    // By hand: on four legs of 5 × 5 only the strips between legs are held, 30 long and 5 wide, two of them in one direction.
    [Fact]
    public void A_table_on_four_legs_is_held_only_between_its_legs()
    {
        var found = Of(Brickwork.Of([0, 5, 35, 40], [0, 5, 35, 40], [0, 15, 20], (x, y, z) => z > 15 || (x is < 5 or > 35 && y is < 5 or > 35)));
        var bridge = Assert.Single(found.Bridges);
        Assert.Equal(30, bridge.SpanMm, 0.01);
        Assert.Equal(300, bridge.AreaMm2, 15.0);
        Assert.Equal(1500, found.AreaSteeperThan(45), 1);
    }

    // The roof of a pocket is held all round: filament is laid the short way.
    [Fact]
    public void The_roof_of_a_long_pocket_is_bridged_across_and_not_along()
    {
        var found = Of(Brickwork.Of([0, 5, 35, 40], [0, 5, 13, 20], [0, 10, 20], (x, y, z) => z > 10 || x is < 5 or > 35 || y is < 5 or > 13));
        var bridge = Assert.Single(found.Bridges);
        Assert.Equal(8, bridge.SpanMm, 0.01);
        Assert.Equal(240, bridge.AreaMm2, 0.1);
    }

    // A circle of radius R about a tunnel's axis: surface steeper than k is R (π − 2k) long; between the verticals at ± R cos k the circle's area is
    // R² ((π − 2k) / 2 + sin k cos k); less than 10° from flat it is 2 R sin 10° wide.
    [Fact]
    public void A_round_arch_has_the_overhang_the_volume_and_the_bridge_of_its_circle()
    {
        foreach (var turn in Turns())
        {
            var found = Of(Brickwork.Arch(), turn);
            foreach (var degrees in (double[])[30, 45, 60])
            {
                var k = degrees * Math.PI / 180;
                var area = 15 * (Math.PI - (2 * k)) * 20;
                var volume = 225 * (((Math.PI - (2 * k)) / 2) + (Math.Sin(k) * Math.Cos(k))) * 20;
                Assert.Equal(area, found.AreaSteeperThan(degrees), area * 0.003);
                Assert.Equal(volume, found.SupportVolumeAt(degrees), volume * 0.003);
            }

            var bridge = Assert.Single(found.Bridges);
            Assert.Equal(2 * 15 * Math.Sin(Math.PI / 18), bridge.SpanMm, 0.05);
            Assert.Empty(found.Islands);
        }
    }

    // Archimedes: the zone of a sphere between two parallel planes has the area of the cylinder around it, 2 π R h.
    [Fact]
    public void A_ball_hangs_over_by_the_zones_that_Archimedes_gives()
    {
        var found = Of(Solids.Icosphere(10, 6));
        foreach (var degrees in (double[])[20, 45, 46.5, 70])
        {
            var expected = 2 * Math.PI * 10 * ((10 * (1 - Math.Sin(degrees * Math.PI / 180))) - OverhangMeasures.RestingMm);
            Assert.Equal(expected, found.AreaSteeperThan(degrees), 0.01 * expected);
        }

        // Between the plate and the sphere under its whole lower half: cylinder less half ball, R³ π / 3.
        Assert.Equal(1000 * Math.PI / 3, found.SupportVolumeAt(0), 5.0);
        Assert.Equal(Math.PI * ((2 * 10 * 0.1) - 0.01), found.RestingMm2, 0.1);
        Assert.Empty(found.Islands);
    }

    [Fact]
    public void A_peg_that_hangs_from_a_table_starts_in_mid_air()
    {
        foreach (var turn in Turns())
        {
            var found = Of(Brickwork.TableWithPeg(), turn);
            var island = Assert.Single(found.Islands);
            Assert.Equal(1, found.IslandCount);
            Assert.Equal(8, island.HeightMm, 0.001);
            Assert.Equal(7, island.RiseMm, 0.001);
            Assert.Equal(16, island.AreaMm2, 0.01);
            Assert.False(island.OverPart);
            var at = turn.Inverse().Apply(island.At);
            Assert.InRange(at.X, 17.99, 22.01);
            Assert.InRange(at.Y, 7.99, 12.01);
            Assert.Equal(8, at.Z, 0.001);
            Assert.Equal(16, found.AreaSteeperThan(45) - (600 - 16), 0.5);
        }
    }

    // A cone with its point down and a half angle of 30° is nowhere steeper than 45°, and still begins in mid-air; π (h tan 30°)² is its section h above the point.
    [Fact]
    public void A_cone_on_its_point_in_mid_air_is_an_island_without_an_overhang()
    {
        var cone = Cone(12, 60).Transformed(Rotation.Identity, new(20, 10, 6));
        var found = Of(Solids.Together(Solids.Box(5, 5, 5), cone));
        var island = Assert.Single(found.Islands);
        Assert.Equal(6, island.HeightMm, 0.001);
        Assert.Equal(12, island.RiseMm, 0.001);
        Assert.Equal(Math.PI * 0.01 / 3, island.AreaMm2, 0.001);
        Assert.Equal(0, found.AreaSteeperThan(45));
        Assert.Empty(Of(cone).Islands);
    }

    [Fact]
    public void A_cup_has_no_island_either_way_up_and_a_stalagmite_in_it_is_one_only_upside_down()
    {
        var cup = Brickwork.Of([0, 3, 9, 11, 17, 20], [0, 3, 9, 11, 17, 20], [0, 3, 9, 20],
            (x, y, z) => z < 3 || x is < 3 or > 17 || y is < 3 or > 17 || (z < 9 && x is > 9 and < 11 && y is > 9 and < 11));
        Assert.Empty(Of(cup).Islands);
        var island = Assert.Single(OverhangMeasures.Of(TriangleTree.Build(cup), Rotation.About(Vec3.UnitX, Math.PI)).Islands);
        Assert.Equal((11.0, 6.0, 4.0), (Math.Round(island.HeightMm, 2), Math.Round(island.RiseMm, 2), Math.Round(island.AreaMm2, 2)));
    }

    // A peg from the ceiling of a closed hollow, over its floor.
    [Fact]
    public void A_peg_in_a_closed_hollow_hangs_over_the_part_itself()
    {
        var hollow = Brickwork.Of([0, 3, 9, 11, 17, 20], [0, 3, 9, 11, 17, 20], [0, 3, 10, 17, 20],
            (x, y, z) => z is < 3 or > 17 || x is < 3 or > 17 || y is < 3 or > 17 || (z > 10 && x is > 9 and < 11 && y is > 9 and < 11));
        var found = Of(hollow);
        var island = Assert.Single(found.Islands);
        Assert.True(island.OverPart);
        Assert.Equal((10.0, 7.0), (island.HeightMm, island.RiseMm));
        Assert.Equal((192 * 14) + (4 * 7), found.SupportVolumeAt(45), 0.02 * 196 * 17);
        Assert.Equal(2 * 196, found.ContactAt(45), 4.0);
    }

    // Sphere of radius 4 whose centre is 1 in front of a wall: it runs into the wall at √(16 − 1) below the centre, by Pythagoras.
    [Fact]
    public void A_nose_of_its_own_shell_is_an_island_only_until_it_runs_into_the_face()
    {
        var face = Solids.Box(10, 10, 40);
        var nose = Solids.Icosphere(4, 5, new(5, -1, 20));
        var found = Of(Solids.Together(face, nose));
        var island = Assert.Single(found.Islands);
        Assert.Equal(16, island.HeightMm, 0.01);
        Assert.Equal(4 - Math.Sqrt(15), island.RiseMm, 0.15);

        // What of the nose is inside the face needs no support: a full half ball would have more.
        Assert.InRange(found.AreaSteeperThan(20), 0.5 * 2 * Math.PI * 16 * (1 - Math.Sin(Math.PI / 9)), 0.8 * 2 * Math.PI * 16 * (1 - Math.Sin(Math.PI / 9)));
    }

    [Fact]
    public void Something_whose_lowest_place_is_inside_another_shell_does_not_start_in_mid_air()
    {
        var column = Solids.Box(10, 10, 20);
        var ball = Solids.Icosphere(4, 4, new(5, 5, 20));
        Assert.Empty(Of(Solids.Together(column, ball)).Islands);
    }

    // Tolerance as stated: areas to rounding, columns within 2 %, islands to rounding.
    [Fact]
    public void Turning_the_mesh_together_with_the_orientation_changes_nothing_beyond_the_tolerance()
    {
        var mesh = Shapes.Knobbly(96, 48);
        var pose = Rotation.About(new(1, 0.3, 0.2), 1.5);
        var expected = OverhangMeasures.Of(TriangleTree.Build(mesh), pose);
        Assert.InRange(expected.IslandCount, 2, 100);
        Assert.InRange(expected.SupportVolumeAt(45), 1000, 1e6);
        Assert.InRange(expected.OnPartMm2[45], 10, 1e4);
        foreach (var turn in Turns()) AssertSame(expected, OverhangMeasures.Of(TriangleTree.Build(mesh.Transformed(turn, new(3, 40, -7))), pose.After(turn.Inverse())));
    }

    [Fact]
    public void Cutting_every_triangle_in_four_changes_nothing_beyond_the_tolerance()
    {
        foreach (var mesh in (TriangleMesh[])[Shapes.Knobbly(64, 32), Brickwork.TableWithPeg(), Brickwork.Arch()])
            AssertSame(Of(mesh), Of(Shapes.Subdivided(mesh)));
    }

    [Fact]
    public void The_same_question_gets_the_same_answer()
    {
        var tree = TriangleTree.Build(Shapes.Knobbly(96, 48));
        var (one, two) = (OverhangMeasures.Of(tree, Rotation.Identity), OverhangMeasures.Of(tree, Rotation.Identity));
        Assert.Equal(one.SupportVolumeMm3, two.SupportVolumeMm3);
        Assert.Equal(one.Islands, two.Islands);
    }

    [Fact]
    public void Overhangs_of_nothing_are_nothing_and_a_request_to_stop_is_heard()
    {
        var found = Of(new TriangleMesh([], []));
        Assert.Equal((0.0, 0.0), (found.HeightMm, found.AreaSteeperThan(0)));
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var tree = TriangleTree.Build(Shapes.Knobbly(64, 32));
        Assert.Throws<OperationCanceledException>(() => OverhangMeasures.Of(tree, Rotation.Identity, cancel: stop.Token));
    }

    private static void AssertSame(OverhangMeasures expected, OverhangMeasures found)
    {
        Assert.Equal(expected.HeightMm, found.HeightMm, 0.001);
        Assert.Equal(expected.IslandCount, found.IslandCount);
        foreach (var degrees in (double[])[20, 45, 70])
        {
            Assert.Equal(expected.AreaSteeperThan(degrees), found.AreaSteeperThan(degrees), 0.005 * expected.AreaSteeperThan(0));
            Assert.Equal(expected.SupportVolumeAt(degrees), found.SupportVolumeAt(degrees), 0.02 * expected.AreaSteeperThan(0) * expected.HeightMm);
            Assert.Equal(expected.ContactAt(degrees), found.ContactAt(degrees), 0.02 * expected.ContactAt(0));
        }

        foreach (var (a, b) in expected.Islands.Zip(found.Islands))
        {
            Assert.Equal(a.RiseMm, b.RiseMm, 0.002);
            Assert.Equal(a.HeightMm, b.HeightMm, 0.002);
        }

        Assert.Equal(expected.BridgeCount, found.BridgeCount);
        foreach (var (a, b) in expected.Bridges.Zip(found.Bridges)) Assert.Equal(a.SpanMm, b.SpanMm, 0.1);
    }

    /// <summary>Of the mesh as it is, or turned together with the orientation so that it lies on the plate as before.</summary>
    private static OverhangMeasures Of(TriangleMesh mesh, Rotation? turn = null)
    {
        var turned = turn is { } t ? mesh.Transformed(t) : mesh;
        if (mesh.TriangleCount > 0) Assert.True(MeshHealth.Of(turned) is { Closed: true, Oriented: true });
        return OverhangMeasures.Of(TriangleTree.Build(turned), turn?.Inverse() ?? Rotation.Identity);
    }

    private static IEnumerable<Rotation> Turns() =>
        [Rotation.Identity, Rotation.About(new(1, 2, 3), 0.7), Rotation.About(new(-2, 1, 0.4), 2.9), Rotation.About(Vec3.UnitX, Math.PI / 2)];

    /// <summary>Point at the origin, opening upward with a half angle of 30°.</summary>
    private static TriangleMesh Cone(double height, int sides)
    {
        var radius = height * Math.Tan(Math.PI / 6);
        var positions = new List<float> { 0, 0, 0, 0, 0, (float)height };
        var indices = new List<int>();
        for (var i = 0; i < sides; i++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * i / sides);
            positions.AddRange([(float)(radius * c), (float)(radius * s), (float)height]);
            var (a, b) = (2 + i, 2 + ((i + 1) % sides));
            indices.AddRange([0, b, a, 1, a, b]);
        }

        return new([.. positions], [.. indices]);
    }
}
