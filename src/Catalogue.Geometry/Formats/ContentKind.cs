using System.Buffers.Binary;
using System.Text;

namespace Catalogue.Geometry.Formats;

/// <summary>What a file is, told from its first bytes and its length.</summary>
/// <param name="Kind">One of the constants.</param>
/// <param name="Encoding">Of a text; null for UTF-8 and for bytes.</param>
/// <param name="MarkBytes">Bytes of a byte order mark to skip.</param>
internal readonly record struct ContentKind(string Kind, Encoding? Encoding, int MarkBytes)
{
    public const string StlBinary = "stl-binary";
    public const string StlAscii = "stl-ascii";
    public const string Obj = "obj";
    public const string Package = "package";
    public const string Unknown = "unknown";

    /// <summary>Size decides first, then signatures, then words: a binary STL may start with "solid".</summary>
    /// <exception cref="MeshFormatException"><c>empty</c>, or <c>truncated</c> and <c>wrong-count</c> for what can only be a damaged binary STL.</exception>
    public static ContentKind Of(ReadOnlySpan<byte> head, long? length)
    {
        if (head.IsEmpty) throw CornerLimits.Empty($"The file is empty.");
        if (head.StartsWith("PK\x03\x04"u8) || head.StartsWith("PK\x05\x06"u8)) return new(Package, null, 0);
        if (length is { } known && head.Length >= Stl.StlBinary.HeaderBytes
            && Stl.StlBinary.CountForLength(known) == BinaryPrimitives.ReadUInt32LittleEndian(head[80..]))
        {
            return new(StlBinary, null, 0);
        }

        var (encoding, mark) = Marked(head);
        var text = encoding is null ? head[mark..] : Encoding.UTF8.GetBytes(encoding.GetString(head[mark..(head.Length & ~1)]));
        if (!text.ContainsAnyInRange((byte)0, (byte)8)) return new(Words(text), encoding, mark);

        // Bytes, not text. What has room for a header and is no other known thing is taken for a binary STL and told what is wrong with it.
        return new(LooksLikeRecords(head) ? StlBinary : Unknown, null, 0);
    }

    /// <summary>The text as UTF-8 without its mark.</summary>
    public Stream AsUtf8(Stream content)
    {
        Span<byte> mark = stackalloc byte[4];
        content.ReadExactly(mark[..MarkBytes]);
        return Encoding is null ? content : Encoding.CreateTranscodingStream(content, Encoding, Encoding.UTF8);
    }

    private static (Encoding? Encoding, int Mark) Marked(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("\uFEFF"u8)) return (null, 3);
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE])) return (Encoding.Unicode, 2);
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF])) return (Encoding.BigEndianUnicode, 2);
        return (null, 0);
    }

    private static string Words(ReadOnlySpan<byte> text)
    {
        var start = text.IndexOfAnyExceptInRange((byte)0, (byte)' ');
        if (start < 0) throw CornerLimits.Empty($"The file holds nothing but white space.");
        var first = text[start..];
        var stop = first.IndexOfAnyInRange((byte)0, (byte)' ');
        if (stop >= 0) first = first[..stop];
        if (Stl.StlAscii.Is(first, "solid"u8) || Stl.StlAscii.Is(first, "facet"u8)) return StlAscii;
        if (first[0] == (byte)'#' || IsObjStatement(first)) return Obj;
        return Unknown;
    }

    /// <summary>Statements an OBJ file may start with.</summary>
    private static bool IsObjStatement(ReadOnlySpan<byte> word)
    {
        ReadOnlySpan<string> statements =
        [
            "v", "vt", "vn", "vp", "f", "fo", "l", "p", "o", "g", "s", "mg", "mtllib", "usemtl", "usemap", "maplib", "lod", "bevel", "deg", "cstype",
            "c_interp", "d_interp", "shadow_obj", "trace_obj", "call",
        ];
        foreach (var statement in statements)
            if (Ascii.Equals(word, statement)) return true;
        return false;
    }

    /// <summary>Whether the bytes behind 84 read as plausible records: finite numbers of moderate size.</summary>
    private static bool LooksLikeRecords(ReadOnlySpan<byte> head)
    {
        if (head.Length < Stl.StlBinary.HeaderBytes) return head.StartsWith("solid"u8);
        var plausible = 0;
        var seen = 0;
        for (var at = Stl.StlBinary.HeaderBytes; at + 48 <= head.Length && seen < 300; at += Stl.StlBinary.RecordBytes)
        {
            for (var i = 12; i < 48; i += 4, seen++)
            {
                var value = Math.Abs(BinaryPrimitives.ReadSingleLittleEndian(head[(at + i)..]));
                if (value is 0 or (> 1e-12f and < 1e12f)) plausible++;
            }
        }

        return plausible >= 0.9 * seen;
    }
}
