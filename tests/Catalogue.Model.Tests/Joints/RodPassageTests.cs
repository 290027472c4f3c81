using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Joints;

public sealed class RodPassageTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();
    private static readonly double[] Upright = [1, 0, 0, 0, 1, 0, 0, 0, 1];

    // Common practice: a printed hole comes out 0.1 to 0.3 mm smaller. 1.85 − 0.3 = 1.55 ≥ 1.5; 1.7 gives 1.4…1.6; 1.35 gives 1.25 at most; 2.3 gives 2.0 at least.
    [Theory]
    [InlineData(1.85, RodPassing.Free, 0)]
    [InlineData(1.7, RodPassing.Ream, 0.11)]
    [InlineData(1.35, RodPassing.Drill, 0.46)]
    [InlineData(2.3, RodPassing.Loose, 0)]
    public void A_rod_of_one_and_a_half_millimetres_passes_or_not(double hole, RodPassing passing, double ream)
    {
        var passage = RodPassage.Of(hole, 1.5, Process("VPP-rigid"));
        Assert.Equal(passing, passage.Passing);
        Assert.Equal(ream, passage.ReamMm, 1e-9);
        Assert.Contains("1.5 mm rod", passage.Advice.English, StringComparison.Ordinal);
    }

    // The prism's corners lie on 1.7 mm; at twelve sides its facets let 1.7 × cos 15° = 1.642 mm pass.
    [Fact]
    public void Facets_narrow_a_hole()
    {
        var passage = RodPassage.Of(Hole(1.7, 1.642, 6), 1.5, Process("VPP-rigid"));
        Assert.Equal((1.342, 1.542), (Math.Round(passage.AsPrinted.Least, 3), Math.Round(passage.AsPrinted.Most, 3)));
        Assert.Equal("1.64 − 0.3…0.1 = 1.34…1.54 mm", passage.Arithmetic.English);
    }

    // Drilling 1.35 to 1.51 takes 0.08 from the wall: 0.55 − 0.08 = 0.47, below the 0.5 mm that resin supports.
    [Theory, InlineData(0.55, false), InlineData(0.6, true)]
    public void Drilling_takes_from_the_wall(double wall, bool holds)
    {
        var passage = RodPassage.Of(1.35, 1.5, Process("VPP-rigid"), wall);
        Assert.Equal(wall - 0.08, passage.WallAfterMm!.Value, 1e-9);
        Assert.Equal(holds, passage.WallHolds);
    }

    // Reaming is part of putting a hinge together (common practice); a hole drawn narrower than its rod is a mistake.
    [Theory, InlineData(1.35, Severity.Care), InlineData(1.5, Severity.Note), InlineData(1.7, Severity.Note)]
    public void A_pinned_hinge_is_judged_by_its_pin_and_its_hole(double hole, Severity severity)
    {
        var joint = new JointSpec(JointKind.PinnedHinge, "Hip") { InnerDiameterMm = 1.5, OuterDiameterMm = hole };
        var pin = Assert.Single(JointMechanics.Of(joint, Process("VPP-rigid")));
        Assert.Equal(("joint.pin", severity), (pin.Finding.Code, pin.Finding.Severity));
        Assert.Contains("ISO 286-2", pin.Finding.Source!.English, StringComparison.Ordinal);
    }

    // Two holes of 6 mm one behind the other with 0.5 mm between them: 12.5 mm of rod, cut 1.5 mm shorter (common practice: 1 to 2).
    [Fact]
    public void Two_holes_in_line_say_how_long_the_rod_is()
    {
        var line = HoleAlignment.Of(Hole(1.7, 1.66, 6), At(0, 0, 0), Hole(1.7, 1.66, 6), At(6.5, 0, 0));
        Assert.Equal((0, 0, 0.5, 12.5, 11), (line.AngleDegrees, line.OffsetMm, line.GapMm, line.LengthMm, line.CutLengthMm));
        Assert.Equal(1.66, line.WidestRodMm, 1e-9);
        Assert.Equal(2, line.OpenEnds);
        Assert.True(line.LineUp(1.5));
        Assert.False(line.LineUp(1.7));
    }

    [Fact]
    public void A_hole_that_is_off_lets_only_a_thinner_rod_pass()
    {
        var line = HoleAlignment.Of(Hole(1.7, 1.7, 6), At(0, 0, 0), Hole(1.7, 1.7, 6), At(6.5, 0.3, 0));
        Assert.InRange(line.WidestRodMm, 1.3, 1.6);
        Assert.False(line.LineUp(1.65));
        Assert.False(HoleAlignment.Of(Hole(1.7, 1.7, 6), At(0, 0, 0), Hole(1.7, 1.7, 6), At(6.5, 2, 0)).LineUp(0.5));
        Assert.False(HoleAlignment.Of(Hole(1.7, 1.7, 6), At(0, 0, 0), Hole(1.7, 1.7, 6), At(2, 0, 0)).LineUp(1.5));
    }

    [Fact]
    public void A_turned_part_is_put_where_its_pose_says()
    {
        // A quarter turn about z brings x to y.
        double[] quarter = [0, -1, 0, 1, 0, 0, 0, 0, 1];
        var across = HoleAlignment.Of(Hole(1.7, 1.7, 6), At(0, 0, 0), Hole(1.7, 1.7, 6), new(10, 0, 0, quarter));
        Assert.Equal(90, across.AngleDegrees, 1e-6);
        Assert.False(across.LineUp(1));
        var blind = Hole(1.7, 1.7, 6) with { Through = false };
        Assert.Equal(1, HoleAlignment.Of(Hole(1.7, 1.7, 6), At(0, 0, 0), blind, At(6.5, 0, 0)).OpenEnds);
        Assert.Equal(0, HoleAlignment.Of(blind with { Axis = -Vec3.UnitX, Mouth = new(6, 0, 0) }, At(0, 0, 0), blind, At(6.5, 0, 0)).OpenEnds);
    }

    // The hinge of a 6 mm and a 6 mm lug with 0.5 mm between them; beside them a wide hole and one across, which are not meant.
    [Fact]
    public void Of_all_holes_of_two_parts_a_hinge_finds_the_two_that_its_rod_goes_through()
    {
        var wide = Hole(4, 4, 6);
        var across = Hole(1.7, 1.7, 6) with { Axis = Vec3.UnitY };
        var rod = RodInPlace.Of(Hinge(1.5), [across, wide, Hole(1.7, 1.66, 6)], [At(0, 30, 0), At(0, 0, 0)], [wide, Hole(1.7, 1.66, 6), across], [At(6.5, 0, 0)]);
        Assert.True(rod!.LinesUp);
        Assert.Equal((12.5, 0.5), (rod.Holes.LengthMm, rod.Holes.GapMm));
        Assert.Contains("12.5 mm from end to end", rod.Advice.English, StringComparison.Ordinal);
        Assert.Contains("11 mm long", rod.Advice.English, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hinge_whose_holes_are_off_or_overlap_says_so_and_one_without_places_says_nothing()
    {
        var hole = Hole(1.7, 1.7, 6);

        // 0.9 mm aside: more than the 0.2 mm of play and 0.3 mm of reaming make good.
        var off = RodInPlace.Of(Hinge(1.5), [hole], [At(0, 0, 0)], [hole], [At(6.5, 0.9, 0)])!;
        Assert.False(off.LinesUp);
        Assert.Contains("off one line", off.Advice.English, StringComparison.Ordinal);
        var into = RodInPlace.Of(Hinge(1.5), [hole], [At(0, 0, 0)], [hole], [At(4, 0, 0)])!;
        Assert.False(into.LinesUp);
        Assert.Contains("2.0 mm into each other", into.Advice.English, StringComparison.Ordinal);
        var blind = hole with { Through = false };
        var shut = RodInPlace.Of(Hinge(1.5), [blind with { Axis = -Vec3.UnitX, Mouth = new(6, 0, 0) }], [At(0, 0, 0)], [blind], [At(6.5, 0, 0)])!;
        Assert.False(shut.LinesUp);
        Assert.Contains("before the parts meet", shut.Advice.English, StringComparison.Ordinal);
        Assert.Null(RodInPlace.Of(Hinge(1.5), [hole], [], [hole], [At(6.5, 0, 0)]));
        Assert.Null(RodInPlace.Of(Hinge(1.5) with { Kind = JointKind.Glued }, [hole], [At(0, 0, 0)], [hole], [At(6.5, 0, 0)]));
        Assert.Null(RodInPlace.Of(Hinge(1.5), [hole], [At(0, 0, 0)], [hole], [At(6.5, 5, 0)]));
    }

    private static JointSpec Hinge(double rod) => new(JointKind.PinnedHinge, "Hip") { InnerDiameterMm = rod, OuterDiameterMm = 1.7 };

    private static RoundHole Hole(double diameter, double clear, double depth) => new()
    {
        DiameterMm = diameter,
        ClearMm = clear,
        DepthMm = depth,
        Axis = Vec3.UnitX,
        Mouth = Vec3.Zero,
        Center = new(depth / 2, 0, 0),
        Through = true,
    };

    private static Pose At(double x, double y, double z) => new(x, y, z, Upright);

    private static Process Process(string code) => Processes.Single(p => p.Code == code);
}
