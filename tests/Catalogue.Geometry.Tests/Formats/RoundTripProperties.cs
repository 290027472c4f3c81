using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats;

/// <summary>Whatever is written is read back: the same corners, bit for bit, in the same order.</summary>
public sealed class RoundTripProperties
{
    /// <summary>Any coordinate the readers accept: small whole ones that meet often, any single-precision number up to the limit, the tiniest there are.</summary>
    private static readonly Gen<float> Coordinate = Gen.Frequency(
        (4, Gen.Int[-3, 3].Select(i => (float)i)),
        (4, Gen.Float[-200, 200]),
        (1, Gen.Float.Where(x => Math.Abs(x) <= 1e9f)),
        (1, Gen.Const(float.Epsilon)),
        (1, Gen.Const(-0f)));

    private static readonly Gen<TriangleMesh> Heap =
        from vertices in Coordinate.Array[3].List[3, 30]
        from corners in Gen.Int[0, vertices.Count - 1].Array[3].List[4, 60]
        select new TriangleMesh([.. vertices.SelectMany(v => v)], [.. corners.SelectMany(c => c)]);

    [Fact]
    public void Binary_STL_gives_back_every_corner() => Heap.Sample(mesh =>
    {
        var file = Reading.Bytes(Reading.StlOf(mesh));
        Assert.Equal(MeshFormat.StlBinary, file.Format);
        Assert.Equal(Corners(mesh), Corners(file.Items[0].Mesh));
    }, iter: 500, threads: 1);

    // A triangle that names a vertex twice is no triangle in 3MF (core 4.1.4.1); one whose corners merely lie at the same place is.
    [Fact]
    public void ThreeMf_gives_back_every_corner_of_every_object() => Heap.List[1, 4].Sample(meshes =>
    {
        var written = meshes.ConvertAll(m => new TriangleMesh(m.Positions.ToArray(), WithoutRepeats(m)));
        if (written.Exists(m => m.TriangleCount < 4)) return;
        var stream = new MemoryStream();
        ThreeMfWriter.Write(
            stream, [.. written.Select((m, i) => new ThreeMfObject($"part {i}", m))], [.. written.Select((_, i) => ThreeMfPlacement.AsIs(i))]);
        var file = Reading.Bytes(stream.ToArray());
        Assert.Equal(written.Select(Corners), file.Items.Select(i => Corners(i.Mesh)));
    }, iter: 300, threads: 1);

    [Fact]
    public void What_was_read_is_written_and_read_again_without_any_change() => Heap.Sample(mesh =>
    {
        var once = Reading.Bytes(Reading.StlOf(mesh)).Items[0].Mesh;
        var twice = Reading.Bytes(Reading.StlOf(once)).Items[0].Mesh;
        Assert.Equal(once.Positions, twice.Positions);
        Assert.Equal(once.Indices, twice.Indices);
    }, iter: 200, threads: 1);

    /// <summary>The bits of all coordinates of all corners; −0 is 0.</summary>
    private static uint[] Corners(TriangleMesh mesh)
    {
        var bits = new List<uint>();
        foreach (var v in mesh.Indices)
            foreach (var x in mesh.Positions.Slice(3 * v, 3)) bits.Add(BitConverter.SingleToUInt32Bits(x + 0f));
        return [.. bits];
    }

    private static int[] WithoutRepeats(TriangleMesh mesh) =>
        [.. mesh.Indices.ToArray().Chunk(3).Where(t => t[0] != t[1] && t[1] != t[2] && t[2] != t[0]).SelectMany(t => t)];
}
