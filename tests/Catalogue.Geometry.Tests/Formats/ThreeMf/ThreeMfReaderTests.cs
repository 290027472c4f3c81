using System.Text;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.ThreeMf;

public sealed class ThreeMfReaderTests
{
    private const double Volume = 1000 / 6.0;

    [Fact]
    public void A_build_item_gives_its_object()
    {
        var file = Package.Of($"<object id=\"7\" name=\"left &amp; right\">{Package.TetrahedronMesh}</object>", "<item objectid=\"7\"/>").Read();
        Assert.Equal(MeshFormat.ThreeMf, file.Format);
        Assert.True(file.UnitStated);
        Assert.Empty(file.Warnings);
        var item = Assert.Single(file.Items);
        Assert.Equal("left & right", item.Name);
        Assert.Equal(Volume, VolumeOf(item), 1e-4);
    }

    // Core 3.4: the six units; millimetres when none is given.
    [Theory]
    [InlineData("", 1), InlineData("unit=\"micron\"", 0.001), InlineData("unit=\"millimeter\"", 1), InlineData("unit=\"centimeter\"", 10)]
    [InlineData("unit=\"inch\"", 25.4), InlineData("unit=\"foot\"", 304.8), InlineData("unit=\"meter\"", 1000)]
    public void Units_and_shifts_are_turned_into_millimetres(string unit, double factor)
    {
        var mesh = Package.Tetrahedron("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 5 0 0\"/>", unit).Read().Items[0].Mesh;
        Assert.Equal(5 * factor, mesh.Bounds.Min.X, 1e-4 * factor);
        Assert.Equal(15 * factor, mesh.Bounds.Max.X, 1e-4 * factor);
    }

    [Fact]
    public void A_unit_asked_for_does_not_overrule_the_file()
    {
        var file = Reading.Bytes(Package.Tetrahedron().ToBytes(), new MeshReadOptions { Unit = LengthUnit.Inch });
        Assert.Equal(10, file.Items[0].Mesh.Bounds.Size.X);
        Assert.Equal(LengthUnit.Millimetre, file.Unit);
        Assert.Single(file.Warnings);
    }

    // Core 3.3: points are rows, so the first three numbers say where the x axis goes.
    [Fact]
    public void A_transform_says_where_the_axes_go()
    {
        var mesh = Package.Tetrahedron("<item objectid=\"1\" transform=\"0 2 0 -3 0 0 0 0 1 100 200 300\"/>").Read().Items[0].Mesh;
        Assert.Equal(new Vec3(70, 200, 300), mesh.Bounds.Min);
        Assert.Equal(new Vec3(100, 220, 310), mesh.Bounds.Max);
        Assert.Equal(6 * Volume, MeshMeasures.Of(mesh).VolumeMm3, 1e-3);
    }

    // Core 3.3: with a negative determinant the volume must not change its sign.
    [Theory]
    [InlineData("-1 0 0 0 1 0 0 0 1 0 0 0"), InlineData("0 1 0 1 0 0 0 0 1 0 0 0"), InlineData("-1 0 0 0 -1 0 0 0 -1 5 5 5")]
    public void A_mirrored_item_keeps_its_volume(string transform)
    {
        var mesh = Package.Tetrahedron($"<item objectid=\"1\" transform=\"{transform}\"/>").Read().Items[0].Mesh;
        Assert.Equal(Volume, MeshMeasures.Of(mesh).VolumeMm3, 1e-4);
        Assert.Equal(ShellKind.Solid, MeshHealth.Of(mesh).Shells[0].Kind);
    }

    [Fact]
    public void A_mirror_in_a_mirror_is_none()
    {
        const string Mirror = "transform=\"-1 0 0 0 1 0 0 0 1 0 0 0\"";
        var mesh = Package.Of(
            $"<object id=\"1\">{Package.TetrahedronMesh}</object><object id=\"2\"><components><component objectid=\"1\" {Mirror}/><component objectid=\"1\"/></components></object>",
            $"<item objectid=\"2\" {Mirror}/>").Read().Items[0].Mesh;
        Assert.Equal(2 * Volume, MeshMeasures.Of(mesh).VolumeMm3, 1e-4);
        Assert.All(MeshHealth.Of(mesh).Shells, s => Assert.Equal(ShellKind.Solid, s.Kind));
        Assert.Equal((-10, 10), (mesh.Bounds.Min.X, mesh.Bounds.Max.X));
    }

    [Fact]
    public void Components_of_components_are_placed_in_turn()
    {
        var mesh = Package.Of(
            $"""
             <object id="1">{Package.TetrahedronMesh}</object>
             <object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 1 0 0"/></components></object>
             <object id="3"><components><component objectid="2" transform="0 1 0 -1 0 0 0 0 1 0 0 0"/></components></object>
             """,
            "<item objectid=\"3\" transform=\"1 0 0 0 1 0 0 0 1 0 0 7\"/>").Read().Items[0].Mesh;
        Assert.Equal(new Vec3(-10, 1, 7), mesh.Bounds.Min);
        Assert.Equal(new Vec3(0, 11, 17), mesh.Bounds.Max);
    }

    [Fact]
    public void Objects_of_another_part_are_found_in_their_own_unit()
    {
        var package = Package.Of(
            "<object id=\"1\"><components><component p:path=\"/3D/parts/other.model\" objectid=\"5\"/></components></object>",
            "<item objectid=\"1\"/><item p:path=\"/3D/parts/other.model\" objectid=\"5\"/>");
        package.With("3D/parts/other.model", $"<model unit=\"inch\" xmlns=\"{Package.Core}\"><resources><object id=\"5\" name=\"five\">{Package.TetrahedronMesh}</object></resources><build><item objectid=\"99\"/></build></model>");
        var file = package.Read();
        Assert.Equal(2, file.Items.Count);
        Assert.Equal([null, "five"], file.Items.Select(i => i.Name));
        Assert.All(file.Items, i => Assert.Equal(254, i.Mesh.Bounds.Size.X, 1e-4));
    }

    [Fact]
    public void A_path_in_another_part_is_refused()
    {
        var package = Package.Of("", "<item p:path=\"/3D/a.model\" objectid=\"1\"/>");
        package.With("3D/a.model", $"<model xmlns=\"{Package.Core}\" xmlns:p=\"{Package.Production}\"><resources><object id=\"1\"><components><component p:path=\"/3D/a.model\" objectid=\"1\"/></components></object></resources><build/></model>");
        package.Refused("nested-path");
    }

    [Fact]
    public void What_the_build_does_not_name_is_not_read_out()
    {
        var file = Package.Of($"<object id=\"1\">{Package.TetrahedronMesh}</object><object id=\"2\"><mesh/></object>", "<item objectid=\"1\"/>").Read();
        Assert.Single(file.Items);
    }

    [Fact]
    public void Copies_share_their_triangles()
    {
        var file = Package.Tetrahedron("<item objectid=\"1\"/><item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 5 0 0\"/>").Read();
        Assert.True(file.Items[0].Mesh.Indices == file.Items[1].Mesh.Indices);
    }

    [Fact]
    public void Unknown_optional_markup_is_passed_over()
    {
        var file = Package.Of(
            $"<x:thing xmlns:x=\"urn:x\" id=\"1\"><object id=\"1\"/></x:thing><object id=\"1\" x:a=\"1\" xmlns:x=\"urn:x\">{Package.TetrahedronMesh}<x:more><mesh/></x:more></object>",
            "<item objectid=\"1\"/>").Read();
        Assert.Equal(4, file.Items[0].Mesh.TriangleCount);
    }

    [Theory]
    [InlineData("xmlns:x=\"urn:unknown\" requiredextensions=\"x\"")]
    [InlineData("requiredextensions=\"undeclared\"")]
    [InlineData("xmlns:b=\"http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02\" requiredextensions=\"p b\"")]
    public void An_unknown_required_extension_is_refused(string attributes) => Package.Tetrahedron(attributes: attributes).Refused("unsupported-extension");

    [Theory]
    [InlineData("requiredextensions=\"p\"")]
    [InlineData("xmlns:m=\"http://schemas.microsoft.com/3dmanufacturing/material/2015/02\" requiredextensions=\"  p\n m \"")]
    public void A_known_required_extension_is_not(string attributes) => Assert.Single(Package.Tetrahedron(attributes: attributes).Read().Items);

    [Fact]
    public void A_long_name_is_cut_between_characters_and_never_inside_one()
    {
        // The 80th UTF-16 unit is the first half of a lamp.
        var unit = new string('u', 79) + "\U0001F4A1 and more";
        var error = Package.Tetrahedron(attributes: $"unit=\"{unit}\"").Refused("bad-unit");
        Assert.Contains($"\"{new string('u', 79)}…\" is no unit", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Supports_are_left_out_and_surfaces_pointed_out()
    {
        var file = Package.Of(
            $"""
             <object id="1" type="support">{Package.TetrahedronMesh}</object><object id="2" type="surface">{Package.TetrahedronMesh}</object>
             <object id="3"><components><component objectid="1"/><component objectid="2"/></components></object>
             """,
            "<item objectid=\"3\"/>").Read();
        Assert.Equal(4, file.Items[0].Mesh.TriangleCount);
        Assert.Equal(["Supports in the 3MF file are left out.", "The 3MF file builds a surface, which need not enclose anything."], file.Warned());
    }

    [Fact]
    public void Vertices_at_the_same_place_are_merged()
    {
        var mesh = Package.Of(
            """<object id="1"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/><vertex x="-0" y="0" z="0.0"/></vertices><triangles><triangle v1="0" v2="1" v3="2"/><triangle v1="3" v2="1" v3="2"/></triangles></mesh></object>""",
            "<item objectid=\"1\"/>").Read().Items[0].Mesh;
        Assert.Equal(3, mesh.VertexCount);
        Assert.Equal([0, 1, 2, 0, 1, 2], mesh.Indices.ToArray());
    }

    [Fact]
    public void A_stream_that_cannot_seek_is_read_the_same()
    {
        var file = MeshFileReader.Read(new Reading.Trickle(Package.Tetrahedron().ToBytes(), 100));
        Assert.Equal(4, file.Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void A_package_that_does_not_start_at_the_streams_start_is_read_the_same()
    {
        byte[] bytes = [1, 2, 3, .. Package.Tetrahedron().ToBytes()];
        Assert.Single(MeshFileReader.Read(new MemoryStream(bytes) { Position = 3 }).Items);
    }

    [Theory]
    [InlineData("<item objectid=\"2\"/>", "unknown-object")]
    [InlineData("<item/>", "bad-id")]
    [InlineData("<item objectid=\"0\"/>", "bad-id")]
    [InlineData("<item objectid=\"99999999999\"/>", "bad-id")]
    [InlineData("<item objectid=\"1\" transform=\"1 0 0\"/>", "bad-transform")]
    [InlineData("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 0 0 0 0\"/>", "bad-transform")]
    [InlineData("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 0 0 x\"/>", "bad-transform")]
    [InlineData("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1e999 0 0 0\"/>", "bad-transform")]
    [InlineData("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 0 0 0 0\"/>", "bad-transform")]
    [InlineData("<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 1e30 0 0\"/>", "too-large")]
    [InlineData("<item objectid=\"1\" p:path=\"/3D/none.model\"/>", "missing-part")]
    [InlineData("<item objectid=\"1\" p:path=\"/../../etc/passwd\"/>", "outside-package")]
    [InlineData("", "empty")]
    public void A_build_that_cannot_be_done_is_refused(string build, string code) => Package.Tetrahedron(build).Refused(code);

    [Theory]
    [InlineData("<vertex x=\"0\" y=\"0\" z=\"0\"/>", "<vertex x=\"0\" y=\"0\"/>", "bad-vertex")]
    [InlineData("<vertex x=\"0\" y=\"0\" z=\"0\"/>", "<vertex x=\"0,5\" y=\"0\" z=\"0\"/>", "bad-number")]
    [InlineData("<vertex x=\"0\" y=\"0\" z=\"0\"/>", "<vertex x=\"\" y=\"0\" z=\"0\"/>", "bad-number")]
    [InlineData("<vertex x=\"0\" y=\"0\" z=\"0\"/>", "<vertex x=\"nan\" y=\"0\" z=\"0\"/>", "bad-number")]
    [InlineData("<vertex x=\"0\" y=\"0\" z=\"0\"/>", "<vertex x=\"1e30\" y=\"0\" z=\"0\"/>", "too-large")]
    [InlineData("<vertex x=\"0\" y=\"0\" z=\"0\"/>", "<vertex x=\"1e999\" y=\"0\" z=\"0\"/>", "not-finite")]
    [InlineData("v1=\"0\"", "v1=\"4\"", "bad-index")]
    [InlineData("v1=\"0\"", "v1=\"-1\"", "bad-index")]
    [InlineData("v1=\"0\"", "v1=\"4294967296\"", "bad-index")]
    [InlineData("v1=\"0\"", "", "bad-triangle")]
    [InlineData("<mesh>", "<mesh xml:space=\"preserve\">", "xml-space")]
    [InlineData("</mesh>", "", "bad-xml")]
    [InlineData("</mesh>", "&undefined;</mesh>", "bad-xml")]
    public void A_mesh_that_cannot_be_understood_is_refused(string old, string now, string code)
    {
        var mesh = Package.TetrahedronMesh;
        var at = mesh.IndexOf(old, StringComparison.Ordinal);
        Package.Of($"<object id=\"1\">{mesh[..at]}{now}{mesh[(at + old.Length)..]}</object>", "<item objectid=\"1\"/>").Refused(code);
    }

    [Theory]
    [InlineData("<object id=\"1\" type=\"other\">", "not-buildable")]
    [InlineData("<object id=\"1\" type=\"banana\">", "bad-object-type")]
    [InlineData("<object id=\"1\" pindex=\"0\">", "missing-pid")]
    [InlineData("<object>", "bad-id")]
    [InlineData("<basematerials id=\"1\"/><object id=\"1\">", "duplicate-id")]
    public void An_object_against_the_rules_is_refused(string start, string code) =>
        Package.Of($"{start}{Package.TetrahedronMesh}</object>", "<item objectid=\"1\"/>").Refused(code);

    [Fact]
    public void Objects_that_contain_each_other_in_a_circle_are_refused() => Package.Of(
        "<object id=\"1\"><components><component objectid=\"2\"/></components></object><object id=\"2\"><components><component objectid=\"1\"/></components></object>",
        "<item objectid=\"1\"/>").Refused("too-deep");

    [Fact]
    public void Objects_that_double_at_every_level_are_refused_before_they_fill_the_memory()
    {
        var resources = new StringBuilder($"<object id=\"1\">{Package.TetrahedronMesh}</object>");
        for (var i = 2; i < 32; i++) resources.Append(FormattableString.Invariant($"<object id=\"{i}\"><components><component objectid=\"{i - 1}\"/><component objectid=\"{i - 1}\"/></components></object>"));
        Package.Of(resources.ToString(), "<item objectid=\"31\"/>").Refused("unfolds-too-large");
    }

    [Fact]
    public void Many_copies_of_a_large_part_are_refused_before_they_fill_the_memory()
    {
        var sphere = new StringBuilder("<mesh><vertices>");
        var mesh = Solids.Icosphere(10, 4);
        for (var i = 0; i < mesh.VertexCount; i++) sphere.Append(FormattableString.Invariant($"<vertex x=\"{mesh.Vertex(i).X}\" y=\"{mesh.Vertex(i).Y}\" z=\"{mesh.Vertex(i).Z}\"/>"));
        sphere.Append("</vertices><triangles>");
        for (var i = 0; i < mesh.Indices.Length; i += 3) sphere.Append(FormattableString.Invariant($"<triangle v1=\"{mesh.Indices[i]}\" v2=\"{mesh.Indices[i + 1]}\" v3=\"{mesh.Indices[i + 2]}\"/>"));
        sphere.Append("</triangles></mesh>");
        var items = string.Concat(Enumerable.Range(0, 3000).Select(i => $"<item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 {i} 0 0\"/>"));
        Package.Of($"<object id=\"1\">{sphere}</object>", items).Refused("unfolds-too-large");
    }

    [Fact]
    public void More_triangles_than_allowed_are_refused()
    {
        var bytes = Package.Tetrahedron("<item objectid=\"1\"/><item objectid=\"1\"/>").ToBytes();
        var error = Assert.Throws<MeshFormatException>(() => Reading.Bytes(bytes, new MeshReadOptions { MaxTriangles = 7 }));
        Assert.Equal("too-many-triangles", error.Code);
        error = Assert.Throws<MeshFormatException>(() => Reading.Bytes(bytes, new MeshReadOptions { MaxTriangles = 3 }));
        Assert.Equal("too-many-triangles", error.Code);
    }

    private static double VolumeOf(MeshItem item) => MeshMeasures.Of(item.Mesh).VolumeMm3;
}
