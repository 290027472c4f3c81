using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Xunit;

namespace Catalogue.Model.Tests.Joints;

public sealed class AssembledJointsTests
{
    private static readonly DateTime Now = new(2026, 5, 1, 9, 0, 0, DateTimeKind.Utc);
    private static readonly double[] Upright = [1, 0, 0, 0, 1, 0, 0, 0, 1];

    [Fact]
    public void Two_arms_turn_about_the_holes_that_line_up_with_the_body()
    {
        var figure = new Figure("keeper", new() { Title = "Keeper", HeightMm = 120, Licence = "CC0-1.0" }, Now);
        var (body, arm) = (figure.AddPart("body", "Body", 1, PartRole.Required, Now), figure.AddPart("arm", "Arm", 2, PartRole.Required, Now));
        var shoulders = figure.AddJoint(new(JointKind.PinnedHinge, "Shoulders") { InnerDiameterMm = 1.5 }, body, arm, Now);

        // The body's shoulder holes run along x at z = 60, one on each side; each arm has its hole at its own origin, across.
        PlacedCopy[] copies =
        [
            new(arm.Id, new(-14, 0, 60, Upright), Holes((0, 0, 0)), 500, new(-14, 0, 50)),
            new(body.Id, new(0, 0, 0, Upright), Holes((-8, 0, 60), (8, 0, 60)), 9000, new(0, 0, 30)),
            new(arm.Id, new(14, 0.1, 60, Upright), Holes((0, 0, 0)), 500, new(14, 0, 50)),
        ];
        var joints = AssembledJoints.Of(copies, [shoulders]);
        Assert.Equal([(1, 0), (1, 2)], joints.Select(j => (j.Carrier, j.Carried)).Order());
        Assert.All(joints, j => Assert.Equal(1, Math.Abs(j.Axis!.Value.X), 1e-9));
        Assert.Equal([-11, 11], joints.Select(j => Math.Round(j.At!.Value.X)).Order());
        Assert.All(joints, j => Assert.Equal(60, j.At!.Value.Z, 1e-9));
    }

    [Fact]
    public void What_is_out_of_line_or_glued_is_carried_but_does_not_turn()
    {
        var figure = new Figure("keeper", new() { Title = "Keeper", HeightMm = 120, Licence = "CC0-1.0" }, Now);
        var (body, arm, hat) = (figure.AddPart("body", "Body", 1, PartRole.Required, Now), figure.AddPart("arm", "Arm", 1, PartRole.Required, Now), figure.AddPart("hat", "Hat", 1, PartRole.Required, Now));
        var hinge = figure.AddJoint(new(JointKind.PinnedHinge, "Shoulder"), body, arm, Now);
        var brim = figure.AddJoint(new(JointKind.Glued, "Brim"), body, hat, Now);
        PlacedCopy[] copies =
        [
            new(body.Id, new(0, 0, 0, Upright), Holes((8, 0, 60)), 9000, Vec3.Zero),
            new(arm.Id, new(14, 2, 60, Upright), Holes((0, 0, 0)), 500, new(14, 0, 50)),
            new(hat.Id, new(0, 0, 90, Upright), Holes((8, 0, -30)), 700, new(0, 0, 90)),
        ];
        var joints = AssembledJoints.Of(copies, [hinge, brim]);
        Assert.Equal([(0, 1), (0, 2)], joints.Select(j => (j.Carrier, j.Carried)).Order());
        Assert.All(joints, j => Assert.Null(j.Axis));
    }

    [Fact]
    public void A_hand_hangs_on_its_arm_and_so_on_the_body()
    {
        var figure = new Figure("keeper", new() { Title = "Keeper", HeightMm = 120, Licence = "CC0-1.0" }, Now);
        var (body, arm, hand) = (figure.AddPart("body", "Body", 1, PartRole.Required, Now), figure.AddPart("arm", "Arm", 1, PartRole.Required, Now), figure.AddPart("hand", "Hand", 1, PartRole.Required, Now));
        var shoulder = figure.AddJoint(new(JointKind.PinnedHinge, "Shoulder"), body, arm, Now);
        var wrist = figure.AddJoint(new(JointKind.PlugInSleeve, "Wrist"), arm, hand, Now);
        PlacedCopy[] copies =
        [
            new(hand.Id, new(14, 0, 30, Upright), new() { Holes = [], Pegs = [new() { Axis = -Vec3.UnitX, Center = new(-3, 0, 0), Tip = new(-5, 0, 0), DiameterMm = 4, LengthMm = 4, Loose = false }], More = false }, 90, new(14, 0, 30)),
            new(arm.Id, new(8, 0, 30, Upright), Holes((3, 0, 0), (0, 0, 30)), 500, new(8, 0, 45)),
            new(body.Id, new(0, 0, 0, Upright), Holes((4, 0, 60)), 9000, Vec3.Zero),
        ];
        var joints = AssembledJoints.Of(copies, [wrist, shoulder]);
        Assert.Equal([("Shoulder", 2, 1), ("Wrist", 1, 0)], joints.Select(j => (j.Name, j.Carrier, j.Carried)).Order());
        Assert.All(joints, j => Assert.NotNull(j.Axis));
    }

    /// <summary>Holes of 1.6 mm along x, 6 mm deep.</summary>
    private static PinHoles Holes(params (double X, double Y, double Z)[] at) => new()
    {
        Holes = [.. at.Select(p => new RoundHole
        {
            DiameterMm = 1.6,
            ClearMm = 1.58,
            DepthMm = 6,
            Axis = Vec3.UnitX,
            Center = new(p.X, p.Y, p.Z),
            Mouth = new(p.X - 3, p.Y, p.Z),
            Through = true,
        })],
        Pegs = [],
        More = false,
    };
}
