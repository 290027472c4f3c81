using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Tests.Hulls;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Fit;

public sealed class SmallestBoxTests
{
    private static readonly Rotation Askew = Rotation.About(new(1, 2, 3), 0.7);

    // Tetrahedron: a cube of edge a/√2 (O'Rourke, "Finding minimal enclosing boxes", 1985). Octahedron and icosahedron: cubes of edge 0.942809 a
    // and 1.618034 a (computed from the corners; the icosahedron's are those of three golden rectangles).
    [Theory]
    [InlineData("tetrahedron", 0.70710678)]
    [InlineData("octahedron", 0.942809)]
    [InlineData("icosahedron", 1.618034)]
    public void A_regular_solid_stands_in_a_cube_of_known_edge(string solid, double edge)
    {
        var box = SmallestBox.Of(Turned([.. RegularSolids.Corners(solid).Select(c => 100 * c)], Askew));
        Assert.Equal(1, box.Volume / Math.Pow(100 * edge, 3), 0.0005);
        Assert.InRange(box.ErrorShare, 0, 0.0005);
    }

    [Fact]
    public void A_brick_is_its_own_smallest_box_however_it_lies() =>
        AnyPart.Rotations.Sample(
            turn =>
            {
                var box = SmallestBox.Of(ConvexHull.Of(Solids.Box(100, 60, 30).Transformed(turn)));
                Assert.Equal(30, box.Size.X, 1e-3);
                Assert.Equal(60, box.Size.Y, 1e-3);
                Assert.Equal(100, box.Size.Z, 1e-3);
            },
            iter: 10);

    // Closed form: a prism of 64 sides around a circle of radius r is 2r cos(π/64) wide across its flats, on both of two perpendicular pairs of them.
    [Theory, InlineData(5, 200), InlineData(0.01, 65), InlineData(40, 2)]
    public void A_long_rod_and_a_thin_disc_lie_flat_in_their_box(double radius, double length)
    {
        var box = SmallestBox.Of(ConvexHull.Of(Solids.Cylinder(radius, length, 64).Transformed(Askew)));
        var across = 2 * radius * Math.Cos(Math.PI / 64);
        Assert.Equal(1, box.Volume / (across * across * length), 0.001);
    }

    [Fact]
    public void The_box_holds_the_part_and_no_rotation_drawn_at_random_has_a_smaller_one() =>
        Gen.Select(AnyPart.Hulls, AnyPart.Rotations.Array[200]).Sample(
            (hull, turns) =>
            {
                var box = SmallestBox.Of(hull);
                Assert.Equal(1, Vec3.Dot(Vec3.Cross(box.Rotation.RowX, box.Rotation.RowY), box.Rotation.RowZ), 1e-9);
                Assert.Equal(box.Size, hull.Support.ExtentsIn(box.Rotation));
                Assert.True(box.Volume >= hull.Volume * (1 - 1e-6));
                Assert.InRange(box.ErrorShare, 0, 0.0005);
                Assert.All(turns, turn =>
                {
                    var size = hull.Support.ExtentsIn(turn);
                    Assert.True(size.X * size.Y * size.Z >= box.Volume * (1 - box.ErrorShare - 1e-6));
                });
            },
            iter: 8);

    [Fact]
    public void The_volume_does_not_depend_on_how_the_part_lies_in_its_file() =>
        Gen.Select(AnyPart.Hulls, AnyPart.Rotations).Sample(
            (hull, turn) =>
            {
                var (a, b) = (SmallestBox.Of(hull), SmallestBox.Of(ConvexHull.Of(hull.ToMesh().Transformed(turn))));
                Assert.Equal(a.Volume, b.Volume, (0.0005 * a.Volume) + 0.1); // flat ones are as thick as single precision makes them
            },
            iter: 8);

    [Fact]
    public void Flat_parts_get_the_smallest_rectangle_and_points_nothing()
    {
        var flat = SmallestBox.Of(Turned([0, 0, 0, 30, 0, 0, 30, 40, 0, 0, 40, 0], Askew));
        Assert.Equal((0, 30, 40), (Math.Round(flat.Size.X, 3), Math.Round(flat.Size.Y, 3), Math.Round(flat.Size.Z, 3)));
        Assert.Equal(50, SmallestBox.Of(Turned([0, 0, 0, 30, 40, 0], Askew)).Size.Z, 1e-4);
        Assert.Equal(0, SmallestBox.Of(ConvexHull.Of([1f, 2, 3])).Volume);
        Assert.Equal(0, SmallestBox.Of(ConvexHull.Of([])).Volume);
    }

    private static ConvexHull Turned(float[] corners, Rotation turn)
    {
        var turned = new float[corners.Length];
        for (var i = 0; i < corners.Length; i += 3)
        {
            var p = turn.Apply(new(corners[i], corners[i + 1], corners[i + 2]));
            (turned[i], turned[i + 1], turned[i + 2]) = ((float)p.X, (float)p.Y, (float)p.Z);
        }

        return ConvexHull.Of(turned);
    }
}
