using System.Text;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Measures;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.Obj;

public sealed class ObjReaderTests
{
    private const string Corners = "v 0 0 0\nv 10 0 0\nv 10 10 0\nv 0 10 0\n";

    [Fact]
    public void A_face_gives_its_triangles_and_the_first_object_its_name()
    {
        var file = Reading.Text($"# by hand\no left  arm\n{Corners}f 1 2 3 4\no right arm\n");
        Assert.Equal(MeshFormat.Obj, file.Format);
        Assert.Equal("left arm", file.Items[0].Name);
        Assert.Equal((2, 4), (file.Items[0].Mesh.TriangleCount, file.Items[0].Mesh.VertexCount));
        Assert.Equal(100, MeshMeasures.Of(file.Items[0].Mesh).AreaMm2);
    }

    [Theory]
    [InlineData("f 1/5/9 2/6/10 3/7/11"), InlineData("f 1//9 2//10 3//11"), InlineData("f 1/5 2/6 3/7"), InlineData("f -4 -3 -2"), InlineData("f +1 2 3 # corner")]
    [InlineData("f 1 \\\n2 \\\r\n 3"), InlineData("f 1\\\n 2 3"), InlineData("   f\t1   2\t3  "), InlineData("fo 1 2 3")]
    public void References_may_be_written_in_any_of_the_ways(string face)
    {
        var mesh = Reading.Text(Corners + face).Items[0].Mesh;
        Assert.Equal([0, 1, 2], mesh.Indices.ToArray());
        Assert.Equal(10, mesh.Vertex(2).Y);
    }

    [Fact]
    public void A_vertex_may_follow_its_face() => Assert.Equal(2, Reading.Text($"f 1 2 3 4\n{Corners}").Items[0].Mesh.TriangleCount);

    [Fact]
    public void A_backslash_ends_a_comment_like_anything_else() =>
        Assert.Equal(3, Reading.Text("# C:\\models\\\nv 0 0 0\nv 10 0 0\nv 10 10 0\nf 1 2 3").Items[0].Mesh.VertexCount);

    [Theory]
    [InlineData("f 0 1 2", "bad-index"), InlineData("f 1 2 5", "bad-index"), InlineData("f 1 2 -5", "bad-index"), InlineData("f 1 2 99999999999999999999", "bad-index")]
    [InlineData("f 1 2 a", "bad-face"), InlineData("f 1 2 1.5", "bad-face"), InlineData("f 1 2 /3", "bad-face"), InlineData("f 1 2 --3", "bad-face")]
    [InlineData("f 1 2", "bad-face"), InlineData("f", "bad-face")]
    public void A_face_that_cannot_be_understood_is_refused_with_its_line(string face, string code) =>
        Assert.Contains("Line 5", Reading.Refused(Corners + face, code).Message, StringComparison.Ordinal);

    [Theory, InlineData("v 1 2", "bad-number"), InlineData("v 1 2 x", "bad-number"), InlineData("v 1,5 2 3", "bad-number"), InlineData("v nan 0 0", "not-finite"), InlineData("v 1e30 0 0", "too-large")]
    public void A_vertex_that_cannot_be_read_matters_only_when_a_face_uses_it(string vertex, string code)
    {
        Assert.Equal(1, Reading.Text($"{Corners}{vertex}\nf 1 2 3").Items[0].Mesh.TriangleCount);
        Reading.Refused($"{Corners}{vertex}\nf 1 2 5", code);
    }

    [Fact]
    public void Weights_and_colours_behind_a_vertex_are_passed_over() =>
        Assert.Equal(3, Reading.Text("v 0 0 0 1.0\nv 1 0 0 0.2 0.3 0.4\nv 0 1 0\nf 1 2 3").Items[0].Mesh.VertexCount);

    [Theory, InlineData("v 0 0 0\n", "empty"), InlineData("# nothing\n", "not-a-mesh"), InlineData("o name\ng group\n", "not-a-mesh")]
    public void A_text_without_faces_is_refused(string text, string code) => Reading.Refused(text, code);

    [Fact]
    public void Lines_points_and_free_form_surfaces_are_left_out_with_a_warning()
    {
        var file = Reading.Text($"{Corners}f 1 2 3\nl 1 2\np 1\ncstype bspline\ncurv 0 1 1 2\n");
        Assert.Equal(2, file.Warned().Count(w => w.Contains("not read", StringComparison.Ordinal)));
    }

    [Theory, InlineData(true), InlineData(false)]
    public void Text_of_two_bytes_a_character_will_do(bool bigEndian)
    {
        var encoding = new UnicodeEncoding(bigEndian, true);
        byte[] bytes = [.. encoding.GetPreamble(), .. encoding.GetBytes($"{Corners}f 1 2 3")];
        Assert.Equal(1, Reading.Bytes(bytes).Items[0].Mesh.TriangleCount);
        Assert.Equal(1, Reading.Text($"\uFEFF{Corners}f 1 2 3").Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void A_line_of_a_megabyte_will_do()
    {
        var text = new StringBuilder(Corners);
        text.Append("usemtl ").Append('x', 1 << 20).Append('\n');
        text.Append("g ").Append(string.Join(' ', Enumerable.Repeat("word", 1 << 18))).Append("\nf 1 2 3\n");
        Assert.Equal(1, Reading.Text(text.ToString()).Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void A_polygon_of_many_corners_is_cut_whole()
    {
        const int N = 20_000;
        var text = new StringBuilder();
        for (var i = 0; i < N; i++)
        {
            // A star with N / 2 spikes: every second corner is reflex.
            var (s, c) = Math.SinCos(2 * Math.PI * i / N);
            var r = i % 2 == 0 ? 100 : 90;
            text.Append(FormattableString.Invariant($"v {r * c} {r * s} 5\n"));
        }

        text.Append('f');
        for (var i = 1; i <= N; i++) text.Append(' ').Append(i);
        var file = Reading.Text(text.ToString());
        Assert.Empty(file.Warnings);
        Assert.Equal(N - 2, file.Items[0].Mesh.TriangleCount);
        Assert.Equal(N * 100 * 90 * Math.Sin(2 * Math.PI / N) / 2, MeshMeasures.Of(file.Items[0].Mesh).AreaMm2, 0.01);
    }

    [Fact]
    public void A_polygon_of_more_corners_than_any_real_one_is_refused() =>
        Reading.Refused($"{Corners}f {string.Join(' ', Enumerable.Repeat("1 2 3 4", 20_000))}", "too-many-corners");

    [Fact]
    public void A_polygon_that_crosses_itself_is_cut_with_a_warning()
    {
        var file = Reading.Text("v 0 0 0\nv 10 10 0\nv 10 0 0\nv 0 10 0\nf 1 2 3 4");
        Assert.Equal(2, file.Items[0].Mesh.TriangleCount);
        Assert.Contains("cross", Assert.Single(file.Warned()), StringComparison.Ordinal);
    }

    [Fact]
    public void More_triangles_than_allowed_are_refused()
    {
        var error = Assert.Throws<MeshFormatException>(() => Reading.Text($"{Corners}f 1 2 3 4\n", new MeshReadOptions { MaxTriangles = 1 }));
        Assert.Equal("too-many-triangles", error.Code);
    }

    // Counted by eye: six quads; one quad given twice in a long line of repeats; one triangle each.
    [Theory]
    [InlineData("mesh/obj/box.obj", 12, 8), InlineData("mesh/obj/box_UTF16BE.obj", 12, 8)]
    [InlineData("mesh/obj/multiple_spaces.obj", 1, 3), InlineData("mesh/obj/number_formats.obj", 1, 3)]
    public void The_awkward_public_samples_are_read(string path, int triangles, int vertices)
    {
        var mesh = Reading.Sample(path).Items[0].Mesh;
        Assert.Equal((triangles, vertices), (mesh.TriangleCount, mesh.VertexCount));
    }

    [Fact]
    public void The_public_sample_with_a_very_long_line_is_read()
    {
        var mesh = Reading.Sample("mesh/obj/box_longline.obj").Items[0].Mesh;
        Assert.Equal(8, mesh.VertexCount);
        Assert.Equal(1, mesh.Bounds.Size.X);
    }

    [Fact]
    public void The_public_sample_with_a_concave_polygon_is_cut_without_overlap()
    {
        var file = Reading.Sample("mesh/obj/concave_polygon.obj");
        Assert.DoesNotContain(file.Warned(), w => w.Contains("cross", StringComparison.Ordinal));
        var mesh = file.Items[0].Mesh;

        // All corners lie in one plane, so the areas of triangles that do not overlap add up to that of their common normal.
        var normal = Catalogue.Geometry.Meshes.Vec3.Zero;
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            normal += Catalogue.Geometry.Meshes.Vec3.Cross(b - a, c - a);
        }

        Assert.Equal(normal.Length / 2, MeshMeasures.Of(mesh).AreaMm2, 1e-6);
    }

    [Theory, InlineData("mesh/invalid/empty.obj", "empty"), InlineData("mesh/invalid/malformed2.obj", "bad-face")]
    public void The_broken_public_samples_are_refused(string path, string code)
    {
        var error = Assert.Throws<MeshFormatException>(() => Reading.Sample(path));
        Assert.Equal(code, error.Code);
    }
}
