using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Fuzz;

/// <summary>Binary and text STL.</summary>
internal sealed class StlSamples : ISampleKind
{
    private static readonly string[] Words =
    [
        "solid", "endsolid", "facet", "normal", "facet normal", "outer", "loop", "outer loop", "vertex", "endloop", "endfacet", "0", "-0", "1", "1.5e3", "1e400", "-1e-400", "nan", "inf",
        "-1.#IND", "1e30", "0.1.2", "12,5", ".", "e", "+", "9999999999999999999999999", "0x10", "\0", "\r", "\n", "\t", " ", "\u00FF\u00FE", "\u00EF\u00BB\u00BF", "\\", "#",
    ];

    public string Name => "stl";

    public IEnumerable<byte[]> Seeds()
    {
        foreach (var mesh in new[] { Solids.Box(1, 2, 3), Solids.Icosphere(5, 1), Solids.Cylinder(3, 4, 5) })
        {
            var stream = new MemoryStream();
            StlWriter.Write(mesh, stream);
            yield return stream.ToArray();
            yield return Encoding.ASCII.GetBytes(Text(mesh, "\n"));
        }

        yield return Encoding.ASCII.GetBytes(Text(Solids.Box(1, 2, 3), "\n") + Text(Solids.Box(3, 2, 1), "\r\n"));
        yield return Encoding.ASCII.GetBytes(Text(Solids.Box(1, 2, 3), " ").ToUpperInvariant());
        yield return [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(Text(Solids.Box(1, 2, 3), "\n"))];
        yield return [0xFE, 0xFF, .. Encoding.BigEndianUnicode.GetBytes(Text(Solids.Box(1, 2, 3), "\n"))];
        yield return Encoding.UTF8.GetBytes("\uFEFFsolid\nendsolid");
        yield return new byte[84];
    }

    public byte[] Mutated(Random random, byte[] parent, byte[] other)
    {
        var changed = random.Next(2) == 0 ? Mutation.OfBytes(random, parent, other) : Mutation.OfText(random, parent, other, Words);

        // Make the size agree with the count again, or nothing behind the header is ever looked at.
        if (changed.Length >= 134 && random.Next(3) == 0)
        {
            var count = (changed.Length - 84) / 50;
            BinaryPrimitives.WriteInt32LittleEndian(changed.AsSpan(80), count);
            if (random.Next(4) > 0) Array.Resize(ref changed, 84 + (50 * count));
        }

        return changed;
    }

    public byte[] Large(Random random)
    {
        var count = random.Next(2_000, 60_000);
        if (random.Next(3) == 0)
        {
            var word = random.Next(4) switch { 0 => "facet vertex 0 0 0 vertex 1 0 0 vertex 0 1 0 endfacet ", 1 => "solid ", 2 => "\n", _ => Words[random.Next(Words.Length)] + " " };
            return Encoding.Latin1.GetBytes("solid a\n" + string.Concat(Enumerable.Repeat(word, count)));
        }

        var bytes = new byte[84 + (50 * count)];
        if (random.Next(2) == 0) random.NextBytes(bytes.AsSpan(84));
        for (var i = 84; i + 4 <= bytes.Length; i += 4)
            BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(i), random.Next(1 << random.Next(20)) * (random.Next(2) == 0 ? 1 : 0.001f));
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(80), count);
        return bytes;
    }

    private static string Text(TriangleMesh mesh, string end)
    {
        var text = new StringBuilder($"solid part{end}");
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            text.Append(CultureInfo.InvariantCulture, $"facet normal 0 0 1{end} outer loop{end}");
            foreach (var p in new[] { a, b, c }) text.Append(FormattableString.Invariant($"  vertex {p.X} {p.Y:E4} {p.Z}")).Append(end);
            text.Append(CultureInfo.InvariantCulture, $" endloop{end}endfacet{end}");
        }

        return text.Append(CultureInfo.InvariantCulture, $"endsolid part{end}").ToString();
    }
}
