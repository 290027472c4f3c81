using System.Text.Json;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Thickness;
using Xunit;

namespace Catalogue.Geometry.Tests.Thickness;

// Expected values are closed forms of the shapes.
public sealed class WallMeasuresTests
{
    private static readonly JsonSerializerOptions AsStored = new() { IgnoreReadOnlyProperties = true };
    private static readonly Rotation Odd = Rotation.About(new(1, 2, 3), 0.7);

    [Fact]
    public void A_wall_is_below_every_step_above_its_thickness_and_below_none_under_it()
    {
        var walls = Of(Solids.Box(40, 30, 0.8).Transformed(Odd)).Walls;
        Assert.Equal([0.9, 1, 1.2, 1.5, 2, 3], walls.Select(s => s.BelowMm));
        Assert.All(walls, s =>
        {
            var plate = Assert.Single(s.Regions);
            Assert.Equal(0.8, plate.MinMm, 0.002);
            Assert.Equal(2400, plate.AreaMm2, 20.0);
            Assert.Equal(34.6, plate.ReachMm, 0.3);
            Assert.True(plate.FreeStanding);
        });
    }

    // A pocket 20 wide and 12 deep on either side of a 0.6 mm web, and beside it a fin of 0.5 mm, 8 mm high.
    [Theory, InlineData(false), InlineData(true)]
    public void A_web_reaches_half_its_span_and_a_fin_its_height(bool turned)
    {
        var shape = Slabs.Profile(
            [(0, 0), (6, 0), (6, 3), (26, 3), (26, 0), (50, 0), (50, 8), (40.5, 8), (40.5, 16), (40, 16), (40, 8), (26, 8), (26, 3.6), (6, 3.6), (6, 8), (0, 8)], 30);
        var walls = Of(turned ? shape.Transformed(Odd) : shape).Walls;
        var step = walls.Single(s => s.BelowMm == 0.7);
        Assert.Equal(2, step.Count);
        var web = step.Regions.Single(r => !r.FreeStanding);
        Assert.Equal(0.6, web.MinMm, 0.002);
        Assert.Equal(10, web.ReachMm, 1.0);
        Assert.Equal(2 * 20 * 30, web.AreaMm2, 30.0);
        var fin = step.Regions.Single(r => r.FreeStanding);
        Assert.Equal(0.5, fin.MinMm, 0.002);
        Assert.Equal(8, fin.ReachMm, 0.8);
        Assert.Equal(2 * 8 * 30, fin.AreaMm2, 20.0);
        Assert.All(step.Regions, r => Assert.False(r.Tapers));
        Assert.Equal(1, walls.Single(s => s.BelowMm == 0.6).Count);
        Assert.DoesNotContain(walls, s => s.BelowMm <= 0.5);
    }

    [Fact]
    public void The_sharp_edge_of_a_blade_tapers_and_a_blunt_one_does_not()
    {
        var sharp = Assert.Single(Of(Slabs.Wedge(15, 0.001, 24, 30)).Walls.Single(s => s.BelowMm == 1).Regions);
        Assert.True(sharp.Tapers);
        Assert.True(sharp.FreeStanding);
        var blunt = Assert.Single(Of(Slabs.Wedge(3, 10, 24, 30)).Walls.Single(s => s.BelowMm == 1).Regions);
        Assert.False(blunt.Tapers);
        Assert.True(blunt.FreeStanding);
    }

    [Fact]
    public void The_wall_of_a_cup_stiffens_itself_and_a_rod_does_not()
    {
        var cup = Slabs.Turned([(0, 0), (15, 0), (15, 30), (14.4, 30), (14.4, 4), (0, 4)], 48);
        var wall = Assert.Single(Of(cup.Transformed(Odd)).Walls.Single(s => s.BelowMm == 0.7).Regions);
        Assert.False(wall.FreeStanding);
        Assert.Equal(0.6, wall.TypicalMm, 0.006);
        Assert.Equal(26, wall.ReachMm, 2.6);

        var stand = Slabs.Turned([(0, 0), (10, 0), (10, 5), (0.5, 5), (0.5, 30), (0, 30)], 24);
        var rod = Assert.Single(Of(stand.Transformed(Odd)).Walls.Single(s => s.BelowMm == 1.2).Regions);
        Assert.True(rod.FreeStanding);
        Assert.Equal(1, rod.TypicalMm, 0.01);
        Assert.Equal(25, rod.ReachMm, 2.5);
    }

    // Trap: facets undershoot. A rod of 12 sides measures from its width across flats (cos 15° = 0.966) to its diameter.
    [Theory, InlineData(12), InlineData(24), InlineData(64)]
    public void A_faceted_rod_is_as_thick_as_the_rod_it_stands_for(int sides)
    {
        var found = Of(Solids.Cylinder(2, 40, sides).Transformed(Odd));
        Assert.InRange(found.Distribution!.Value.P01Mm, (4 * Math.Cos(Math.PI / sides)) - 0.02, 4.001);
        Assert.InRange(found.Distribution.Value.MedianMm, (4 * Math.Cos(Math.PI / sides)) - 0.02, 4.001);
    }

    // The larger of thickness and width: 4 for a round limb of 4, 4.5 for one of 3 × 4.5, none for a plate of 3 × 40.
    [Fact]
    public void A_limb_is_narrow_both_ways()
    {
        var round = Assert.Single(Of(Limb(4)).Limbs.Single(s => s.BelowMm == 5).Regions);
        Assert.Equal(4, round.TypicalMm, 0.04);
        Assert.Equal(30, round.ReachMm, 4.0);
        var flat = Of(Solids.Together(Solids.Box(3, 4.5, 30))).Limbs.Single(s => s.BelowMm == 5);
        Assert.Equal(4.5, Assert.Single(flat.Regions).TypicalMm, 0.03);

        // Corners of a plate and of a limb's end are narrow, but reach no farther than they are wide.
        Assert.All(Of(Solids.Box(3, 4.5, 30)).Limbs.Where(s => s.BelowMm <= 4).SelectMany(s => s.Regions), r => Assert.True(r.ReachMm < 3));
        Assert.All(Of(Solids.Box(3, 40, 40)).Limbs.SelectMany(s => s.Regions), r => Assert.True(r.ReachMm < 3));
        Assert.DoesNotContain(Of(Slabs.Turned([(0, 0), (5, 0), (5, 30), (4.4, 30), (4.4, 4), (0, 4)], 64)).Limbs.SelectMany(s => s.Regions), r => r.ReachMm > 5);

        static TriangleMesh Limb(double diameter) => Slabs.Turned([(0, 0), (12, 0), (12, 6), (diameter / 2, 6), (diameter / 2, 36), (0, 36)], 48).Transformed(Odd);
    }

    [Fact]
    public void A_solid_body_has_neither_thin_walls_nor_limbs()
    {
        var found = Of(Solids.Box(20, 20, 20).Transformed(Odd));
        Assert.Empty(found.Walls);
        Assert.Empty(found.Limbs);
        Assert.Empty(Of(Slabs.Chamfered(20, 20, 20, 2).Transformed(Odd)).Walls);
        Assert.Empty(Of(Solids.Icosphere(10, 4)).Walls);
        Assert.Null(GapMeasures.Of(TriangleTree.Build(Solids.Box(10, 10, 10))).MinMm);
    }

    [Fact]
    public void Play_between_two_pieces_is_told_from_a_slot_in_one()
    {
        var pieces = Solids.Together(Solids.Box(20, 20, 5), Solids.Box(20, 20, 5).Transformed(Rotation.Identity, new(0, 0, 5.3)));
        var play = Assert.Single(Gaps(pieces.Transformed(Odd)).Gaps.Single(s => s.BelowMm == 0.4).Regions);
        Assert.True(play.BetweenPieces);
        Assert.Equal(0.3, play.MinMm, 0.002);
        Assert.Equal(2 * 20 * 20, play.AreaMm2, 10.0);

        // 12 mm deep slot of 0.4 mm in a block, open on top and at both ends.
        var slot = Slabs.Profile([(0, 0), (20.4, 0), (20.4, 15), (10.4, 15), (10.4, 3), (10, 3), (10, 15), (0, 15)], 200);
        var found = Assert.Single(Gaps(slot.Transformed(Odd)).Gaps.Single(s => s.BelowMm == 0.5).Regions);
        Assert.False(found.BetweenPieces);
        Assert.False(found.Tapers);
        Assert.Equal(12, found.ReachMm, 1.8);
    }

    [Fact]
    public void A_narrow_hole_is_a_gap_of_its_diameter_and_an_acute_crease_one_that_tapers()
    {
        var hole = Slabs.Turned([(0.2, 0), (10, 0), (10, 8), (0.2, 8)], 24, closed: false);
        var found = Assert.Single(Gaps(hole.Transformed(Odd)).Gaps.Single(s => s.BelowMm == 0.5).Regions);
        Assert.Equal(0.4, found.TypicalMm, 0.008);
        Assert.Equal(4, found.ReachMm, 0.4);

        var crease = Slabs.Profile([(0, 0), (20, 0), (20, 15), (11, 15), (10, 5), (9, 15), (0, 15)], 30);
        Assert.True(Assert.Single(Gaps(crease.Transformed(Odd)).Gaps.Single(s => s.BelowMm == 0.5).Regions).Tapers);
    }

    [Fact]
    public void What_is_kept_is_small_even_when_everything_is_thin()
    {
        var plates = Solids.Together([.. Enumerable.Range(0, 60).Select(i => Solids.Box(8, 8, 0.15 + (0.04 * i)).Transformed(Rotation.Identity, new(10 * (i % 8), 10 * (i / 8), 0)))]);
        var found = Of(plates);
        Assert.Equal(60, found.Walls[^1].Count);
        Assert.All(found.Walls, s => Assert.True(s.Regions.Count <= 6));
        Assert.InRange(JsonSerializer.Serialize(found, AsStored).Length, 1000, 20_000);
    }

    private static WallMeasures Of(TriangleMesh mesh) => WallMeasures.Of(TriangleTree.Build(mesh));

    private static GapMeasures Gaps(TriangleMesh mesh) => GapMeasures.Of(TriangleTree.Build(mesh));
}
