using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests;

public sealed class SolidsTests
{
    [Fact]
    public void A_box_has_twelve_triangles_and_its_own_size()
    {
        var box = Solids.Box(10, 20, 30);
        Assert.Equal(12, box.TriangleCount);
        Assert.Equal(new Vec3(10, 20, 30), box.Bounds.Size);
    }
}
