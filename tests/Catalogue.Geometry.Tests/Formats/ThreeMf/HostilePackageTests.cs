using System.Text;
using Catalogue.Geometry.Formats;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.ThreeMf;

public sealed class HostilePackageTests
{
    private static string Model(string inside) =>
        $"<model xmlns=\"{Package.Core}\"><resources>{inside}<object id=\"1\">{Package.TetrahedronMesh}</object></resources><build><item objectid=\"1\"/></build></model>";

    [Fact]
    public void A_zip_bomb_is_refused()
    {
        var bytes = new Package().With("3D/3dmodel.model", Model(new string(' ', 16 << 20))).ToBytes();
        Assert.InRange(bytes.Length, 0, 200 << 10);
        Reading.Refused(bytes, "bad-xml");
    }

    [Fact]
    public void A_zip_bomb_of_well_formed_markup_is_refused()
    {
        var text = new StringBuilder();
        for (var i = 0; i < 2_000_000; i++) text.Append("<a></a>");
        new Package().With("3D/3dmodel.model", Model(text.ToString())).Refused("unfolds-too-large");
    }

    [Fact]
    public void A_zip_bomb_of_triangles_is_refused()
    {
        var text = new StringBuilder("<object id=\"2\"><mesh><vertices><vertex x=\"0\" y=\"0\" z=\"0\"/></vertices><triangles>");
        for (var i = 0; i < 600_000; i++) text.Append("<triangle v1=\"0\" v2=\"0\" v3=\"0\"/>");
        text.Append("</triangles></mesh></object>");
        new Package().With("3D/3dmodel.model", Model(text.ToString())).Refused("unfolds-too-large");
    }

    // The classic entity bomb: the format forbids document type definitions altogether (core 2.3.2).
    [Fact]
    public void An_entity_bomb_is_refused() => new Package().With("3D/3dmodel.model", """
        <!DOCTYPE m [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;">]><model>&c;</model>
        """).Refused("dtd");

    [Fact]
    public void An_outside_entity_is_not_fetched() =>
        new Package().With("3D/3dmodel.model", "<!DOCTYPE m SYSTEM \"file:///etc/hostname\"><model/>").Refused("dtd");

    [Fact]
    public void Elements_nested_without_end_are_refused() =>
        new Package().With("3D/3dmodel.model", Model(string.Concat(Enumerable.Repeat("<a>", 100_000)))).Refused("too-deep");

    [Fact]
    public void An_attribute_without_end_is_refused() =>
        new Package().With("3D/3dmodel.model", Model($"<a b=\"{new string('x', 1 << 20)}\"/>")).Refused("bad-xml");

    [Fact]
    public void More_names_than_can_be_remembered_are_refused() =>
        new Package().With("3D/3dmodel.model", Model(string.Concat(Enumerable.Range(0, 100_000).Select(i => $"<a{i}/>")))).Refused("bad-xml");

    [Fact]
    public void Another_encoding_is_refused()
    {
        new Package().With("3D/3dmodel.model", Encoding.Unicode.GetPreamble().Concat(Encoding.Unicode.GetBytes(Model(""))).ToArray()).Refused("not-utf8");
        new Package().With("3D/3dmodel.model", "<?xml version=\"1.0\" encoding=\"iso-8859-1\"?>" + Model("")).Refused("not-utf8");
        new Package().With("3D/3dmodel.model", Encoding.Latin1.GetBytes(Model("<a b=\"größe\"/>"))).Refused("not-utf8");
    }

    [Fact]
    public void A_mark_at_the_start_is_no_harm() => Assert.Single(new Package().With("3D/3dmodel.model", "\uFEFF" + Model("")).Read().Items);

    [Fact]
    public void A_package_cut_short_is_refused()
    {
        var bytes = Package.Tetrahedron().ToBytes();
        for (var length = 4; length < bytes.Length; length += 7)
        {
            var error = Assert.Throws<MeshFormatException>(() => Reading.Bytes(bytes[..length]));
            Assert.Equal("bad-package", error.Code);
        }
    }

    [Fact]
    public void An_empty_package_has_no_model()
    {
        new Package().Without("_rels/.rels").Without("[Content_Types].xml").Refused("no-model");
        new Package().Without("_rels/.rels").Refused("no-model");
    }

    [Fact]
    public void Two_parts_of_one_name_are_refused() =>
        Package.Tetrahedron().Adding("3d/3DMODEL.model", Encoding.UTF8.GetBytes(Model(""))).Refused("duplicate-part");

    [Fact]
    public void A_model_outside_the_package_is_refused()
    {
        const string Start = "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r\" Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"";
        Package.Tetrahedron().With("_rels/.rels", $"{Start} TargetMode=\"External\" Target=\"http://127.0.0.1/x.model\"/></Relationships>").Refused("outside-package");
        Package.Tetrahedron().With("_rels/.rels", $"{Start} Target=\"../../x.model\"/></Relationships>").Refused("outside-package");
        Package.Tetrahedron().With("_rels/.rels", $"{Start} Target=\"/3D/y.model\"/></Relationships>").Refused("missing-part");
    }

    [Fact]
    public void A_relative_target_is_found() =>
        Assert.Single(Package.Tetrahedron().With("_rels/.rels", Package.Relationships(("3D/../3D/./3dmodel.model", "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"))).Read().Items);

    [Fact]
    public void Something_else_that_is_a_zip_file_is_told_so() =>
        Assert.Contains("no 3MF", new Package().Without("_rels/.rels").With("word/document.xml", "<a/>").Refused("no-model").Message, StringComparison.Ordinal);
}
