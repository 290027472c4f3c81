using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Xunit;

namespace Catalogue.Model.Tests.Joints;

public sealed class JointMatingTests
{
    private static readonly DateTime Now = new(2026, 5, 1, 9, 0, 0, DateTimeKind.Utc);
    private static readonly double[] Upright = [1, 0, 0, 0, 1, 0, 0, 0, 1];
    private static readonly Guid One = Guid.NewGuid();
    private static readonly Guid Other = Guid.NewGuid();

    [Fact]
    public void A_peg_goes_into_a_blind_hole_until_its_root_is_at_the_mouth()
    {
        // The peg points up (+z) with its root at z = 10 of its file; the hole opens at (20, 0, 5) of the other part, into it along −x.
        var peg = new PlacedCopy(One, new(3, 4, 5, Upright), Pegs((0, 0, 16), Vec3.UnitZ, 6), 0, Vec3.Zero);
        var hole = new PlacedCopy(Other, new(100, 0, 0, Upright), Holes(through: false, ((20, 0, 5), -Vec3.UnitX)), 0, Vec3.Zero);
        var pose = Assert.Single(JointMating.Ways(JointOf(JointKind.PlugInSleeve), peg, hole));
        Near(new(120, 0, 5), Placed(pose, new(0, 0, 10)));
        Near(-Vec3.UnitX, Rotation.FromRowMajor(pose.Rotation).Apply(Vec3.UnitZ));
        Assert.True(pose.IsValid);
    }

    [Fact]
    public void The_part_with_the_hole_may_be_the_one_that_is_put()
    {
        var turn = Rotation.About(new(1, 2, -0.4), 1.3);
        var peg = new PlacedCopy(One, new(3, 4, 5, turn.ToRowMajor()), Pegs((0, 0, 16), Vec3.UnitZ, 6), 0, Vec3.Zero);
        var hole = new PlacedCopy(Other, new(-50, 7, 0, Upright), Holes(through: false, ((20, 0, 5), -Vec3.UnitX)), 0, Vec3.Zero);
        var pose = Assert.Single(JointMating.Ways(JointOf(JointKind.PressFit), hole, peg));
        Near(Placed(peg.Pose, new(0, 0, 10)), Placed(pose, new(20, 0, 5)));
        Near(turn.Apply(Vec3.UnitZ), Rotation.FromRowMajor(pose.Rotation).Apply(-Vec3.UnitX));
    }

    [Fact]
    public void A_through_hole_can_be_entered_from_both_ends()
    {
        var peg = new PlacedCopy(One, new(0, 0, 0, Upright), Pegs((0, 0, 6), Vec3.UnitZ, 6), 0, Vec3.Zero);
        var hole = new PlacedCopy(Other, new(0, 0, 0, Upright), Holes(through: true, ((0, 0, 30), Vec3.UnitZ)), 0, Vec3.Zero);
        var ways = JointMating.Ways(JointOf(JointKind.PlugInSleeve), peg, hole);
        Assert.Equal([30, 36], ways.Select(w => Math.Round(w.Z, 6)));
        Near(Vec3.UnitZ, Rotation.FromRowMajor(ways[0].Rotation).Apply(Vec3.UnitZ)); // Less is turned: the first.
        Near(-Vec3.UnitZ, Rotation.FromRowMajor(ways[1].Rotation).Apply(Vec3.UnitZ));
    }

    [Fact]
    public void Two_holes_for_a_pin_come_in_line_and_the_part_keeps_its_place_along_it()
    {
        // The arm's hole runs along its x and lies 2 mm too high and 14 mm out; the body's runs along x at z = 60.
        var arm = new PlacedCopy(One, new(14, 0, 62, Rotation.About(Vec3.UnitZ, 0.2).ToRowMajor()), Holes(through: true, ((-3, 0, 0), Vec3.UnitX)), 0, Vec3.Zero);
        var body = new PlacedCopy(Other, new(0, 0, 0, Upright), Holes(through: true, ((5, 0, 60), Vec3.UnitX)), 0, Vec3.Zero);
        var ways = JointMating.Ways(JointOf(JointKind.PinnedHinge), arm, body);
        Assert.Equal(2, ways.Count);
        var middle = Placed(ways[0], Vec3.Zero);
        Assert.Equal((0, 60), (Math.Round(middle.Y, 9), Math.Round(middle.Z, 9)));
        Assert.Equal(14, middle.X, 1e-6);
        Near(Vec3.UnitX, Rotation.FromRowMajor(ways[0].Rotation).Apply(Vec3.UnitX));
        Near(-Vec3.UnitX, Rotation.FromRowMajor(ways[1].Rotation).Apply(Vec3.UnitX));
    }

    [Fact]
    public void Widths_that_do_not_go_together_and_glued_joints_offer_nothing()
    {
        var peg = new PlacedCopy(One, new(0, 0, 0, Upright), Pegs((0, 0, 6), Vec3.UnitZ, 6, 4), 0, Vec3.Zero);
        var hole = new PlacedCopy(Other, new(0, 0, 0, Upright), Holes(through: true, ((0, 0, 30), Vec3.UnitZ)), 0, Vec3.Zero);
        Assert.Empty(JointMating.Ways(JointOf(JointKind.PlugInSleeve), peg, hole));
        Assert.Empty(JointMating.Ways(JointOf(JointKind.Glued), hole, hole));
        Assert.Empty(JointMating.Ways(JointOf(JointKind.PinnedHinge), hole with { Holes = null }, hole));
    }

    private static Joint JointOf(JointKind kind)
    {
        var figure = new Figure("keeper", new() { Title = "Keeper", HeightMm = 120, Licence = "CC0-1.0" }, Now);
        return figure.AddJoint(new(kind, "Joint"), figure.AddPart("one", "One", 1, PartRole.Required, Now), figure.AddPart("other", "Other", 1, PartRole.Required, Now), Now);
    }

    private static Vec3 Placed(Pose pose, Vec3 p) => Rotation.FromRowMajor(pose.Rotation).Apply(p) + new Vec3(pose.X, pose.Y, pose.Z);

    private static void Near(Vec3 expected, Vec3 actual) => Assert.True((expected - actual).Length < 1e-6, $"{actual} instead of {expected}");

    private static PinHoles Pegs((double X, double Y, double Z) tip, Vec3 axis, double length, double diameter = 3) => new()
    {
        Holes = [],
        Pegs = [new() { Axis = axis, Tip = new(tip.X, tip.Y, tip.Z), Center = new Vec3(tip.X, tip.Y, tip.Z) - (axis * (length / 2)), DiameterMm = diameter, LengthMm = length, Loose = false }],
        More = false,
    };

    /// <summary>Of 3.1 mm, 6 mm deep, given by mouth and direction.</summary>
    private static PinHoles Holes(bool through, params ((double X, double Y, double Z) Mouth, Vec3 Axis)[] at) => new()
    {
        Holes = [.. at.Select(h => new RoundHole
        {
            DiameterMm = 3.1,
            ClearMm = 3.08,
            DepthMm = 6,
            Axis = h.Axis,
            Mouth = new(h.Mouth.X, h.Mouth.Y, h.Mouth.Z),
            Center = new Vec3(h.Mouth.X, h.Mouth.Y, h.Mouth.Z) + (h.Axis * 3),
            Through = through,
        })],
        Pegs = [],
        More = false,
    };
}
