using System.Text;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats;

/// <summary>Shorthand for tests that read bytes and text.</summary>
internal static class Reading
{
    public static MeshFile Bytes(byte[] bytes, MeshReadOptions? options = null) => MeshFileReader.Read(new MemoryStream(bytes), options);

    public static MeshFile Text(string text, MeshReadOptions? options = null) => Bytes(Encoding.UTF8.GetBytes(text), options);

    public static MeshFile Sample(string relative)
    {
        using var stream = File.OpenRead(SharedData.PathOf(relative));
        return MeshFileReader.Read(stream);
    }

    /// <summary>What the reader says besides, in English.</summary>
    public static IReadOnlyList<string> Warned(this MeshFile file) => [.. file.Warnings.Select(FormattableString.Invariant)];

    public static MeshFormatException Refused(byte[] bytes, string code)
    {
        var error = Assert.Throws<MeshFormatException>(() => Bytes(bytes));
        Assert.Equal(code, error.Code);
        return error;
    }

    public static MeshFormatException Refused(string text, string code) => Refused(Encoding.UTF8.GetBytes(text), code);

    public static byte[] StlOf(TriangleMesh mesh)
    {
        var stream = new MemoryStream();
        StlWriter.Write(mesh, stream);
        return stream.ToArray();
    }

    /// <summary>A stream that cannot seek, tells no length and gives a few bytes at a time, as a network does.</summary>
    public sealed class Trickle(byte[] bytes, int step) : MemoryStream(bytes)
    {
        public override bool CanSeek => false;
        public override long Length => throw new NotSupportedException();
        public override int Read(byte[] buffer, int offset, int count) => base.Read(buffer, offset, Math.Min(count, step));
        public override int Read(Span<byte> buffer) => base.Read(buffer[..Math.Min(buffer.Length, step)]);
    }
}
