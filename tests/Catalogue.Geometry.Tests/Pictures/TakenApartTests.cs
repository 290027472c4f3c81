using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Pictures;
using Xunit;

namespace Catalogue.Geometry.Tests.Pictures;

public sealed class TakenApartTests
{
    // Two boxes with their middles at z = 5 and z = 25: the middle of both is 15, each is 10 off, and 20 afterwards.
    [Fact]
    public void Each_piece_is_as_far_again_from_the_middle_and_none_is_turned()
    {
        PicturedMesh low = new(Solids.Box(4, 4, 10), Rotation.Identity, Vec3.Zero, default), high = new(Solids.Box(4, 4, 10), Rotation.Identity, new(0, 0, 20), default);
        var apart = TakenApart.Of([low, high]);
        Assert.Equal([-10, 30.0], apart.Select(m => Math.Round(m.Position.Z, 9)));
        Assert.All(apart, m => Assert.Equal((0.0, 0.0, Rotation.Identity), (m.Position.X, m.Position.Y, m.Rotation)));
        Assert.Empty(TakenApart.Of([]));
    }

    [Theory]
    [InlineData(1, 0, 0), InlineData(-1, 0, 0), InlineData(0, 1, 0), InlineData(0, -1, 0), InlineData(0, 0, 1), InlineData(0, 0, -1)]
    public void What_is_meant_is_looked_at_from_its_own_side(double x, double y, double z)
    {
        var box = Solids.Box(10, 10, 10);
        var side = new Vec3(x, y, z);
        var view = PictureView.OfMost(box, t =>
        {
            var (a, b, c) = box.Triangle(t);
            return Vec3.Dot(Vec3.Cross(b - a, c - a).Normalized(), side) > 0.9;
        });
        Assert.True(Vec3.Dot(view.ToCamera.RowZ, side) > 0.5, $"{view.ToCamera.RowZ}");
        Assert.Equal(PictureView.ThreeQuarter, PictureView.OfMost(box, _ => false));
    }
}
