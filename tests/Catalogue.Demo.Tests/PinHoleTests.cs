using Catalogue.Demo.Contouring;
using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Xunit;

namespace Catalogue.Demo.Tests;

/// <summary>What the kernel finds of holes in contoured shapes, whose walls are rough; what was drawn is known.</summary>
public sealed class PinHoleTests
{
    private static readonly Vec3 Askew = new(0.4, -0.3, 0.86);

    // As drawn: FathomJoeShapes, BosunGripShapes, OctaviaSqueezeShapes.
    [Theory]
    [InlineData("fathom-joe/left-leg/standard/1", 1.7, 6.4, 1)]
    [InlineData("fathom-joe/right-leg/standard/1", 1.35, 6.4, 1)]
    [InlineData("bosun-grip/left-leg/standard/1", 1.7, 7.4, 1)]
    [InlineData("octavia-squeeze/bodice/standard/1", 1.7, 9.3, 2)]
    [InlineData("fathom-joe/aerial/wire-foot/1", 1.1, 4, 1)]
    [InlineData("nell-gale/coat/standard/1", 1.7, 6.05, 3)]
    public void The_pin_holes_of_the_puppets_are_found_as_drawn(string path, double diameter, double depth, int count)
    {
        var holes = Find(MadeMeshes.Of(path)).Holes.Where(h => h.DiameterMm < 2).ToList();
        Assert.Equal(count, holes.Count);
        Assert.All(holes, h => Assert.InRange(h.DiameterMm, 0.99 * diameter, 1.01 * diameter));
        Assert.Contains(holes, h => Math.Abs(h.DepthMm - depth) < 0.1);
    }

    [Theory, InlineData(0.8), InlineData(1.5), InlineData(2.2)]
    public void A_hole_across_a_round_limb_is_as_deep_as_the_limb_is_thick(double diameter)
    {
        var limb = new Limb(new(0, 0, -15), 4, new(0, 0, 15), 4).Minus(new Bar(new(-9, 0, 0), new(9, 0, 0), diameter / 2)).Along(Askew, new(2, 3, 4));
        var hole = Assert.Single(Find(Contour.Of(limb)).Holes);
        Assert.InRange(hole.DiameterMm, 0.99 * diameter, 1.01 * diameter);
        Assert.True(hole.Through);

        // Half of the mouth's edge lies further in than where it is r/√2 from the middle line.
        var half = Math.Sqrt(16 - (diameter * diameter / 8));
        Assert.Equal(2 * half, hole.DepthMm, 0.1);
        Assert.True(Vec3.Distance(hole.Center, new(2, 3, 4)) < 0.03);
        Assert.True(Math.Abs(Vec3.Dot(hole.Axis, Askew.Normalized())) < 0.01);
    }

    [Theory, InlineData(1.7, 1.7), InlineData(1.7, 1.2), InlineData(1.7, 3)]
    public void Two_holes_that_cross_are_two_holes(double one, double other)
    {
        var block = new Block(Vec3.Zero, new(14, 14, 10))
            .Minus(new Bar(new(-9, 0, 0), new(9, 0, 0), one / 2), new Bar(new(0, -9, 0), new(0, 9, 0), other / 2)).Along(Askew, new(-3, 1, 2));
        var holes = Find(Contour.Of(block)).Holes;
        var (wide, narrow) = (Math.Max(one, other), Math.Min(one, other));
        Assert.All(holes, h => Assert.True(h.Through));
        if (wide > narrow)
        {
            // A gap wider than its own diameter parts the narrow one. The contouring breaks the edges of mouths that lie askew by up to a cell.
            Assert.InRange(Assert.Single(holes, h => Math.Abs(h.DiameterMm - wide) < 0.01 * wide).DepthMm, 13.5, 14.05);
            Assert.Equal(2, holes.Count(h => Math.Abs(h.DiameterMm - narrow) < 0.01 * narrow && h.DepthMm < 6.6 && h.DepthMm > 5));
        }
        else
        {
            Assert.Equal(2, holes.Count);
            Assert.Equal(2, holes.Count(h => Math.Abs(h.DiameterMm - wide) < 0.01 * wide && h.DepthMm is > 12.9 and < 14.05));
            Assert.True(Vec3.Cross(holes[0].Axis, holes[1].Axis).Length > 0.99);
        }
    }

    [Theory, InlineData(0.3), InlineData(3)]
    public void A_contoured_slot_is_not_a_round_hole(double longer)
    {
        var slot = new Bar(new(0, 0, -5), new(0, 0, 5), 0.9);
        var plate = new Block(Vec3.Zero, new(14, 10, 4)).Minus(slot.Moved(longer / 2, 0, 0), slot.Moved(-longer / 2, 0, 0), new Block(Vec3.Zero, new(longer, 1.8, 10)));
        Assert.Empty(Find(Contour.Of(plate)).Holes);
    }

    [Fact]
    public void A_limb_bent_like_a_finger_has_no_holes_and_is_no_peg()
    {
        var found = Find(MadeMeshes.Of("lady-plume/tentacle/standard/1"));
        Assert.Empty(found.Holes);
        Assert.Empty(found.Pegs);
    }

    // As drawn: Kit.Plug, sleeve of 5.8 × 6 mm with a 0.5 mm chamfer; the key's shaft of 3 × 6 mm.
    [Theory]
    [InlineData("bosun-grip/left-claw/sleeve/1", 5.8, 5.5)]
    [InlineData("fathom-joe/winding-key/standard/1", 3, 5.5)]
    public void Plugs_are_pegs(string path, double diameter, double length)
    {
        var pegs = Find(MadeMeshes.Of(path)).Pegs;
        Assert.Contains(pegs, p => Math.Abs(p.DiameterMm - diameter) < 0.01 * diameter && Math.Abs(p.LengthMm - length) < 0.1);
    }

    private static PinHoles Find(TriangleMesh mesh) => PinHoles.Find(mesh, TriangleTree.Build(mesh), cancel: TestContext.Current.CancellationToken);
}
