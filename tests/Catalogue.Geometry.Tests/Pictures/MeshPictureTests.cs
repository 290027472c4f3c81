using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Pictures;
using Xunit;

namespace Catalogue.Geometry.Tests.Pictures;

public sealed class MeshPictureTests
{
    private static readonly Tint Grey = new(0.5f, 0.5f, 0.5f);
    private static readonly PictureView Front = PictureView.From(0, 0);

    // A disc fills π/4 of the square around it (closed form); the margin is 4 % on every side.
    [Fact]
    public void A_ball_is_drawn_as_a_disc()
    {
        var picture = Draw(Solids.Icosphere(10, 5), 200, 200);
        var side = 200 * 0.92;
        Assert.Equal(Math.PI / 4 * side * side, Covered(picture), 0.01 * side * side);
    }

    // A box 10 wide and 20 high seen from the front: half as wide as high.
    [Fact]
    public void The_picture_is_filled_in_proportion_and_centred()
    {
        var picture = Draw(Solids.Box(10, 30, 20), 100, 100);
        var (left, right, top, bottom) = Frame(picture);
        Assert.Equal((46.0, 92.0), (right - left + 1, bottom - top + 1), Within(1.5));
        Assert.Equal((49.5, 49.5), ((left + right) / 2.0, (top + bottom) / 2.0), Within(1));
    }

    [Fact]
    public void What_stands_nearer_hides_what_is_behind()
    {
        var (red, blue) = (new Tint(1, 0, 0), new Tint(0, 0, 1));
        PicturedMesh near = new(Solids.Box(10, 1, 10), Rotation.Identity, new(0, -20, 0), red), far = new(Solids.Box(10, 1, 10), Rotation.Identity, new(0, 20, 0), blue);
        foreach (var order in new[] { new[] { near, far }, [far, near] })
        {
            var (r, _, b, a) = Pixel(MeshPicture.Draw(order, Front, 60, 60, TestContext.Current.CancellationToken), 30, 30);
            Assert.True(a == 255 && r > 100 && b == 0, $"{r} {b} {a}");
        }
    }

    [Fact]
    public void From_the_right_the_right_side_is_seen_and_from_above_the_top()
    {
        // The triangle of every side has its own colour: +x red, −y green, +z blue.
        var box = Solids.Box(10, 10, 10);
        Tint Of(int triangle)
        {
            var (a, b, c) = box.Triangle(triangle);
            var n = Vec3.Cross(b - a, c - a).Normalized();
            return new(n.X > 0.5 ? 1 : 0, n.Y < -0.5 ? 1 : 0, n.Z > 0.5 ? 1 : 0);
        }

        string Seen(double right, double above)
        {
            var (r, g, b, _) = Pixel(MeshPicture.Draw([new(box, Rotation.Identity, default, Grey, Of)], PictureView.From(right, above), 60, 60, TestContext.Current.CancellationToken), 30, 30);
            return $"{(r > 0 ? "right" : "")}{(g > 0 ? "front" : "")}{(b > 0 ? "top" : "")}";
        }

        Assert.Equal(("front", "right", "top"), (Seen(0, 0), Seen(90, 0), Seen(0, 90)));
    }

    [Fact]
    public void A_hollow_is_darker_than_a_face_in_the_open()
    {
        // The floor of a channel, and the same face without walls.
        var floor = new PicturedMesh(Solids.Box(30, 4, 30), Rotation.Identity, default, Grey);
        PicturedMesh Wall(double x) => new(Solids.Box(8, 5, 30), Rotation.Identity, new(x, -5, 0), Grey);
        var open = Pixel(MeshPicture.Draw([floor], Front, 90, 90, TestContext.Current.CancellationToken), 45, 45);
        var walled = Pixel(MeshPicture.Draw([floor, Wall(6), Wall(16)], Front, 90, 90, TestContext.Current.CancellationToken), 45, 45);
        Assert.True(walled.Red < open.Red - 5, $"{walled.Red} {open.Red}");
    }

    [Fact]
    public void Turning_the_mesh_and_the_view_together_changes_nothing_but_rounding()
    {
        var turn = Rotation.About(new(1, 2, 3), 1);
        var straight = MeshPicture.Draw([new(Solids.Torus(20, 5, 40, 20), Rotation.Identity, default, Grey)], Front, 80, 80, TestContext.Current.CancellationToken);
        var turned = MeshPicture.Draw([new(Solids.Torus(20, 5, 40, 20).Transformed(turn.Inverse()), turn, default, Grey)], Front, 80, 80, TestContext.Current.CancellationToken);
        Assert.True(straight.Rgba.Zip(turned.Rgba).Count(p => Math.Abs(p.First - p.Second) > 8) < 0.01 * straight.Rgba.Length);
    }

    [Fact]
    public void Nothing_gives_an_empty_picture() =>
        Assert.Equal(0, Covered(MeshPicture.Draw([new(new TriangleMesh([], []), Rotation.Identity, default, Grey)], Front, 20, 10, TestContext.Current.CancellationToken)));

    [Theory]
    [InlineData(0, 10)]
    [InlineData(10, MeshPicture.LargestSide + 1)]
    public void A_side_beyond_reason_is_refused(int width, int height) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MeshPicture.Draw([], Front, width, height, TestContext.Current.CancellationToken));

    private static Picture Draw(TriangleMesh mesh, int width, int height) =>
        MeshPicture.Draw([new(mesh, Rotation.Identity, default, Grey)], Front, width, height, TestContext.Current.CancellationToken);

    private static double Covered(Picture picture) => Enumerable.Range(0, picture.Width * picture.Height).Sum(i => picture.Rgba[(4 * i) + 3] / 255.0);

    private static (byte Red, byte Green, byte Blue, byte Alpha) Pixel(Picture picture, int x, int y)
    {
        var at = 4 * ((y * picture.Width) + x);
        return (picture.Rgba[at], picture.Rgba[at + 1], picture.Rgba[at + 2], picture.Rgba[at + 3]);
    }

    private static (int Left, int Right, int Top, int Bottom) Frame(Picture picture)
    {
        var seen = Enumerable.Range(0, picture.Width * picture.Height).Where(i => picture.Rgba[(4 * i) + 3] > 0).Select(i => (X: i % picture.Width, Y: i / picture.Width)).ToList();
        return (seen.Min(p => p.X), seen.Max(p => p.X), seen.Min(p => p.Y), seen.Max(p => p.Y));
    }

    private static EqualityComparer<(double, double)> Within(double tolerance) =>
        EqualityComparer<(double, double)>.Create((a, b) => Math.Abs(a.Item1 - b.Item1) <= tolerance && Math.Abs(a.Item2 - b.Item2) <= tolerance);
}
