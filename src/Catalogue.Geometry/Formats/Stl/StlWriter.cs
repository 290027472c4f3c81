using System.Buffers;
using System.Buffers.Binary;
using System.Text;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.Stl;

/// <summary>Writes binary STL: 84 + 50 · m bytes, coordinates in mm exactly as the mesh holds them.</summary>
public static class StlWriter
{
    private const int ChunkRecords = 2048;

    /// <summary>Writes the mesh; O(m), in chunks.</summary>
    /// <param name="header">Up to 80 ASCII characters; must not start with "solid", which some readers take for text.</param>
    /// <exception cref="ArgumentException">The header is too long, not ASCII, or starts with "solid".</exception>
    public static void Write(TriangleMesh mesh, Stream stream, string header = "", CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(header);
        if (header.Length > 80 || !Ascii.IsValid(header) || header.TrimStart().StartsWith("solid", StringComparison.OrdinalIgnoreCase))
            throw new ArgumentException("An STL header is up to 80 ASCII characters and does not start with \"solid\".", nameof(header));
        Span<byte> start = stackalloc byte[StlBinary.HeaderBytes];
        start[..80].Fill((byte)' ');
        Encoding.ASCII.GetBytes(header, start);
        BinaryPrimitives.WriteUInt32LittleEndian(start[80..], (uint)mesh.TriangleCount);
        stream.Write(start);

        var buffer = ArrayPool<byte>.Shared.Rent(ChunkRecords * StlBinary.RecordBytes);
        try
        {
            for (var done = 0; done < mesh.TriangleCount; done += ChunkRecords)
            {
                cancel.ThrowIfCancellationRequested();
                var count = Math.Min(ChunkRecords, mesh.TriangleCount - done);
                for (var i = 0; i < count; i++) WriteRecord(mesh, done + i, buffer.AsSpan(i * StlBinary.RecordBytes, StlBinary.RecordBytes));
                stream.Write(buffer, 0, count * StlBinary.RecordBytes);
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }

    private static void WriteRecord(TriangleMesh mesh, int triangle, Span<byte> record)
    {
        var (a, b, c) = mesh.Triangle(triangle);
        var normal = Vec3.Cross(b - a, c - a).Normalized();
        WriteSingles(record, (float)normal.X, (float)normal.Y, (float)normal.Z);
        for (var corner = 0; corner < 3; corner++)
        {
            var p = mesh.Positions.Slice(3 * mesh.Indices[(3 * triangle) + corner], 3);
            WriteSingles(record[(12 + (12 * corner))..], p[0], p[1], p[2]);
        }

        record[48] = record[49] = 0;
    }

    private static void WriteSingles(Span<byte> to, float x, float y, float z)
    {
        BinaryPrimitives.WriteSingleLittleEndian(to, x);
        BinaryPrimitives.WriteSingleLittleEndian(to[4..], y);
        BinaryPrimitives.WriteSingleLittleEndian(to[8..], z);
    }
}
