namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>The decompressed bytes of one part, counted against the budget; refuses a single piece of markup of absurd length, which an XML reader would have to hold whole.</summary>
internal sealed class PackageText(Stream part, string name, UnfoldBudget budget) : Stream
{
    /// <summary>From one '&gt;' to the next: no attribute, text or comment of a model needs more.</summary>
    private const int LongestMarkup = 1 << 18;

    private long _sinceMarkup;

    public override bool CanRead => true;
    public override bool CanSeek => false;
    public override bool CanWrite => false;
    public override long Length => throw new NotSupportedException();
    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(Span<byte> buffer)
    {
        var read = part.Read(buffer);
        budget.TakeText(read);
        var last = buffer[..read].LastIndexOf((byte)'>');
        _sinceMarkup = last < 0 ? _sinceMarkup + read : read - 1 - last;
        if (_sinceMarkup > LongestMarkup)
            throw new MeshFormatException("bad-xml", $"The part \"{name}\" of the 3MF package holds a piece of markup longer than {LongestMarkup >> 10} KiB. Export the file again.");

        return read;
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
        if (disposing) part.Dispose();
        base.Dispose(disposing);
    }
}
