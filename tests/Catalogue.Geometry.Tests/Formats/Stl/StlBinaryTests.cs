using System.Buffers.Binary;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.Stl;

public sealed class StlBinaryTests
{
    [Fact]
    public void A_written_box_reads_back_as_the_same_eight_corners_and_twelve_triangles()
    {
        var box = Solids.Box(10, 20, 30);
        var file = Reading.Bytes(Reading.StlOf(box));
        Assert.Equal(MeshFormat.StlBinary, file.Format);
        Assert.False(file.UnitStated);
        Assert.Equal(8, file.Items[0].Mesh.VertexCount);
        Assert.Equal(Corners(box), Corners(file.Items[0].Mesh));
    }

    [Fact]
    public void The_size_decides_even_when_the_header_says_solid()
    {
        var bytes = Reading.StlOf(Solids.Box(10, 20, 30));
        "solid made by a program that writes this word"u8.CopyTo(bytes);
        Assert.Equal(MeshFormat.StlBinary, Reading.Bytes(bytes).Format);
    }

    [Theory, InlineData(1), InlineData(7), InlineData(4096), InlineData(1 << 20)]
    public void A_stream_that_cannot_seek_and_tells_no_length_is_read_the_same(int step)
    {
        var sphere = Solids.Icosphere(30, 5);
        var bytes = Reading.StlOf(sphere);
        var mesh = MeshFileReader.Read(new Reading.Trickle(bytes, step)).Items[0].Mesh;
        Assert.Equal(Corners(sphere), Corners(mesh));
        mesh = MeshFileReader.Read(new Reading.Trickle(bytes, step), bytes.Length).Items[0].Mesh;
        Assert.Equal(sphere.VertexCount, mesh.VertexCount);
    }

    [Fact]
    public void Minus_zero_and_zero_are_the_same_place()
    {
        var mesh = new TriangleMesh([0f, 0f, 0f, -0f, 10f, 0f, 10f, 0f, -0f, 0f, -0f, -0f, -10f, 0f, 0f, -0f, 10f, -0f], [0, 1, 2, 3, 4, 5]);
        Assert.Equal(4, Reading.Bytes(Reading.StlOf(mesh)).Items[0].Mesh.VertexCount);
    }

    [Fact]
    public void Denormal_coordinates_stay_apart()
    {
        var mesh = new TriangleMesh([0f, 0f, 0f, float.Epsilon, 0f, 0f, 0f, 2 * float.Epsilon, 0f], [0, 1, 2]);
        Assert.Equal(3, Reading.Bytes(Reading.StlOf(mesh)).Items[0].Mesh.VertexCount);
    }

    [Fact]
    public void A_file_cut_short_says_how_many_triangles_are_missing()
    {
        var bytes = Reading.StlOf(Solids.Box(10, 20, 30))[..^70];
        var error = Reading.Refused(bytes, "truncated");
        Assert.Equal("The binary STL file announces 12 triangles and has bytes for 10. Part of it is missing: copy or export it again.", error.Message);
        Assert.Equal([12L, 10L], error.Said.GetArguments());
    }

    [Fact]
    public void A_file_longer_than_its_count_is_refused() =>
        Reading.Refused([.. Reading.StlOf(Solids.Box(10, 20, 30)), .. new byte[50]], "wrong-count");

    [Fact]
    public void Without_a_known_length_a_longer_file_is_refused_too()
    {
        byte[] bytes = [.. Reading.StlOf(Solids.Icosphere(30, 5)), .. new byte[50]];
        var error = Assert.Throws<MeshFormatException>(() => MeshFileReader.Read(new Reading.Trickle(bytes, 1 << 16)));
        Assert.Equal("wrong-count", error.Code);
    }

    [Fact]
    public void Four_billion_announced_triangles_take_no_memory()
    {
        var bytes = Reading.StlOf(Solids.Icosphere(30, 5));
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(80), uint.MaxValue);
        Reading.Refused(bytes, "truncated");
        var error = Assert.Throws<MeshFormatException>(() => MeshFileReader.Read(new Reading.Trickle(bytes, 1 << 16)));
        Assert.Equal("too-many-triangles", error.Code);
    }

    [Fact]
    public void A_stream_of_unknown_length_takes_memory_for_what_comes_not_for_what_is_announced()
    {
        var bytes = Reading.StlOf(Solids.Icosphere(30, 5));
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(80), 20_000_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var error = Assert.Throws<MeshFormatException>(() => MeshFileReader.Read(new Reading.Trickle(bytes, 1 << 16)));
        Assert.Equal("truncated", error.Code);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 16 << 20);
    }

    [Fact]
    public void More_triangles_than_allowed_are_refused()
    {
        var error = Assert.Throws<MeshFormatException>(
            () => Reading.Bytes(Reading.StlOf(Solids.Box(1, 1, 1)), new MeshReadOptions { MaxTriangles = 11 }));
        Assert.Equal("too-many-triangles", error.Code);
    }

    [Theory]
    [InlineData(float.NaN, "not-finite")]
    [InlineData(float.PositiveInfinity, "not-finite")]
    [InlineData(float.NegativeInfinity, "not-finite")]
    [InlineData(1e30f, "too-large")]
    [InlineData(-1e30f, "too-large")]
    public void A_coordinate_that_no_thing_can_have_is_refused_with_its_triangle(float value, string code)
    {
        var bytes = Reading.StlOf(Solids.Icosphere(30, 4));
        BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(84 + (50 * 4567) + 40), value);
        Assert.Contains("triangle 4568", Reading.Refused(bytes, code).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Normals_that_are_not_finite_do_not_matter()
    {
        var bytes = Reading.StlOf(Solids.Box(10, 20, 30));
        BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(84), float.NaN);
        Assert.Equal(12, Reading.Bytes(bytes).Items[0].Mesh.TriangleCount);
    }

    [Fact]
    public void A_file_without_triangles_is_empty() => Reading.Refused(new byte[84], "empty");

    [Fact]
    public void An_empty_file_is_empty() => Reading.Refused([], "empty");

    [Theory, InlineData(1), InlineData(83), InlineData(20000)]
    public void Random_bytes_are_not_a_mesh(int length)
    {
        var bytes = new byte[length];
        new Random(7).NextBytes(bytes);
        Reading.Refused(bytes, "not-a-mesh");
    }

    [Theory, InlineData(LengthUnit.Inch, 25.4), InlineData(LengthUnit.Micron, 0.001), InlineData(LengthUnit.Metre, 1000)]
    public void A_stated_unit_is_turned_into_millimetres(LengthUnit unit, double factor)
    {
        var file = Reading.Bytes(Reading.StlOf(Solids.Box(1, 2, 3)), new MeshReadOptions { Unit = unit });
        Assert.True(file.UnitStated);
        Assert.Empty(file.Warnings);
        Assert.Equal(3 * factor, file.Items[0].Mesh.Bounds.Size.Z, 1e-4 * factor);
    }

    // Common practice: an inch STL read as mm is 25.4 times too small; 4 to 6 units tall is plausible in inches.
    [Theory, InlineData(5, "inches"), InlineData(0.145, "metres"), InlineData(145_000, "microns")]
    public void An_unstated_unit_that_makes_no_sense_in_millimetres_is_pointed_out(double height, string unit)
    {
        var file = Reading.Bytes(Reading.StlOf(Solids.Box(height / 4, height / 3, height)));
        Assert.Equal(LengthUnit.Millimetre, file.Unit);
        Assert.Contains(unit, Assert.Single(file.Warned()), StringComparison.Ordinal);
    }

    [Fact]
    public void A_hand_sized_part_is_read_as_millimetres_without_a_word() =>
        Assert.Empty(Reading.Bytes(Reading.StlOf(Solids.Box(40, 30, 145))).Warnings);

    // The count is what bytes 80 to 83 of the public sample say: 0x0558.
    [Fact]
    public void The_public_spider_sample_has_1368_triangles() =>
        Assert.Equal(1368, Reading.Sample("mesh/stl/Spider_binary.stl").Items[0].Mesh.TriangleCount);

    [Fact]
    public void Reading_can_be_cancelled()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(
            () => MeshFileReader.Read(new MemoryStream(Reading.StlOf(Solids.Box(1, 1, 1))), null, cancelled.Token));
    }

    [Theory, InlineData("solid part"), InlineData("größe"), InlineData("12345678901234567890123456789012345678901234567890123456789012345678901234567890!")]
    public void A_header_that_readers_would_misunderstand_is_not_written(string header) =>
        Assert.Throws<ArgumentException>(() => StlWriter.Write(Solids.Box(1, 1, 1), new MemoryStream(), header));

    private static float[] Corners(TriangleMesh mesh) =>
        [.. mesh.Indices.ToArray().SelectMany(i => mesh.Positions.Slice(3 * i, 3).ToArray())];
}
