using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Pictures;
using Catalogue.Geometry.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Pictures;

public sealed class PictureViewTests
{
    [Theory]
    [InlineData(1, 0, 0), InlineData(-1, 0, 0), InlineData(0, 1, 0), InlineData(0, -1, 0), InlineData(0, 0, 1), InlineData(0, 0, -1)]
    public void What_is_meant_is_looked_at_from_its_own_side(double x, double y, double z)
    {
        var box = TriangleTree.Build(Solids.Box(10, 10, 10));
        var view = PictureView.OfMost(box, t => Faces(box.Mesh, t, new(x, y, z)));
        Assert.True(Vec3.Dot(view.ToCamera.RowZ, new(x, y, z)) > 0.5, $"{view.ToCamera.RowZ}");
        Assert.Equal(PictureView.ThreeQuarter, PictureView.OfMost(box, _ => false));
    }

    // The side of a post that a wall stands close before is seen along the gap or not at all: never through the wall, which is on the side of +x.
    [Fact]
    public void What_stands_before_it_is_not_looked_through()
    {
        var (post, wall) = (Solids.Box(4, 4, 10), Solids.Box(1, 40, 40));
        var both = TriangleTree.Build(Solids.Together(post, Moved(wall, 6, -18, -15)));
        var view = PictureView.OfMost(both, t => t < post.TriangleCount && Faces(post, t, Vec3.UnitX));
        Assert.True(Vec3.Dot(view.ToCamera.RowZ, Vec3.UnitX) < 0.9, $"{view.ToCamera.RowZ}");
    }

    private static TriangleMesh Moved(TriangleMesh mesh, float x, float y, float z)
    {
        var positions = mesh.Positions.ToArray();
        for (var i = 0; i < positions.Length; i += 3) (positions[i], positions[i + 1], positions[i + 2]) = (positions[i] + x, positions[i + 1] + y, positions[i + 2] + z);
        return new(positions, mesh.Indices.ToArray());
    }

    private static bool Faces(TriangleMesh mesh, int triangle, Vec3 side)
    {
        var (a, b, c) = mesh.Triangle(triangle);
        return Vec3.Dot(Vec3.Cross(b - a, c - a).Normalized(), side) > 0.9;
    }
}
