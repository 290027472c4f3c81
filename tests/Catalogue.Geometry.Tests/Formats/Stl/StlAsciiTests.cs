using System.Globalization;
using System.Text;
using Catalogue.Geometry.Formats;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.Stl;

public sealed class StlAsciiTests
{
    private const string Facet = "facet normal 0 0 1\n outer loop\n  vertex 0 0 0\n  vertex 10 0 0\n  vertex 0 12.5 0\n endloop\nendfacet\n";

    [Fact]
    public void A_solid_gives_its_triangles_and_its_name()
    {
        var file = Reading.Text($"solid left  upper arm\n{Facet}endsolid left upper arm\n");
        Assert.Equal(MeshFormat.StlAscii, file.Format);
        Assert.Equal("left upper arm", file.Items[0].Name);
        Assert.Equal(1, file.Items[0].Mesh.TriangleCount);
        Assert.Equal(12.5, file.Items[0].Mesh.Bounds.Size.Y);
        Assert.Empty(file.Warnings);
    }

    [Theory, InlineData("\n"), InlineData("\r\n"), InlineData("\r"), InlineData("\n\n\t ")]
    public void Any_line_end_will_do(string end)
    {
        var text = $"solid a b\n{Facet}{Facet}endsolid\n".Replace("\n", end, StringComparison.Ordinal);
        var file = Reading.Text(text);
        Assert.Equal("a b", file.Items[0].Name);
        Assert.Equal(2, file.Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void Everything_on_one_line_will_do()
    {
        var text = $"solid one line {Facet}{Facet}endsolid one solid two {Facet}endsolid".Replace('\n', ' ');
        Assert.Equal(3, Reading.Text(text).Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void Upper_case_will_do() =>
        Assert.Equal(1, Reading.Text($"SOLID X\n{Facet.ToUpperInvariant()}ENDSOLID X").Items[0].Mesh.TriangleCount);

    [Fact]
    public void Several_solids_are_one_mesh_and_empty_ones_do_not_matter() =>
        Assert.Equal(2, Reading.Text($"solid\nendsolid\nsolid b\n{Facet}endsolid b\nsolid c\n{Facet}endsolid").Items[0].Mesh.TriangleCount);

    [Theory, InlineData("de-DE"), InlineData("ar-SA"), InlineData("sv-SE")]
    public void The_machines_culture_does_not_matter(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            var text = Facet.Replace("12.5", "-1.25E+1", StringComparison.Ordinal);
            Assert.Equal(-12.5, Reading.Text($"solid\n{text}endsolid").Items[0].Mesh.Bounds.Min.Y);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("12,5"), InlineData("12.5mm"), InlineData("0x1p3"), InlineData("--1"), InlineData("."), InlineData("e5"), InlineData("1e")]
    public void What_is_not_a_number_is_refused_with_its_line(string number)
    {
        var error = Reading.Refused($"solid\n{Facet.Replace("12.5", number, StringComparison.Ordinal)}endsolid", "bad-number");
        Assert.Contains("Line 6", error.Message, StringComparison.Ordinal);
        Assert.Contains(number, error.Message, StringComparison.Ordinal);
    }

    [Theory, InlineData("nan"), InlineData("-NaN(ind)"), InlineData("inf"), InlineData("+Infinity"), InlineData("-1.#INF"), InlineData("1e400")]
    public void What_is_not_finite_is_refused(string number) =>
        Reading.Refused($"solid\n{Facet.Replace("12.5", number, StringComparison.Ordinal)}endsolid", "not-finite");

    [Fact]
    public void What_is_too_far_out_is_refused() =>
        Reading.Refused($"solid\n{Facet.Replace("12.5", "1e30", StringComparison.Ordinal)}endsolid", "too-large");

    [Fact]
    public void A_normal_may_be_anything_or_missing()
    {
        var text = Facet.Replace("normal 0 0 1", "normal nan -nan(ind) inf", StringComparison.Ordinal)
            + Facet.Replace(" normal 0 0 1", "", StringComparison.Ordinal);
        Assert.Equal(2, Reading.Text($"solid\n{text}endsolid").Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void A_text_that_ends_inside_a_facet_is_truncated() => Reading.Refused($"solid\n{Facet}{Facet[..^12]}", "truncated");

    [Fact]
    public void A_text_that_ends_between_facets_is_read_with_a_warning() =>
        Assert.Contains("endsolid", Reading.Text($"solid\n{Facet}").Warned()[0], StringComparison.Ordinal);

    [Theory, InlineData("  vertex 0 12.5 0\n", ""), InlineData("endloop", "vertex 1 1 1 endloop")]
    public void A_facet_has_three_corners(string old, string now) =>
        Reading.Refused($"solid\n{Facet.Replace(old, now, StringComparison.Ordinal)}endsolid", "bad-syntax");

    [Theory, InlineData(1, "a facet has one corner instead of three"), InlineData(2, "a facet has 2 corners instead of three")]
    public void What_is_wrong_in_a_line_keeps_its_words_and_its_line_apart(int corners, string what)
    {
        var vertices = string.Concat(Enumerable.Repeat("vertex 0 0 0\n", corners));
        var error = Reading.Refused($"solid\nfacet\n{vertices}endfacet\nendsolid", "bad-syntax");
        Assert.Equal("Line {0} of the STL text: {1}. Export the mesh again.", error.Said.Format);
        Assert.Equal(2, error.Said.GetArgument(0));
        Assert.Equal(what, FormattableString.Invariant(Assert.IsType<FormattableString>(error.Said.GetArgument(1), exactMatch: false)));
        Assert.Equal($"Line 2 of the STL text: {what}. Export the mesh again.", error.Message);
    }

    [Theory, InlineData("solid\nendsolid\n"), InlineData("solid gold\n"), InlineData("   \n ")]
    public void A_text_without_a_facet_is_empty(string text) => Reading.Refused(text, "empty");

    [Fact]
    public void Prose_is_not_a_mesh() => Reading.Refused("<html><body>404</body></html>", "not-a-mesh");

    [Fact]
    public void More_triangles_than_allowed_are_refused()
    {
        var error = Assert.Throws<MeshFormatException>(
            () => Reading.Text($"solid\n{Facet}{Facet}{Facet}endsolid", new MeshReadOptions { MaxTriangles = 2 }));
        Assert.Equal("too-many-triangles", error.Code);
    }

    [Fact]
    public void Text_of_two_bytes_a_character_will_do()
    {
        byte[] bytes = [0xFF, 0xFE, .. Encoding.Unicode.GetBytes($"solid größe\n{Facet}endsolid")];
        Assert.Equal("größe", Reading.Bytes(bytes).Items[0].Name);
    }

    [Fact]
    public void A_trickling_stream_is_read_the_same()
    {
        var text = new StringBuilder("solid many\n");
        for (var i = 0; i < 5000; i++) text.Append(Facet.Replace("12.5", i.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal));
        text.Append("endsolid");
        var mesh = MeshFileReader.Read(new Reading.Trickle(Encoding.UTF8.GetBytes(text.ToString()), 997)).Items[0].Mesh;
        Assert.Equal(5000, mesh.TriangleCount);
        Assert.Equal(4999, mesh.Bounds.Max.Y);
    }

    // Counts by eye: the public samples hold one facet, one facet and an empty solid, two facets.
    [Theory]
    [InlineData("mesh/stl/formatDetection", 1)]
    [InlineData("mesh/stl/triangle_with_empty_solid.stl", 1)]
    [InlineData("mesh/stl/triangle_with_two_solids.stl", 2)]
    public void The_awkward_public_samples_are_read(string path, int triangles)
    {
        var file = Reading.Sample(path);
        Assert.Equal(MeshFormat.StlAscii, file.Format);
        Assert.Equal(triangles, file.Items[0].Mesh.TriangleCount);
    }
}
