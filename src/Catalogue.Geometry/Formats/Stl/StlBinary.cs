using System.Buffers;
using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.Stl;

/// <summary>Reads binary STL: 80 bytes of anything, a little-endian count, 50 bytes per triangle (normal, three corners, two spare bytes).</summary>
/// <remarks>Normals and spare bytes are ignored: the order of the corners says which side is out. See README.md for the format.</remarks>
internal static class StlBinary
{
    public const int HeaderBytes = 84;
    public const int RecordBytes = 50;

    /// <summary>Records read at a time; 200 KiB stay in the second-level cache until they are welded.</summary>
    private const int ChunkRecords = 4096;

    /// <summary>Records whose corners are welded in one block.</summary>
    private const int BlockRecords = 64;

    /// <summary>The triangle count a file of <paramref name="length"/> bytes must state; null when no count gives that length.</summary>
    public static long? CountForLength(long length) =>
        length >= HeaderBytes && (length - HeaderBytes) % RecordBytes == 0 ? (length - HeaderBytes) / RecordBytes : null;

    /// <summary>Reads and welds from the start of the file.</summary>
    /// <param name="stream">At the first byte of the header.</param>
    /// <param name="length">Bytes in the file; null when not known beforehand.</param>
    public static TriangleMesh Read(Stream stream, long? length, LengthUnit unit, int maxTriangles, CancellationToken cancel)
    {
        var header = new byte[HeaderBytes];
        if (stream.ReadAtLeast(header, HeaderBytes, throwOnEndOfStream: false) < HeaderBytes)
            throw Truncated($"The binary STL file ends inside its header. Part of it is missing: copy or export it again.");
        long declared = BinaryPrimitives.ReadUInt32LittleEndian(header.AsSpan(80));
        if (length is { } known && CountForLength(known) != declared)
        {
            var room = (known - HeaderBytes) / RecordBytes;
            throw room < declared
                ? Truncated($"The binary STL file announces {declared:N0} triangles and has bytes for {room:N0}. Part of it is missing: copy or export it again.")
                : WrongCount(declared);
        }

        if (declared == 0) throw CornerLimits.Empty($"The STL file holds no triangles.");
        if (declared > maxTriangles) throw CornerLimits.TooMany(declared, maxTriangles);
        return ReadTriangles(stream, (int)declared, length is not null, unit, cancel);
    }

    private static unsafe TriangleMesh ReadTriangles(Stream stream, int count, bool sizeIsKnown, LengthUnit unit, CancellationToken cancel)
    {
        // A closed mesh has half as many vertices as triangles. Without a known size the count is only a claim: memory follows the data.
        var atFirst = sizeIsKnown ? count : Math.Min(count, 1 << 16);
        using var weld = new ExactWeld((atFirst / 2) + (atFirst / 32) + 16);
        var indices = GC.AllocateUninitializedArray<int>(3 * atFirst);
        var limit = (float)(CornerLimits.LargestMm / CornerLimits.Millimetres(unit));

        // Every corner is loaded as 16 bytes: 2 beyond the record, so the buffer has slack.
        var buffer = ArrayPool<byte>.Shared.Rent((ChunkRecords * RecordBytes) + 16);
        try
        {
            for (var done = 0; done < count;)
            {
                cancel.ThrowIfCancellationRequested();
                var records = Math.Min(ChunkRecords, count - done);
                var bytes = stream.ReadAtLeast(buffer.AsSpan(0, records * RecordBytes), records * RecordBytes, throwOnEndOfStream: false);
                if (bytes < records * RecordBytes)
                    throw Truncated($"The binary STL file announces {count:N0} triangles and ends after {done + (bytes / RecordBytes):N0}. Part of it is missing: copy or export it again.");

                if (indices.Length < 3 * (done + records)) Array.Resize(ref indices, (int)Math.Min(2L * indices.Length, 3L * count));
                fixed (byte* first = buffer)
                {
                    if (!AddRecords(first, records, limit, weld, indices.AsSpan(3 * done, 3 * records)))
                        throw FirstRefused(buffer, records, done, limit);
                }

                done += records;
            }

            if (!sizeIsKnown && stream.Read(buffer, 0, 1) > 0) throw WrongCount(count);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }

        return CornerLimits.InMillimetres(weld.ToPositions(), indices, unit);
    }

    /// <summary>Welds the corners of whole records. False when one of them is not finite or too far out.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static unsafe bool AddRecords(byte* records, int count, float limit, ExactWeld weld, Span<int> vertices)
    {
        var keys = stackalloc uint[4 * 3 * BlockRecords];
        var most = Vector128.Create(limit);
        var good = Vector128<uint>.AllBitsSet;
        for (var done = 0; done < count; done += BlockRecords)
        {
            var block = Math.Min(BlockRecords, count - done);
            var key = keys;
            var record = records + (done * RecordBytes);
            for (var i = 0; i < block; i++, record += RecordBytes, key += 12)
            {
                var a = Vector128.Load((float*)(record + 12));
                var b = Vector128.Load((float*)(record + 24));
                var c = Vector128.Load((float*)(record + 36));
                good &= (Vector128.LessThanOrEqual(Vector128.Abs(a), most)
                    & Vector128.LessThanOrEqual(Vector128.Abs(b), most)
                    & Vector128.LessThanOrEqual(Vector128.Abs(c), most)).AsUInt32();
                ExactWeld.Canonical(a).Store(key);
                ExactWeld.Canonical(b).Store(key + 4);
                ExactWeld.Canonical(c).Store(key + 8);
            }

            if ((good.ExtractMostSignificantBits() & 7) != 7) return false;
            weld.AddBlock(keys, vertices.Slice(3 * done, 3 * block));
        }

        return true;
    }

    private static MeshFormatException FirstRefused(byte[] buffer, int records, int before, float limit)
    {
        for (var i = 0; i < records; i++)
        {
            for (var j = 12; j < 48; j += 4)
            {
                var value = BinaryPrimitives.ReadSingleLittleEndian(buffer.AsSpan((i * RecordBytes) + j));
                if (!(Math.Abs(value) <= limit)) return CornerLimits.InTriangle(before + i + 1, value);
            }
        }

        throw new InvalidOperationException("A coordinate was refused that is within the limits.");
    }

    private static MeshFormatException Truncated(FormattableString how) => new("truncated", how);

    private static MeshFormatException WrongCount(long declared) => new("wrong-count",
        $"The binary STL file announces {declared:N0} triangles but is longer than that. Export the mesh again; nothing was read, because it is not clear which of the two is right.");
}
