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
}
