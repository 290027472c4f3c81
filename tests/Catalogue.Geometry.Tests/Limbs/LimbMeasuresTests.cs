using Catalogue.Geometry.Health;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Holes;
using Xunit;
using Shapes = Catalogue.Geometry.Tests.Spatial.Shapes;

namespace Catalogue.Geometry.Tests.Limbs;

public sealed class LimbMeasuresTests
{
    private static readonly Rotation Tilt = Rotation.About(new(0.3, -0.8, 0.5), 0.77);

    // Any strength-of-materials handbook: a round section has I = π d⁴ / 64 and c = d / 2. A bar of 3 mm, 30 mm long, on a block of 16 mm.
    [Theory, InlineData(false), InlineData(true)]
    public void A_bar_on_a_block_is_a_cantilever_held_at_its_root(bool turned)
    {
        var body = Drilled.Turned(64, (0, 0), (8, 0), (8, 16), (1.5, 16), (1.5, 46), (0, 46));
        Assert.True(MeshHealth.Of(body).Closed);
        var limb = Assert.Single(Find(turned ? body.Transformed(Tilt) : body));
        var root = limb.Pushed;
        Assert.InRange(root.SecondMomentMm4, 0.98 * Math.PI * 81 / 64, 1.02 * Math.PI * 81 / 64);
        Assert.Equal(1.5, root.FibreMm, 0.02);
        Assert.Equal(3, root.ThicknessMm, 0.03);
        Assert.InRange(root.AreaMm2, 0.98 * Math.PI * 2.25, 1.01 * Math.PI * 2.25);
        Assert.InRange(root.LeverMm, 28, 30.5);
        Assert.InRange(root.BeyondMm3, 0.9 * Math.PI * 2.25 * 30, 1.03 * Math.PI * 2.25 * 30);
        Assert.InRange(root.BeyondLeverMm, 13.8, 15.3);
        Assert.True(Vec3.Distance(limb.Tip, turned ? Tilt.Apply(new(0, 0, 46)) : new(0, 0, 46)) < 2);
        Assert.True(Vec3.Dot(root.Axis, turned ? Tilt.Apply(Vec3.UnitZ) : Vec3.UnitZ) > 0.99);
    }

    // Rectangular: I = b h³ / 12 about the weak axis. A strip of 8 × 1.2 mm, 30 mm long, from the middle of a block's face.
    [Fact]
    public void A_strip_is_weak_across_its_thin_side()
    {
        var body = Solids.Together(Solids.Box(20, 20, 12), Solids.Box(8, 1.2, 31).Transformed(Rotation.Identity, new(6, 9.4, 11)));
        var limb = Assert.Single(Find(body));
        Assert.InRange(limb.Pushed.SecondMomentMm4, 0.98 * 8 * 1.728 / 12, 1.02 * 8 * 1.728 / 12);
        Assert.Equal(0.6, limb.Pushed.FibreMm, 0.01);
        Assert.Equal(1.2, limb.Pushed.ThicknessMm, 0.02);
        Assert.InRange(limb.Pushed.LeverMm, 28, 31);
    }

    // A ball of 20 mm on a stick of 3 mm: the ball's mass bends the foot of the stick. V = 4/3 π 1000 + the stick.
    [Fact]
    public void A_ball_on_a_stick_has_its_mass_at_the_end()
    {
        var profile = new List<(double, double)> { (0, 0), (14, 0), (14, 20), (1.5, 20), (1.5, 40.1) };
        for (var i = 0; i <= 24; i++)
        {
            var angle = 0.1506 + ((Math.PI - 0.1506) * i / 24);
            profile.Add((i == 24 ? 0 : 10 * Math.Sin(angle), 50 - (10 * Math.Cos(angle))));
        }

        var body = Drilled.Turned(64, [.. profile]);
        Assert.True(MeshHealth.Of(body).Closed);
        var limb = Find(body)[0];
        var foot = limb.Dropped;
        var (sphere, stick) = (4.0 / 3 * Math.PI * 1000, Math.PI * 2.25 * 20);
        Assert.InRange(foot.BeyondMm3, 0.95 * (sphere + (stick / 2)), 1.03 * (sphere + stick));
        Assert.Equal(3, foot.ThicknessMm, 0.05);
        Assert.InRange(foot.At.Z, 19.5, 41);
        Assert.InRange(limb.Pushed.LeverMm, 36, 41);
    }

    [Fact]
    public void A_figure_has_its_thin_arms_first()
    {
        // A trunk, thick legs, arms of 2 and 2.5 mm.
        var body = Solids.Together(
            Solids.Box(16, 12, 30),
            Solids.Box(6, 8, 30).Transformed(Rotation.Identity, new(0.5, 2, -29)), Solids.Box(6, 8, 30).Transformed(Rotation.Identity, new(9.5, 2, -29)),
            Solids.Box(25, 2, 2).Transformed(Rotation.Identity, new(-24, 5, 24)), Solids.Box(25, 2.5, 2.5).Transformed(Rotation.Identity, new(15, 5, 24)));
        var limbs = Find(body);
        Assert.True(limbs.Count >= 4);

        // A square is weakest about its diagonal: I = a⁴ / 12, c = a / √2.
        Assert.Equal(16 / 12.0, limbs[0].Pushed.SecondMomentMm4, 0.03);
        Assert.Equal(39.0625 / 12, limbs[1].Pushed.SecondMomentMm4, 0.07);
        Assert.True(limbs[0].Tip.X < -22 && limbs[1].Tip.X > 38);
        Assert.All(limbs.Skip(2), l => Assert.True(l.Pushed.PushScore < limbs[1].Pushed.PushScore / 3));
    }

    public static TheoryData<string, TriangleMesh> WithoutLimbs => new()
    {
        { "ball", Solids.Icosphere(10, 4) },
        { "cube", Solids.Box(10, 10, 10) },
        { "ring", Solids.Torus(20, 3, 96, 32) },
        { "plate", Solids.Box(30, 30, 3) },
        { "disc", Solids.Cylinder(20, 2, 64) },
    };

    [Theory, MemberData(nameof(WithoutLimbs))]
    public void Stout_pieces_have_no_limbs(string name, TriangleMesh mesh)
    {
        Assert.Empty(Find(mesh));
        Assert.Empty(Find(mesh.Transformed(Tilt)));
        Assert.NotEmpty(name);
    }

    [Fact]
    public void Cutting_the_triangles_up_changes_nothing()
    {
        var body = Drilled.Turned(24, (0, 0), (8, 0), (8, 16), (1.5, 16), (1.5, 46), (0, 46));
        var (one, other) = (Find(body)[0].Pushed, Find(Shapes.Subdivided(Shapes.Subdivided(body)))[0].Pushed);
        Assert.Equal(one.SecondMomentMm4, other.SecondMomentMm4, 0.001 * one.SecondMomentMm4);
        Assert.Equal(one.PushScore, other.PushScore, 0.02 * one.PushScore);
    }

    [Fact]
    public void Turned_it_is_as_weak_as_before()
    {
        var body = Drilled.Turned(48, (0, 0), (9, 0), (9, 12), (3, 12), (1, 22), (2.5, 32), (0, 32));
        var straight = Find(body)[0];
        foreach (var angle in new[] { 0.4, 1.1, 2.3 })
        {
            var turned = Find(body.Transformed(Rotation.About(new(1, 2, -1), angle)))[0];
            Assert.InRange(turned.Pushed.PushScore / straight.Pushed.PushScore, 0.9, 1.1);
            Assert.InRange(turned.Dropped.DropScore / straight.Dropped.DropScore, 0.9, 1.1);
        }
    }

    [Fact]
    public void Asked_to_stop_it_stops()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => LimbMeasures.Of(TriangleTree.Build(Solids.Box(10, 10, 60)), cancel: stop.Token));
    }

    private static IReadOnlyList<Limb> Find(TriangleMesh mesh) => LimbMeasures.Of(TriangleTree.Build(mesh), cancel: TestContext.Current.CancellationToken).Limbs;
}
