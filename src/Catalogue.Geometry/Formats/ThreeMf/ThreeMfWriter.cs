using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>An object of a 3MF file: a mesh in mm and the name people see.</summary>
public sealed record ThreeMfObject(string Name, TriangleMesh Mesh);

/// <summary>One copy of an object to build: turned by <paramref name="Rotation"/>, then moved by <paramref name="Shift"/> mm.</summary>
/// <param name="ObjectIndex">Its number in the list of objects, from 0.</param>
/// <param name="PartNumber">What tells this copy from others, if anything.</param>
public sealed record ThreeMfPlacement(int ObjectIndex, Rotation Rotation, Vec3 Shift, string? PartNumber = null)
{
    /// <summary>The object as it lies.</summary>
    public static ThreeMfPlacement AsIs(int objectIndex) => new(objectIndex, Rotation.Identity, Vec3.Zero);
}

/// <summary>Writes 3MF, core 1.4.0: named objects and the build items that place them.</summary>
/// <remarks>
/// In millimetres, coordinates in the shortest decimals that read back as the same single-precision numbers. The same input gives the
/// same bytes: times in the package are fixed. Triangles with a repeated corner are left out, as the format forbids them. O(m), streaming.
/// </remarks>
public static class ThreeMfWriter
{
    private const string ModelPath = "3D/3dmodel.model";

    // The core's own names (table 3-1); any other would need a namespace.
    private static readonly string[] MetadataNames =
        ["Title", "Designer", "Description", "Copyright", "LicenseTerms", "Rating", "CreationDate", "ModificationDate", "Application"];

    // The earliest time a ZIP file can hold.
    private static readonly DateTimeOffset Fixed = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Writes the package.</summary>
    /// <param name="objects">At least one, each with four triangles or more.</param>
    /// <param name="placements">What is built; may be empty.</param>
    /// <param name="metadata">Names of the core specification only: Title, Designer, Description, Copyright, LicenseTerms, Rating, CreationDate, ModificationDate, Application.</param>
    /// <exception cref="ArgumentException">An object is too small to be one, a placement names none, or a metadata name is not the core's.</exception>
    public static void Write(
        Stream stream,
        IReadOnlyList<ThreeMfObject> objects,
        IReadOnlyList<ThreeMfPlacement> placements,
        IReadOnlyDictionary<string, string>? metadata = null,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(objects);
        ArgumentNullException.ThrowIfNull(placements);
        Check(objects, placements, metadata);
        using var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        WriteText(zip, "[Content_Types].xml", $"""
            <?xml version="1.0" encoding="UTF-8"?>
            <Types xmlns="{ThreeMfNames.ContentTypes}"><Default Extension="rels" ContentType="{ThreeMfNames.RelationshipsContentType}"/><Default Extension="model" ContentType="{ThreeMfNames.ModelContentType}"/></Types>
            """);
        WriteText(zip, "_rels/.rels", $"""
            <?xml version="1.0" encoding="UTF-8"?>
            <Relationships xmlns="{ThreeMfNames.Relationships}"><Relationship Id="model" Type="{ThreeMfNames.ModelRelationship}" Target="/{ModelPath}"/></Relationships>
            """);
        using var model = Open(zip, ModelPath);
        using var text = new AsciiWriter(model);
        WriteModel(text, objects, placements, metadata, cancel);
    }

    private static void Check(
        IReadOnlyList<ThreeMfObject> objects, IReadOnlyList<ThreeMfPlacement> placements, IReadOnlyDictionary<string, string>? metadata)
    {
        if (objects.Count == 0) throw new ArgumentException("A 3MF file has at least one object.", nameof(objects));
        if (objects.FirstOrDefault(o => o.Mesh.TriangleCount < 4) is { } small)
            throw new ArgumentException($"\"{small.Name}\" has fewer than four triangles; that encloses nothing.", nameof(objects));
        if (placements.FirstOrDefault(p => p.ObjectIndex < 0 || p.ObjectIndex >= objects.Count) is { } wrong)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"There is no object {wrong.ObjectIndex} to place."), nameof(placements));
        if (metadata?.Keys.FirstOrDefault(k => !MetadataNames.Contains(k)) is { } name)
            throw new ArgumentException($"\"{name}\" is no metadata name of the core specification.", nameof(metadata));
    }

    private static void WriteModel(
        AsciiWriter text, IReadOnlyList<ThreeMfObject> objects, IReadOnlyList<ThreeMfPlacement> placements,
        IReadOnlyDictionary<string, string>? metadata, CancellationToken cancel)
    {
        text.Write($"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<model unit=\"millimeter\" xml:lang=\"und\" xmlns=\"{ThreeMfNames.Core}\">\n");
        foreach (var name in MetadataNames)
            if (metadata?.TryGetValue(name, out var value) == true) text.Write($"<metadata name=\"{name}\">{Escaped(value)}</metadata>\n");
        text.Write("<resources>\n");
        for (var i = 0; i < objects.Count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            text.Write(string.Create(CultureInfo.InvariantCulture, $"<object id=\"{i + 1}\" type=\"model\" name=\"{Escaped(objects[i].Name)}\"><mesh>\n"));
            WriteMesh(text, objects[i].Mesh, cancel);
            text.Write("</mesh></object>\n");
        }

        text.Write("</resources>\n<build>\n");
        foreach (var placement in placements)
        {
            text.Write(string.Create(CultureInfo.InvariantCulture, $"<item objectid=\"{placement.ObjectIndex + 1}\""));
            if (placement.Rotation != Rotation.Identity || placement.Shift != Vec3.Zero) text.Write($" transform=\"{Matrix(placement)}\"");
            if (placement.PartNumber is { } number) text.Write($" partnumber=\"{Escaped(number)}\"");
            text.Write("/>\n");
        }

        text.Write("</build>\n</model>\n");
    }

    private static void WriteMesh(AsciiWriter text, TriangleMesh mesh, CancellationToken cancel)
    {
        text.Write("<vertices>\n");
        var positions = mesh.Positions;
        for (var i = 0; i < positions.Length; i += 3)
        {
            if ((i & 0xFFFF) == 0) cancel.ThrowIfCancellationRequested();
            text.Write("<vertex x=\""u8, positions[i], "\" y=\""u8, positions[i + 1], "\" z=\""u8, positions[i + 2], "\"/>\n"u8);
        }

        text.Write("</vertices>\n<triangles>\n");
        var indices = mesh.Indices;
        for (var i = 0; i < indices.Length; i += 3)
        {
            if ((i & 0xFFFF) == 0) cancel.ThrowIfCancellationRequested();
            var (a, b, c) = (indices[i], indices[i + 1], indices[i + 2]);
            if (a == b || b == c || c == a) continue;
            text.Write("<triangle v1=\""u8, a, "\" v2=\""u8, b, "\" v3=\""u8, c, "\"/>\n"u8);
        }

        text.Write("</triangles>\n");
    }

    /// <summary>Row-major, for points as rows: each row is where an axis goes.</summary>
    private static string Matrix(ThreeMfPlacement placement)
    {
        var (r, s) = (placement.Rotation, placement.Shift);
        double[] m = [r.RowX.X, r.RowY.X, r.RowZ.X, r.RowX.Y, r.RowY.Y, r.RowZ.Y, r.RowX.Z, r.RowY.Z, r.RowZ.Z, s.X, s.Y, s.Z];
        return string.Join(' ', m.Select(v => v.ToString("R", CultureInfo.InvariantCulture)));
    }

    /// <summary>Fit for an attribute or text: what XML 1.0 cannot hold is dropped.</summary>
    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '&': escaped.Append("&amp;"); break;
                case '<': escaped.Append("&lt;"); break;
                case '>': escaped.Append("&gt;"); break;
                case '"': escaped.Append("&quot;"); break;
                case '\t' or '\n' or '\r': escaped.Append(' '); break;
                default:
                    if (!rune.IsBmp || XmlConvert.IsXmlChar((char)rune.Value)) escaped.Append(rune.ToString());
                    break;
            }
        }

        return escaped.ToString();
    }

    private static void WriteText(ZipArchive zip, string path, string text)
    {
        using var part = Open(zip, path);
        part.Write(Encoding.UTF8.GetBytes(text));
    }

    private static Stream Open(ZipArchive zip, string path)
    {
        var entry = zip.CreateEntry(path, CompressionLevel.Optimal);
        entry.LastWriteTime = Fixed;
        return entry.Open();
    }

    /// <summary>UTF-8 text and invariant numbers through one buffer.</summary>
    private sealed class AsciiWriter(Stream stream) : IDisposable
    {
        private const int LongestRow = 256;

        private readonly byte[] _buffer = new byte[1 << 16];
        private int _used;

        public void Write(string text)
        {
            Flush();
            stream.Write(Encoding.UTF8.GetBytes(text));
        }

        public void Write<T>(ReadOnlySpan<byte> a, T x, ReadOnlySpan<byte> b, T y, ReadOnlySpan<byte> c, T z, ReadOnlySpan<byte> end)
            where T : IUtf8SpanFormattable
        {
            if (_used + LongestRow > _buffer.Length) Flush();
            Put(a, x);
            Put(b, y);
            Put(c, z);
            Put(end);
        }

        public void Dispose() => Flush();

        private void Put<T>(ReadOnlySpan<byte> text, T number)
            where T : IUtf8SpanFormattable
        {
            Put(text);
            number.TryFormat(_buffer.AsSpan(_used), out var written, default, CultureInfo.InvariantCulture);
            _used += written;
        }

        private void Put(ReadOnlySpan<byte> text)
        {
            text.CopyTo(_buffer.AsSpan(_used));
            _used += text.Length;
        }

        private void Flush()
        {
            stream.Write(_buffer, 0, _used);
            _used = 0;
        }
    }
}
