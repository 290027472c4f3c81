using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Demo.Tests;

/// <summary>Every case the range has to contain, measured on the meshes by hand. The list is in src/Catalogue.Demo/README.md.</summary>
public sealed class CaseTests
{
    private static readonly DemoRange Range = HalfTidePlayers.Range();

    // Common practice: a widely reachable small resin printer is 63.5 × 114.3 × 152.4 mm.
    private static readonly BuildVolume Small = BuildVolume.Rectangular(63.5, 114.3, 152.4);

    [Fact]
    public void The_coat_is_too_large_along_every_axis_of_its_file_but_fits_when_turned()
    {
        var mesh = Mesh("nell-gale/coat/standard/1");
        var size = mesh.Bounds.Size;
        Assert.True(Math.Min(size.X, Math.Min(size.Y, size.Z)) > 63.5 + 3);

        // Laid along the line from the lowest tail to the collar and turned about it in steps of 2°.
        var vertices = mesh.Vertices;
        var (low, high) = (mesh.Vertex(0), mesh.Vertex(0));
        for (var i = 0; i < mesh.VertexCount; i++)
        {
            if (vertices[i].Z < low.Z) low = mesh.Vertex(i);
            if (vertices[i].Z > high.Z) high = mesh.Vertex(i);
        }

        var along = Rotation.BringingToZ(high - low);
        Assert.Contains(Enumerable.Range(0, 90), i =>
        {
            var box = mesh.Transformed(Rotation.About(Vec3.UnitZ, i * Math.PI / 90).After(along)).Bounds.Size;
            return Math.Min(box.X, box.Y) < 61 && Math.Max(box.X, box.Y) < 112 && box.Z < 150;
        });
    }

    [Fact]
    public void The_skirt_fits_no_small_printer_in_any_orientation()
    {
        var mesh = Mesh("octavia-squeeze/skirt/standard/1");
        var result = FitSearch.Fit(ConvexHull.Of(mesh), Small, TestContext.Current.CancellationToken);
        Assert.False(result.Fits);
        Assert.True(result.SpareMm + result.ErrorBoundMm < -3);
    }

    [Fact]
    public void Every_other_part_fits_the_small_printer_somehow()
    {
        foreach (var path in RangeTests.Meshes.Select(row => row.Data).Where(p => !p.Contains("/skirt/", StringComparison.Ordinal)))
        {
            var size = Mesh(path).Bounds.Size;
            double[] sorted = [size.X, size.Y, size.Z];
            Array.Sort(sorted);
            if (sorted[0] < 63 && sorted[1] < 113.8 && sorted[2] < 151.9) continue;
            Assert.True(FitSearch.Fit(ConvexHull.Of(Mesh(path)), Small, TestContext.Current.CancellationToken).Fits, path);
        }
    }

    [Fact]
    public void The_first_mantle_has_a_sealed_void_and_the_second_two_drains_of_four_millimetres()
    {
        var first = EdgeCheck.Of(Mesh("octavia-squeeze/mantle/hollow/1"));
        Assert.Equal(2, first.Shells.Count);
        Assert.InRange(-first.Shells[1].VolumeMm3, 20_000, 50_000);
        var (outer, inner) = (first.Shells[0].Bounds, first.Shells[1].Bounds);
        Assert.True(inner.Min.X > outer.Min.X + 2 && inner.Max.X < outer.Max.X - 2 && inner.Max.Z < outer.Max.Z - 2);

        Assert.Single(EdgeCheck.Of(Mesh("octavia-squeeze/mantle/hollow/2")).Shells);
        foreach (var x in new[] { -7.0, 7 })
        {
            var (least, most) = Radii("octavia-squeeze/mantle/hollow/2", new(x, -3, 62.8), new(x, -3, 63.9), 2.4);
            Assert.InRange(2 * least, 3.95, 4.05);
            Assert.InRange(2 * most, 3.95, 4.05);
        }
    }

    [Fact]
    public void The_mug_is_open_above_and_closed_below()
    {
        var crossings = Along("fathom-joe/tea-mug/standard/1", Figures.FathomJoeShapes.RightFist + new Vec3(9.6, 1.4, -20), Vec3.UnitZ);
        Assert.Equal(2, crossings.Count); // underside, floor, then nothing: no lid
        Assert.Equal(1.2, crossings[1] - crossings[0], 0.03);
    }

    [Fact]
    public void The_speaking_trumpet_is_a_blind_tube()
    {
        var grip = new Vec3(-0.2, -0.45, 1).Normalized();
        var axis = new Vec3(0, -1, 0.25).Normalized();
        var middle = Figures.FathomJoeShapes.LeftFist + (grip * 13.5);
        var crossings = Along("fathom-joe/speaking-trumpet/standard/1", middle - (axis * 40), axis);
        Assert.Equal(2, crossings.Count); // mouthpiece, end of the bore, then open air
        Assert.Equal(28, crossings[0], 0.05);
        Assert.Equal(32, crossings[1], 0.05);
        var (least, most) = Radii("fathom-joe/speaking-trumpet/standard/1", middle - (axis * 6), middle + (axis * 4), 2.5);
        Assert.InRange(2 * least, 3.9, 4.05);
        Assert.InRange(2 * most, 3.9, 4.25);
    }

    [Fact]
    public void The_aerial_is_one_millimetre_thick()
    {
        var foot = Figures.FathomJoeShapes.AerialFoot;
        var (least, most) = Radii("fathom-joe/aerial/whip/1", foot + new Vec3(0, 0, 4), foot + new Vec3(0, 0, 16), 3);
        Assert.InRange(2 * least, 0.97, 1.01);
        Assert.InRange(2 * most, 0.99, 1.03);
    }

    // A 1.5 mm rod enters a 1.7 mm hole and not a 1.35 mm one.
    [Theory]
    [InlineData("fathom-joe/left-leg/standard/1", 6.5, 11.5, 0, 42, 1.7)]
    [InlineData("fathom-joe/right-leg/standard/1", -11.5, -6.5, 0, 42, 1.35)]
    [InlineData("fathom-joe/suit/standard/1", 13.5, 16, 0, 42, 1.7)]
    [InlineData("bosun-grip/left-leg/standard/1", 8, 14, 1, 40, 1.7)]
    [InlineData("octavia-squeeze/left-arm/standard/1", 17, 23, -1, 54, 1.7)]
    public void A_pin_hole_measures_what_its_joint_says(string path, double fromX, double toX, double y, double z, double diameter)
    {
        var (least, most) = Radii(path, new(fromX, y, z), new(toX, y, z), (diameter / 2) + 0.3);
        Assert.InRange(2 * least, diameter - 0.04, diameter + 0.02);
        Assert.InRange(2 * most, diameter - 0.02, diameter + 0.04);
        var names = path.Split('/');
        var joints = Range.Figures.Single(f => f.Slug == names[0]).Joints;
        Assert.Contains(joints, j => j.Kind == DemoCodes.PinnedHinge && (j.PartA == names[1] || j.PartB == names[1]) && (j.HoleMm == diameter || diameter > 1.5));
        Assert.Equal(diameter < 1.5, joints.Any(j => j.PartB == names[1] && j.HoleMm < j.PinMm));
    }

    [Fact]
    public void The_crab_has_balls_and_sockets_in_filament_and_sleeves_in_resin()
    {
        var outward = new Vec3(1, -0.1, 0.45).Normalized();
        var shoulder = Figures.BosunGripShapes.LeftShoulder;
        foreach (var joint in Range.Figures.Single(f => f.Slug == "bosun-grip").Joints.Where(j => j.Kind == DemoCodes.PopInBall && j.Processes.Contains(DemoCodes.MexRigid)))
        {
            Assert.Equal(0.032, (joint.BallMm!.Value - joint.MouthMm!.Value) / joint.MouthMm.Value, 0.001);
            Assert.DoesNotContain(joint.Processes, p => p.StartsWith("VPP", StringComparison.Ordinal));
        }

        var ball = Figure("bosun-grip/left-claw/ball/1").Where(p => Vec3.Distance(p, shoulder) < 3.8 && Vec3.Dot(p - shoulder, outward) < 1).ToList();
        Assert.True(ball.Count > 100);
        Assert.All(ball, p => Assert.InRange(Vec3.Distance(p, shoulder), 3.48, 3.52));

        var socket = Figure("bosun-grip/carapace/sockets/1").Where(p => Vec3.Distance(p, shoulder) < 3.8 && Vec3.Dot(p - shoulder, outward) < 1).ToList();
        Assert.All(socket, p => Assert.InRange(Vec3.Distance(p, shoulder), 3.58, 3.62));
        var mouth = Figure("bosun-grip/carapace/sockets/1").Where(p => Vec3.Distance(p, shoulder) < 4.2 && Vec3.Dot(p - shoulder, outward) > 1.15)
            .Min(p => Vec3.Cross(p - shoulder, outward).Length);
        Assert.InRange(2 * mouth, 6.70, 6.82);

        var (least, most) = Radii("bosun-grip/left-claw/sleeve/1", shoulder - (outward * 4.5), shoulder - (outward * 1), 4);
        Assert.InRange(2 * least, 5.77, 5.82);
        Assert.InRange(2 * most, 5.78, 5.84);
        (least, most) = Radii("bosun-grip/carapace/sleeves/1", shoulder - (outward * 5), shoulder - (outward * 1), 3.2);
        Assert.InRange(2 * least, 5.97, 6.02);
        Assert.InRange(2 * most, 5.98, 6.04);
    }

    [Fact]
    public void The_sliding_arm_is_bent_to_its_seat_and_made_for_materials_that_bend()
    {
        var figure = Range.Figures.Single(f => f.Slug == "mister-periwinkle");
        var joint = figure.Joints.Single(j => j.Kind == DemoCodes.Retracting);
        var strip = Figure("mister-periwinkle/sliding-arm/bending/1").Select(p => p - Figures.MisterPeriwinkleShapes.SlideCenter)
            .Where(p => p.Z > 20 && p.Y > -20).Select(p => Math.Sqrt((p.Y * p.Y) + (p.Z * p.Z))).ToList();
        Assert.InRange(strip.Max() - strip.Min(), joint.BendThicknessMm!.Value - 0.1, joint.BendThicknessMm.Value + 0.05);
        Assert.InRange((strip.Max() + strip.Min()) / 2, joint.BendRadiusMm!.Value - 0.1, joint.BendRadiusMm.Value + 0.1);
        Assert.Equal(
            [DemoCodes.MexRigid, DemoCodes.MexFlexible, DemoCodes.VppFlexible], figure.Parts.Single(p => p.Slug == "sliding-arm").Variants.Single().Processes);
    }

    [Fact]
    public void The_lighthouse_is_built_with_a_lit_or_a_plain_front()
    {
        var figure = Range.Figures.Single(f => f.Slug == "dorothea-beacon");
        var members = figure.Parts.Where(p => p.Choice == figure.Choices.Single().Slug).Select(p => p.Slug).ToList();
        Assert.Equal(["plain-front", "lit-front"], members);
        Assert.Contains(figure.Hardware, h => h.Kind == "light" && h.ForPart == "lit-front");
        Assert.All(members, m => Assert.Contains(figure.Steps, s => s.ForPart == m));

        // Light passes the one through its upper panes and not the other.
        Assert.Empty(Along("dorothea-beacon/lit-front/standard/1", new(2.6, -60, 35), Vec3.UnitY));
        Assert.NotEmpty(Along("dorothea-beacon/plain-front/standard/1", new(2.6, -60, 35), Vec3.UnitY));
    }

    [Fact]
    public void The_limpet_cart_is_optional_and_has_room_for_its_spring_motor()
    {
        var figure = Range.Figures.Single(f => f.Slug == "big-drum-olaf");
        Assert.Equal(DemoCodes.Optional, figure.Parts.Single(p => p.Slug == "limpet-cart").Role);
        Assert.Equal("limpet-cart", figure.Hardware.Single(h => h.Kind == "motor").ForPart);
        var up = Along("big-drum-olaf/limpet-cart/standard/1", Figures.BigDrumOlafShapes.CartMiddle + new Vec3(5, 5, -10), Vec3.UnitZ);
        Assert.Equal(2, up.Count); // the bay is open below: first the roof of the bay, then the shell
        Assert.InRange(up[0] - 10, 19, 20);
    }

    [Fact]
    public void The_stones_of_the_gown_stand_out_by_less_than_filament_shows()
    {
        // At half the height of the second course, well away from door and windows, the radius swings by the height of the detail.
        var radii = Figure("dorothea-beacon/gown/standard/1")
            .Where(p => Math.Abs(p.Z - 26.6) < 0.8 && Math.Abs(p.Y) < 12 && new Vec3(p.X, p.Y, 0).Length > 16)
            .Select(p => new Vec3(p.X, p.Y, 0).Length + ((p.Z - 26.6) * 0.19)).Order().ToList();
        Assert.InRange(radii[^2] - radii[1], 0.33, 0.5);
    }

    // 16 CFR 1501.4: 31.7 mm bore, 25.4 mm at the shallow side. A cylinder of 25.4 mm height that holds the part is enough.
    [Theory]
    [InlineData("octavia-squeeze/winding-key/standard/1")]
    [InlineData("fathom-joe/tea-mug/standard/1")]
    [InlineData("bosun-grip/eye-stalk/standard/1")]
    [InlineData("big-drum-olaf/cart-wheel/standard/1")]
    [InlineData("mister-periwinkle/cap/standard/1")]
    public void Small_parts_fit_in_the_small_parts_cylinder(string path)
    {
        var size = Mesh(path).Bounds.Size;
        Assert.Contains(new[] { (size.X, size.Y, size.Z), (size.Y, size.Z, size.X), (size.Z, size.X, size.Y) },
            s => Math.Sqrt((s.Item1 * s.Item1) + (s.Item2 * s.Item2)) < 31.7 && s.Item3 < 25.4);
    }

    [Theory]
    [InlineData("big-drum-olaf", new[] { DemoCodes.MexRigid })]
    [InlineData("lady-plume", new[] { DemoCodes.VppRigid, DemoCodes.VppTough, DemoCodes.VppFlexible })]
    public void Some_figures_are_made_for_one_kind_of_printer(string slug, string[] only)
    {
        var figure = Range.Figures.Single(f => f.Slug == slug);
        var processes = figure.Parts.Where(p => p.Role != DemoCodes.Optional || slug != "lady-plume").SelectMany(p => p.Variants).SelectMany(v => v.Processes);
        Assert.All(processes, p => Assert.Contains(p, only));
    }

    [Fact]
    public void One_revision_has_to_stay_a_draft_because_it_is_torn()
    {
        var draft = Assert.Single(Range.Figures.SelectMany(f => f.Parts).SelectMany(p => p.Variants).SelectMany(v => v.Revisions), r => r.Draft);
        Assert.True(EdgeCheck.Of(draft.Mesh(TestContext.Current.CancellationToken)).OpenEdges > 50);
    }

    [Fact]
    public void There_are_some_dozens_of_reports_and_the_aerial_broke_nine_times_out_of_fourteen()
    {
        Assert.True(Range.Figures.Sum(f => f.Reports.Count) > 100);
        var aerials = Range.Figures.Single(f => f.Slug == "fathom-joe").Reports.Where(r => r.Part == "aerial" && r.Process == DemoCodes.VppRigid).ToList();
        Assert.Equal(14, aerials.Count);
        Assert.Equal(9, aerials.Count(r => r.Symptom == "snapped"));
    }

    public static TheoryData<string> Slugs => [.. Range.Figures.Select(f => f.Slug)];

    [Theory, MemberData(nameof(Slugs))]
    public void An_assembled_figure_stands_120_millimetres_tall_and_its_joints_meet(string slug)
    {
        var figure = Range.Figures.Single(f => f.Slug == slug);
        var boxes = figure.Parts.ToDictionary(p => p.Slug, p => p.Poses.Select(pose => Mesh($"{slug}/{p.Slug}/{p.Variants[0].Slug}/1").Transformed(pose.Rotation, pose.Position).Bounds).ToList());
        var all = boxes.Where(b => figure.Parts.Single(p => p.Slug == b.Key).Role != DemoCodes.Optional).SelectMany(b => b.Value).ToList();
        Assert.InRange(all.Min(b => b.Min.Z), -0.1, 0.5);
        Assert.InRange(all.Max(b => b.Max.Z), 119, 121);
        foreach (var joint in figure.Joints.Where(j => j.Hardware.All(h => h is not ("umbrella-shaft" or "carrying-rod"))))
        {
            Assert.True(
                boxes[joint.PartA].SelectMany(_ => boxes[joint.PartB], Touch).Any(t => t), $"{slug}: {joint.PartA} and {joint.PartB} do not meet");
        }

        static bool Touch(BoundingBox a, BoundingBox b) =>
            a.Min.X <= b.Max.X + 0.3 && b.Min.X <= a.Max.X + 0.3 && a.Min.Y <= b.Max.Y + 0.3 && b.Min.Y <= a.Max.Y + 0.3 && a.Min.Z <= b.Max.Z + 0.3 && b.Min.Z <= a.Max.Z + 0.3;
    }

    private static TriangleMesh Mesh(string path) => MadeMeshes.Of(path);

    private static DemoPose Pose(string path)
    {
        var names = path.Split('/');
        return Range.Figures.Single(f => f.Slug == names[0]).Parts.Single(p => p.Slug == names[1]).Poses[0];
    }

    /// <summary>The vertices where they sit in the assembled figure.</summary>
    private static IEnumerable<Vec3> Figure(string path)
    {
        var (mesh, pose) = (Mesh(path), Pose(path));
        return Enumerable.Range(0, mesh.VertexCount).Select(i => pose.Apply(mesh.Vertex(i)));
    }

    /// <summary>Least and largest distance from the line a–b of the vertices beside it that are nearer than <paramref name="within"/>.</summary>
    private static (double Least, double Most) Radii(string path, Vec3 a, Vec3 b, double within)
    {
        var axis = (b - a).Normalized();
        var radii = Figure(path).Where(p => Vec3.Dot(p - a, axis) > 0 && Vec3.Dot(p - b, axis) < 0)
            .Select(p => Vec3.Cross(p - a, axis).Length).Where(r => r < within).ToList();
        Assert.True(radii.Count >= 12, $"{path}: only {radii.Count} vertices near the line");
        return (radii.Min(), radii.Max());
    }

    /// <summary>Distances along a ray, in the figure, at which it passes through the mesh.</summary>
    private static List<double> Along(string path, Vec3 from, Vec3 direction)
    {
        var (mesh, pose) = (Mesh(path), Pose(path));
        var found = new List<double>();
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (fa, fb, fc) = mesh.Triangle(t);
            var (a, b, c) = (pose.Apply(fa) - from, pose.Apply(fb) - from, pose.Apply(fc) - from);
            var (u, v, w) = (Vec3.Dot(direction, Vec3.Cross(b, c)), Vec3.Dot(direction, Vec3.Cross(c, a)), Vec3.Dot(direction, Vec3.Cross(a, b)));
            if (!((u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0)) || u + v + w == 0) continue;
            var at = Vec3.Dot(((a * u) + (b * v) + (c * w)) / (u + v + w), direction);
            if (at > 0) found.Add(at);
        }

        found.Sort();
        return found;
    }
}
