using System.Buffers;

namespace Catalogue.Geometry.Formats;

/// <summary>A stream whose first bytes can be looked at before it is read. Does not own the stream below.</summary>
internal sealed class PeekedStream : Stream
{
    private const int HeadBytes = 1 << 15;

    private readonly Stream _below;
    private readonly byte[] _head = ArrayPool<byte>.Shared.Rent(HeadBytes);
    private readonly int _headLength;
    private int _served;
    private bool _disposed;

    public PeekedStream(Stream below, long? length)
    {
        _below = below;
        _headLength = below.ReadAtLeast(_head.AsSpan(0, HeadBytes), HeadBytes, throwOnEndOfStream: false);

        // A file shorter than the head has shown its true length, whatever was said about it.
        KnownLength = _headLength < HeadBytes ? _headLength : length;
    }

    public ReadOnlySpan<byte> Head => _head.AsSpan(0, _headLength);

    /// <summary>Bytes from the start to the end, when known.</summary>
    public long? KnownLength { get; }

    public override bool CanRead => true;
    public override bool CanSeek => false;
    public override bool CanWrite => false;
    public override long Length => throw new NotSupportedException();
    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(Span<byte> buffer)
    {
        if (_served == _headLength) return _below.Read(buffer);
        var count = Math.Min(buffer.Length, _headLength - _served);
        _head.AsSpan(_served, count).CopyTo(buffer);
        _served += count;
        return count;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();
    public override void SetLength(long value) => throw new NotSupportedException();
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing && !_disposed) ArrayPool<byte>.Shared.Return(_head);
        _disposed = true;
        base.Dispose(disposing);
    }
}
