using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;
using static Catalogue.Geometry.Tests.Liquids.Vessels;

namespace Catalogue.Geometry.Tests.Liquids;

public sealed class TrappedLiquidTests
{
    // π r² h of the inside (as a 96-sided prism); tolerance 2 % (issue 4, closed forms).
    [Theory, InlineData(10, 20), InlineData(25, 40), InlineData(3, 8)]
    public void A_cup_with_its_mouth_to_the_platform_keeps_a_pool_of_its_volume(double radius, double depth)
    {
        var liquid = Liquid(Cup(radius, depth), UpsideDown);
        var volume = Disc(radius) * depth;
        Assert.InRange(liquid.PooledMm3, 0.98 * volume, 1.02 * volume);
        var pool = Assert.Single(liquid.Pools);
        Assert.InRange(pool.VolumeMm3, 0.98 * volume, 1.02 * volume);
        Assert.Equal(depth, pool.DepthMm, 0.01);
        Assert.Equal(2, pool.At.Z, 0.01);
        Assert.Equal(0, liquid.SuctionMm2);
        Assert.Empty(liquid.SuctionCups);
        Assert.Empty(liquid.Cavities);
    }

    [Theory, InlineData(10, 20), InlineData(3, 8)]
    public void A_cup_with_its_mouth_to_the_film_sucks_by_its_area_over_its_depth(double radius, double depth)
    {
        var liquid = Liquid(Cup(radius, depth));
        Assert.InRange(liquid.SuctionMm2, 0.98 * Disc(radius), 1.02 * Disc(radius));
        Assert.Equal(depth, liquid.SuctionLastsMm, 0.1);
        var cup = Assert.Single(liquid.SuctionCups);
        Assert.Equal(depth, cup.LastsMm, 0.01);
        Assert.InRange(cup.VolumeMm3, 0.98 * Disc(radius) * depth, 1.02 * Disc(radius) * depth);
        Assert.Equal(0, liquid.PooledMm3);
        Assert.Empty(liquid.Cavities);
    }

    [Fact]
    public void A_cup_on_its_side_neither_pools_nor_sucks()
    {
        var liquid = Liquid(Cup(10, 20), OnItsSide);
        Assert.InRange(liquid.PooledMm3, 0, 2);
        Assert.InRange(liquid.SuctionMm2, 0, 1);
    }

    [Fact]
    public void A_tube_closed_at_one_end_is_told_apart_both_ways()
    {
        var tube = Cup(1.5, 30);
        var up = Liquid(tube, UpsideDown);
        Assert.InRange(up.PooledMm3, 0.97 * Disc(1.5) * 30, 1.03 * Disc(1.5) * 30);
        Assert.Empty(up.SuctionCups);
        var down = Liquid(tube);
        Assert.Empty(down.Pools);
        Assert.Equal(30, Assert.Single(down.SuctionCups).LastsMm, 0.01);
        Assert.Empty(down.Cavities);
    }

    [Fact]
    public void A_solid_ball_a_box_and_a_ring_keep_nothing()
    {
        foreach (var mesh in new[] { Solids.Icosphere(10, 4), Solids.Box(20, 30, 10), Solids.Torus(20, 5, 120, 60) })
        {
            foreach (var pose in new[] { Upright, UpsideDown, OnItsSide, Rotation.About(new(1, 2, 3), 0.7) })
            {
                var liquid = Liquid(mesh, pose);
                Assert.InRange(liquid.PooledMm3, 0, 1);
                Assert.InRange(liquid.SuctionMm2, 0, 2);
                Assert.Empty(liquid.Cavities);
            }
        }
    }

    // 4/3 π r³ of an icosphere of level 5 is 0.99946 of the sphere's.
    [Fact]
    public void A_hollow_ball_without_a_hole_is_sealed()
    {
        var liquid = Liquid(Ball(15, 12, 0, 0));
        var cavity = Assert.Single(liquid.Cavities);
        Assert.True(cavity.Sealed);
        Assert.Empty(cavity.Openings);
        Assert.InRange(cavity.VolumeMm3, 0.998 * Sphere(12), Sphere(12));
        Assert.InRange(cavity.At.Length, 0, 1);
        Assert.Equal(3, cavity.SkinMm!.Value, 0.05);
        Assert.Equal(3, cavity.Drain!.WallMm, 0.1);
        Assert.InRange(cavity.Drain.At.Z, 14, 15.01);
        Assert.InRange(cavity.Vent!.At.Z, -15.01, -14);
        Assert.InRange(Vec3.Dot(cavity.Drain.Direction, Vec3.UnitZ), -1.001, -0.9);
        Assert.Empty(liquid.Pools);
        // The film seals the void, layer after layer, until its roof is printed.
        Assert.InRange(liquid.SuctionMm2, 0.98 * Math.PI * 144, 1.02 * Math.PI * 144);
        Assert.Equal(24, liquid.SuctionLastsMm, 0.5);
    }

    [Theory, InlineData(0.5), InlineData(1), InlineData(2), InlineData(3)]
    public void A_hollow_ball_with_one_hole_says_how_wide_it_is_and_where(double radius)
    {
        var liquid = Liquid(Ball(15, 12, radius, 0));
        var cavity = Assert.Single(liquid.Cavities);
        Assert.False(cavity.Sealed);
        Assert.InRange(cavity.VolumeMm3, 0.96 * Sphere(12), 1.04 * Sphere(12));
        var opening = Assert.Single(cavity.Openings);
        Assert.Equal(2 * radius, opening.DiameterMm, 0.1);
        Assert.Equal(-1, opening.Beyond);
        Assert.Equal(0, double.Hypot(opening.At.X, opening.At.Y), 0.2);
        Assert.InRange(opening.At.Z, 11.5, 15.1);
        // The hole hangs lowest: no pool, but the film seals the ball until the hole is done.
        Assert.InRange(liquid.PooledMm3, 0, 3);
        Assert.InRange(liquid.SuctionMm2, 0.98 * Math.PI * 144, 1.02 * Math.PI * 144);
    }

    [Fact]
    public void Upside_down_the_same_ball_keeps_what_it_holds_and_sucks_nothing()
    {
        var liquid = Liquid(Ball(15, 12, 2, 0), UpsideDown);
        Assert.InRange(Assert.Single(liquid.Pools).VolumeMm3, 0.98 * Sphere(12), 1.02 * (Sphere(12) + (3 * Disc(2))));
        Assert.InRange(liquid.SuctionMm2, 0, 1);
        Assert.Equal(3, liquid.Pools[0].Drain!.WallMm, 0.1);
        Assert.InRange(liquid.Pools[0].Drain!.At.Z, -15.01, -14);
    }

    [Fact]
    public void Two_holes_one_above_the_other_drain_it()
    {
        var liquid = Liquid(Ball(15, 12, 2, 1.5));
        var cavity = Assert.Single(liquid.Cavities);
        Assert.Equal(2, cavity.Openings.Count);
        Assert.Equal(4, cavity.Openings[0].DiameterMm, 0.1);
        Assert.Equal(3, cavity.Openings[1].DiameterMm, 0.1);
        Assert.InRange(liquid.PooledMm3, 0, 3);
        Assert.InRange(liquid.SuctionMm2, 0, 1);
    }

    // Lying, the liquid stands up to the lower edge of the holes: a spherical cap, ∫ π (r² − z²) dz from a to r.
    [Fact]
    public void Two_holes_side_by_side_leave_a_pool_below_them()
    {
        var liquid = Liquid(Ball(15, 12, 2, 2), OnItsSide);
        var cap = Math.PI * ((144 * 10.0) - (((12 * 12 * 12.0) - 8) / 3));
        Assert.InRange(liquid.PooledMm3, 0.97 * cap, 1.03 * cap);
        Assert.Equal(10, liquid.Pools[0].DepthMm, 0.2);
        // And seal as much while the platform's half is printed.
        Assert.InRange(liquid.SuctionCups[0].VolumeMm3, 0.97 * cap, 1.03 * cap);
    }

    [Fact]
    public void A_helmet_is_no_cavity_but_pools_and_sucks_by_how_it_lies()
    {
        // A half ball's shell open over its whole width.
        var helmet = Revolved(96, [.. Arc(20, true), .. Arc(17, false)]);
        var up = Liquid(helmet);
        Assert.Empty(up.Cavities);
        Assert.InRange(up.SuctionMm2, 0, 1);
        Assert.InRange(up.PooledMm3, 0.98 * Sphere(17) / 2, 1.02 * Sphere(17) / 2);
        var down = Liquid(helmet, UpsideDown);
        Assert.InRange(down.PooledMm3, 0, 1);
        Assert.InRange(down.SuctionMm2, 0.98 * Math.PI * 289, 1.02 * Math.PI * 289);

        static IEnumerable<(double, double)> Arc(double radius, bool up) => Enumerable.Range(0, 49).Select(k => (up ? k : 48 - k) * Math.PI / 96)
            .Select(a => (a > 1.5707 ? 0 : radius * Math.Cos(a), radius * Math.Sin(a)));
    }

    [Fact]
    public void A_box_with_a_nested_void_and_one_with_a_pin_hole_differ()
    {
        var block = Solids.Box(30, 30, 30);
        var voidInBlock = Solids.Together(block, Solids.Inverted(Solids.Icosphere(8, 4, new(15, 15, 15))), Solids.Icosphere(3, 3, new(15, 15, 15)));
        var cavity = Assert.Single(Liquid(voidInBlock).Cavities);
        Assert.True(cavity.Sealed);
        Assert.InRange(cavity.VolumeMm3, 0.985 * (Sphere(8) - Sphere(3)), Sphere(8) - Sphere(3));
        Assert.Equal(7, cavity.SkinMm!.Value, 0.1);
        // A bottle of the same kind, its neck 0.8 mm wide.
        var bottle = Revolved(64, [(0, 0), (15, 0), (15, 30), (0.4, 30), .. Inside(8, 0.4)]);
        var pinholed = Assert.Single(Liquid(bottle).Cavities);
        Assert.False(pinholed.Sealed);
        Assert.Equal(0.8, Assert.Single(pinholed.Openings).DiameterMm, 0.05);
        Assert.InRange(pinholed.VolumeMm3, 0.96 * Sphere(8), 1.04 * Sphere(8));

        static IEnumerable<(double, double)> Inside(double radius, double hole) => Enumerable.Range(0, 65)
            .Select(k => (Math.PI / 2) - Math.Asin(hole / radius) - (k / 64.0 * (Math.PI - Math.Asin(hole / radius))))
            .Select(a => (a < -1.5707 ? 0 : radius * Math.Cos(a), 15 + (radius * Math.Sin(a))));
    }

    [Fact]
    public void Two_rooms_joined_by_a_narrow_way_are_two_cavities()
    {
        // Two cylinders of 16 mm, a way of 2 mm between them, a way of 3 mm out of the upper one.
        var mesh = Revolved(64, (0, 0), (10, 0), (10, 40), (1.5, 40), (1.5, 38), (8, 38), (8, 22), (1, 22), (1, 18), (8, 18), (8, 2), (0, 2));
        var cavities = Liquid(mesh).Cavities;
        Assert.Equal(2, cavities.Count);
        var (upper, lower) = cavities[0].At.Z > 20 ? (0, 1) : (1, 0);
        Assert.Equal([(3, -1), (2, lower)], cavities[upper].Openings.Select(o => ((int)Math.Round(o.DiameterMm), o.Beyond)));
        Assert.Equal([(2, upper)], cavities[lower].Openings.Select(o => ((int)Math.Round(o.DiameterMm), o.Beyond)));
        Assert.False(cavities[lower].Sealed);
    }

    [Fact]
    public void A_box_of_overlapping_plates_encloses_a_void_that_no_shell_has()
    {
        var plates = new List<TriangleMesh>();
        for (var axis = 0; axis < 3; axis++)
        {
            foreach (var at in new[] { 0, 18 })
            {
                var size = new[] { 20.0, 20, 20 };
                size[axis] = 2;
                var shift = new[] { 0.0, 0, 0 };
                shift[axis] = at;
                plates.Add(Solids.Box(size[0], size[1], size[2]).Transformed(Rotation.Identity, new(shift[0], shift[1], shift[2])));
            }
        }

        var cavity = Assert.Single(Liquid(Solids.Together([.. plates])).Cavities);
        Assert.True(cavity.Sealed);
        Assert.InRange(cavity.VolumeMm3, 0.96 * 4096, 1.04 * 4096);
    }

    [Fact]
    public void A_void_too_small_for_the_grid_is_still_told()
    {
        var mesh = Solids.Together(Solids.Box(100, 100, 100), Solids.Inverted(Solids.Icosphere(0.4, 2, new(50, 50, 50))));
        var cavity = Assert.Single(Liquid(mesh).Cavities);
        Assert.True(cavity.Sealed);
        Assert.InRange(cavity.VolumeMm3, 0.2, 0.27);
    }

    [Fact]
    public void Turning_the_mesh_and_the_pose_together_changes_no_more_than_the_tolerance()
    {
        var mesh = Ball(15, 12, 2, 1.5);
        var pose = Rotation.About(new(3, -1, 2), 1.1);
        var once = Liquid(mesh, pose);
        foreach (var turn in new[] { Rotation.About(new(1, 2, 3), 0.7), OnItsSide })
        {
            var turned = Liquid(mesh.Transformed(turn), pose.After(turn.Inverse()));
            Same(once, turned, 0.001);
            Assert.InRange(Vec3.Distance(turn.Apply(once.Cavities[0].At), turned.Cavities[0].At), 0, 1);
            Assert.InRange(Vec3.Distance(turn.Apply(once.Pools[0].At), turned.Pools[0].At), 0, 0.5);
        }
    }

    [Fact]
    public void Cutting_triangles_finer_changes_no_more_than_the_tolerance()
    {
        var mesh = Ball(15, 12, 2, 1.5);
        var pose = Rotation.About(new(3, -1, 2), 1.1);
        Same(Liquid(mesh, pose), Liquid(Shapes.Subdivided(mesh), pose), 0.001);
    }

    [Fact]
    public void Moving_the_part_aside_changes_no_more_than_the_tolerance()
    {
        // The grid moves along, but for rounding.
        var mesh = Cup(10, 20);
        Same(Liquid(mesh, UpsideDown), Liquid(mesh.Transformed(Rotation.Identity, new(123.4, -77.7, 31.3)), UpsideDown), 0.002);
    }

    private static void Same(TrappedLiquid a, TrappedLiquid b, double share)
    {
        Assert.Equal(a.PooledMm3, b.PooledMm3, (share * a.PooledMm3) + 1);
        Assert.Equal(a.SuctionMm2, b.SuctionMm2, (10 * share * a.SuctionMm2) + 1);
        Assert.Equal(a.Cavities.Count, b.Cavities.Count);
        for (var c = 0; c < a.Cavities.Count; c++)
        {
            Assert.Equal(a.Cavities[c].VolumeMm3, b.Cavities[c].VolumeMm3, 0.02 * a.Cavities[c].VolumeMm3);
            Assert.Equal(a.Cavities[c].Openings.Select(o => Math.Round(o.DiameterMm, 1)), b.Cavities[c].Openings.Select(o => Math.Round(o.DiameterMm, 1)));
        }
    }

    private static double Sphere(double radius) => 4 * Math.PI / 3 * radius * radius * radius;
}
