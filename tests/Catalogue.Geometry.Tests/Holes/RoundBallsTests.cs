using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Holes;

public sealed class RoundBallsTests
{
    [Theory, InlineData(6), InlineData(6.3)]
    public void A_ball_on_a_neck_is_found_where_it_is_though_its_diameter_is_a_little_other(double said)
    {
        var turn = Rotation.About(new(1, 2, -0.5), 0.8);
        var mesh = Solids.Together(Solids.Icosphere(3, 4, new(4, -7, 12)), Solids.Cylinder(1.5, 9, 32)).Transformed(turn, new(30, 5, -2));
        var ball = Assert.Single(RoundBalls.Find(mesh, said, hollow: false));
        Assert.True(Vec3.Distance(turn.Apply(new(4, -7, 12)) + new Vec3(30, 5, -2), ball.Center) < 0.02, ball.ToString());
        Assert.Equal(6, ball.DiameterMm, 0.05);
        Assert.Equal(1, ball.Share, 0.03);
    }

    [Fact]
    public void A_socket_is_hollow_and_a_ball_is_not()
    {
        var socket = Solids.Together(Solids.Box(12, 12, 12), Solids.Inverted(Solids.Icosphere(3.1, 4, new(6, 6, 6))));
        Assert.Empty(RoundBalls.Find(socket, 6.2, hollow: false));
        Assert.True(Vec3.Distance(new(6, 6, 6), Assert.Single(RoundBalls.Find(socket, 6.2, hollow: true)).Center) < 0.02);
    }

    [Fact]
    public void A_cylinder_of_that_diameter_and_a_box_are_no_balls()
    {
        Assert.Empty(RoundBalls.Find(Solids.Cylinder(3, 20, 64), 6, hollow: false));
        Assert.Empty(RoundBalls.Find(Solids.Box(6, 6, 6), 6, hollow: false));
        Assert.Empty(RoundBalls.Find(Solids.Torus(12, 3, 64, 32), 6, hollow: false));
        Assert.Empty(RoundBalls.Find(Solids.Icosphere(4, 4), 6, hollow: false));
    }

    [Fact]
    public void Two_balls_of_one_part_are_both_found()
    {
        var mesh = Solids.Together(Solids.Icosphere(3, 3, new(-20, 0, 0)), Solids.Icosphere(3, 3, new(20, 0, 0)));
        Assert.Equal([-20, 20], RoundBalls.Find(mesh, 6, hollow: false).Select(b => Math.Round(b.Center.X, 2)).Order());
    }
}
