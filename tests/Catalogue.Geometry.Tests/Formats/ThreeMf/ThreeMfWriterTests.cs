using System.IO.Compression;
using System.Xml.Linq;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.ThreeMf;

public sealed class ThreeMfWriterTests
{
    private static readonly ThreeMfObject Ball = new("ball <\"&'> ä\u0001", Solids.Icosphere(7.3, 3));
    private static readonly ThreeMfObject Box = new("box", Solids.Box(1, 2, 3));

    [Fact]
    public void What_is_written_is_read_back_bit_for_bit()
    {
        var file = Reading.Bytes(Written([Ball, Box], [ThreeMfPlacement.AsIs(1), ThreeMfPlacement.AsIs(0)]));
        Assert.Equal(["box", "ball <\"&'> ä"], file.Items.Select(i => i.Name));
        Assert.Equal(Ball.Mesh.Positions, file.Items[1].Mesh.Positions);
        Assert.Equal(Ball.Mesh.Indices, file.Items[1].Mesh.Indices);
    }

    [Fact]
    public void A_placed_copy_lies_where_it_was_placed()
    {
        var turn = Rotation.About(new Vec3(1, 2, 3), 0.7);
        var shift = new Vec3(100, 50, 3.25);
        var file = Reading.Bytes(Written([Ball], [new(0, turn, shift, "copy 1")]));
        var expected = Ball.Mesh.Transformed(turn, shift);
        for (var i = 0; i < expected.VertexCount; i++)
            Assert.Equal(0, Vec3.Distance(expected.Vertex(i), file.Items[0].Mesh.Vertex(i)), 1e-5);
    }

    [Fact]
    public void The_same_input_gives_the_same_bytes() =>
        Assert.Equal(Written([Ball, Box], [ThreeMfPlacement.AsIs(0)]), Written([Ball, Box], [ThreeMfPlacement.AsIs(0)]));

    // Core 4.1.4.1: the three indices are distinct.
    [Fact]
    public void Triangles_with_a_repeated_corner_are_left_out()
    {
        var mesh = new TriangleMesh(Box.Mesh.Positions.ToArray(), [.. Box.Mesh.Indices, 1, 1, 2]);
        Assert.Equal(12, Reading.Bytes(Written([new("b", mesh)], [ThreeMfPlacement.AsIs(0)])).Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void Metadata_of_the_core_is_written_and_no_other()
    {
        var metadata = new Dictionary<string, string> { ["Title"] = "A & B", ["LicenseTerms"] = "CC0-1.0" };
        using var zip = new ZipArchive(new MemoryStream(Written([Box], [], metadata)));
        using var model = zip.GetEntry("3D/3dmodel.model")!.Open();
        var root = XDocument.Load(model).Root!;
        XNamespace core = Package.Core;
        Assert.Equal(["Title: A & B", "LicenseTerms: CC0-1.0"], root.Elements(core + "metadata").Select(e => $"{e.Attribute("name")!.Value}: {e.Value}"));
        Assert.Equal("millimeter", root.Attribute("unit")!.Value);
        Assert.Throws<ArgumentException>(() => Written([Box], [], new Dictionary<string, string> { ["Colour"] = "red" }));
    }

    [Fact]
    public void What_cannot_be_right_is_not_written()
    {
        Assert.Throws<ArgumentException>(() => Written([], []));
        Assert.Throws<ArgumentException>(() => Written([Box], [ThreeMfPlacement.AsIs(1)]));
        Assert.Throws<ArgumentException>(() => Written([new("sheet", new TriangleMesh([0, 0, 0, 1, 0, 0, 0, 1, 0], [0, 1, 2]))], []));
    }

    private static byte[] Written(IReadOnlyList<ThreeMfObject> objects, IReadOnlyList<ThreeMfPlacement> placements, IReadOnlyDictionary<string, string>? metadata = null)
    {
        var stream = new MemoryStream();
        ThreeMfWriter.Write(stream, objects, placements, metadata);
        return stream.ToArray();
    }
}
