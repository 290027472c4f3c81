using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Spatial;

public sealed class SolidColumnsTests
{
    private static readonly Rotation Askew = Rotation.About(new(1, 2, 3), 0.7);

    private static SolidColumns Of(TriangleMesh mesh, double pitch, Rotation? rotation = null) => SolidColumns.Of(mesh, rotation ?? Rotation.Identity, pitch);

    // Volumes in closed form: 4/3 π r³, 2 π² R r² (trade tables), a · b · c.
    [Theory, InlineData("ball", 0), InlineData("ball", 1), InlineData("ring", 0), InlineData("ring", 1), InlineData("box", 1), InlineData("prism", 0), InlineData("prism", 1)]
    public void The_volume_of_the_stretches_converges_to_that_of_the_mesh(string name, int turned)
    {
        var mesh = name switch
        {
            "ball" => Solids.Icosphere(10, 5),
            "ring" => Solids.Torus(20, 5, 200, 80),
            "prism" => Solids.Cylinder(8, 12, 31),
            _ => Solids.Box(7, 11, 13),
        };
        var exact = MeshMeasures.Of(mesh).VolumeMm3;
        double Error(double pitch) => Math.Abs((Of(mesh, pitch, turned == 0 ? null : Askew).VolumeMm3() / exact) - 1);
        Assert.InRange(Error(1), 0, 0.04);
        Assert.InRange(Error(0.25), 0, 0.004);
        Assert.InRange(Error(0.0625), 0, 0.0006);
    }

    [Fact]
    public void A_box_along_the_grid_is_exact_in_height_and_within_half_a_pitch_at_its_rim()
    {
        var columns = Of(Solids.Box(10, 20, 5), 0.5);
        Assert.Equal(5, columns.HeightMm, 5);
        for (var c = 0; c < columns.Width * columns.Depth; c++)
            foreach (var span in columns.Spans(c)) Assert.Equal(new SolidSpan(0, 5), span);
        Assert.InRange(columns.VolumeMm3(), 1000 - (60 * 0.25 * 5), 1000 + (60 * 0.25 * 5));
    }

    [Fact]
    public void A_void_in_a_void_leaves_an_island()
    {
        var mesh = Solids.Together(Solids.Icosphere(10, 4), Solids.Inverted(Solids.Icosphere(7, 4)), Solids.Icosphere(4, 4), Solids.Inverted(Solids.Icosphere(2, 4)));
        var columns = Of(mesh, 0.2, Askew);
        var (i, j) = columns.Nearest(0, 0);
        var spans = columns.Spans(i, j);
        Assert.Equal(4, spans.Length);
        Assert.Equal(3, spans[0].Length, 1);
        Assert.Equal(2, spans[1].Length, 1);
        Assert.InRange(columns.VolumeMm3() / MeshMeasures.Of(mesh).VolumeMm3, 0.997, 1.003);
        Assert.False(columns.ByParity);
        Assert.Equal(0, columns.OpenColumns);
    }

    [Theory, InlineData(0), InlineData(1)]
    public void Boxes_that_share_a_face_are_one_stretch(int turned)
    {
        // The faces that touch are cut into triangles differently, so turning rounds them differently.
        var mesh = Solids.Together(Solids.Box(10, 10, 5), Shapes.Subdivided(Solids.Box(10, 10, 5)).Transformed(Rotation.Identity, new(0, 0, 5)));
        var columns = turned == 0 ? Of(mesh, 0.3) : Of(mesh.Transformed(Askew), 0.3, Askew.Inverse());
        Assert.All(Enumerable.Range(0, columns.Width * columns.Depth), c => Assert.InRange(columns.Spans(c).Length, 0, 1));
        Assert.InRange(columns.VolumeMm3(), 940, 1060);
    }

    [Fact]
    public void Where_pieces_overlap_the_material_counts_once()
    {
        var mesh = Solids.Together(Solids.Box(10, 10, 10), Solids.Box(10, 10, 10).Transformed(Rotation.Identity, new(0, 0, 6)), Solids.Icosphere(3, 4, new(5, 5, 8)));
        Assert.InRange(Of(mesh, 0.1, Askew).VolumeMm3(), 1600 * 0.998, 1600 * 1.002);
    }

    [Fact]
    public void A_part_that_is_inside_out_is_read_as_meant()
    {
        var mesh = Solids.Inverted(Solids.Together(Solids.Icosphere(10, 4), Solids.Inverted(Solids.Icosphere(7, 4))));
        Assert.InRange(Of(mesh, 0.2).VolumeMm3() / -MeshMeasures.Of(mesh).VolumeMm3, 0.997, 1.003);
    }

    [Fact]
    public void When_normals_disagree_crossings_are_counted()
    {
        var ball = Solids.Icosphere(10, 3);
        var corners = ball.Indices.ToArray();
        for (var t = 0; t < corners.Length; t += 9) (corners[t], corners[t + 1]) = (corners[t + 1], corners[t]);
        var columns = Of(new(ball.Positions.ToArray(), corners), 0.25);
        Assert.True(columns.ByParity);
        Assert.Equal(0, columns.OpenColumns);
        Assert.InRange(columns.VolumeMm3() / MeshMeasures.Of(ball).VolumeMm3, 0.99, 1.01);
    }

    [Fact]
    public void An_open_surface_is_told()
    {
        var box = Solids.Box(10, 10, 10);
        Assert.True(Of(new(box.Positions.ToArray(), box.Indices[6..].ToArray()), 0.5).OpenColumns > 0);
    }

    [Fact]
    public void A_surface_that_lies_on_the_columns_leaves_no_column_odd()
    {
        // Corners of the grid's own cells: whole walls, edges and corners fall on rows and columns of a grid of the same pitch.
        foreach (var offset in new[] { 0.0, 0.25, 0.0173 * 0.5, 1.7 * 0.0173 * 0.5 })
        {
            var stairs = Solids.Together([.. Enumerable.Range(0, 8).Select(k => Shapes.Subdivided(Solids.Box(0.5 * (k + 1), 0.5 * (8 - k), 0.5)
                .Transformed(Rotation.Identity, new(offset, offset, 0.5 * k))))]);
            var columns = Of(stairs, 0.5);
            Assert.False(columns.ByParity);
            Assert.Equal(0, columns.OpenColumns);
        }
    }

    [Fact]
    public void Any_solid_in_any_pose_is_as_heavy_as_its_mesh_and_has_no_odd_column() =>
        Gen.Select(AnyMesh.Solid, AnyMesh.Turn, AnyMesh.Shift).Sample((solid, turn, shift) =>
        {
            var mesh = solid.Transformed(Rotation.Identity, shift);
            var size = mesh.Bounds.Size;
            var columns = Of(mesh, Math.Min(size.X, Math.Min(size.Y, size.Z)) / 40, turn);
            Assert.False(columns.ByParity);
            Assert.Equal(0, columns.OpenColumns);
            var exact = MeshMeasures.Of(mesh);
            // Half a pitch of rim at worst, when walls stand along the grid.
            Assert.InRange(columns.VolumeMm3(), exact.VolumeMm3 - (0.5 * columns.PitchMm * exact.AreaMm2), exact.VolumeMm3 + (0.5 * columns.PitchMm * exact.AreaMm2));
        }, iter: 200);

    [Fact]
    public void Turning_mesh_and_pose_together_changes_nothing()
    {
        var mesh = Shapes.Knobbly(100, 40);
        var once = Of(mesh, 0.5);
        var turned = Of(mesh.Transformed(Askew), 0.5, Askew.Inverse());
        Assert.Equal((once.Width, once.Depth), (turned.Width, turned.Depth));
        Assert.Equal(once.VolumeMm3(), turned.VolumeMm3(), 0.001 * once.VolumeMm3());
        var column = Enumerable.Range(0, once.Width * once.Depth).MaxBy(c => once.Spans(c).Length);
        var (i, j) = (column % once.Width, column / once.Width);
        var a = once.Spans(i, j);
        var b = turned.Spans(i, j);
        Assert.Equal(a.Length, b.Length);
        Assert.True(a.Length > 0);
        for (var k = 0; k < a.Length; k++) Assert.Equal(a[k].Top, b[k].Top, 0.001);
        var there = turned.At(i, j, b[0].Top);
        Assert.InRange(Vec3.Distance(Askew.Apply(once.At(i, j, a[0].Top)), there), 0, 0.001);
    }

    [Fact]
    public void Cutting_triangles_finer_changes_nothing_but_rounding()
    {
        var mesh = Shapes.Knobbly(60, 30);
        Assert.Equal(Of(mesh, 0.3, Askew).VolumeMm3(), Of(Shapes.Subdivided(mesh), 0.3, Askew).VolumeMm3(), 0.1);
    }

    [Fact]
    public void The_pitch_grows_until_the_budget_holds()
    {
        var columns = SolidColumns.Of(Solids.Icosphere(10, 3), Rotation.Identity, 1e-6, new(10_000, 100_000));
        Assert.InRange(columns.Width * columns.Depth, 5_000, 10_000);
        columns = SolidColumns.Of(Solids.Icosphere(10, 3), Rotation.Identity, 1e-6, new(1_000_000, 5_000));
        Assert.InRange(columns.SpanCount, 1_000, 3_000);
        // A needle far longer than wide.
        columns = SolidColumns.Of(Solids.Box(0.001, 200, 1), Askew, 1e-6, new(10_000, 100_000));
        Assert.InRange(columns.Width * columns.Depth, 1, 10_000);
    }

    [Fact]
    public void Nothing_has_no_columns_of_material()
    {
        Assert.Equal(0, Of(new([], []), 1).SpanCount);
        Assert.Equal(0, Of(new([0, 0, 0, 1, 0, 0, 0, 1, 0], [0, 1, 2, 2, 1, 0]), 0.1).SpanCount);
    }
}
