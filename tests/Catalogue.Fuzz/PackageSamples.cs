using System.IO.Compression;
using System.Text;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Fuzz;

/// <summary>3MF: mostly the text of a part is changed and the package closed again, sometimes the package's own bytes.</summary>
internal sealed class PackageSamples : ISampleKind
{
    private const string Core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
    private const string Production = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06";

    private static readonly string[] Words =
    [
        "model", "resources", "object", "mesh", "vertices", "vertex", "triangles", "triangle", "components", "component", "build", "item", "metadata", "id", "objectid", "transform", "type", "pid", "pindex", "p:path", "unit",
        "requiredextensions", "xmlns", "xml:space", "x", "y", "z", "v1", "v2", "v3", "inch", "micron", "support", "other", "surface", "0", "1", "2", "3", "-1", "2147483648", "1e999", "nan", "1e30", "-0", ".5", "1.", "",
        "1 0 0 0 1 0 0 0 1 0 0 0", "-1 0 0 0 1 0 0 0 1 0 0 0", "0 0 0 0 0 0 0 0 0 0 0 0", "/3D/other.model", "/3D/3dmodel.model", "../../x", "<", "/>", "</", ">", "<!--", "-->", "<![CDATA[", "]]>", "<?a ?>", "<!DOCTYPE a>", "&amp;", "&#0;",
        "&x;", "\"", "'", "=", " ", "\n", "External", Core, Production, "urn:x", "\u00FF\u00FE", "\u00EF\u00BB\u00BF", "\0",
    ];

    public string Name => "3mf";

    public IEnumerable<byte[]> Seeds()
    {
        var written = new MemoryStream();
        ThreeMfWriter.Write(written, [new("box", Solids.Box(1, 2, 3)), new("ball", Solids.Icosphere(2, 1))],
            [ThreeMfPlacement.AsIs(0), new(1, Rotation.About(new Vec3(1, 1, 0), 1), new Vec3(5, 6, 7), "n")], new Dictionary<string, string> { ["Title"] = "seed" });
        yield return written.ToArray();

        const string Mesh = """
            <mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="10" y="0" z="0"/><vertex x="0" y="10" z="0"/><vertex x="0" y="0" z="10"/></vertices>
            <triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles></mesh>
            """;
        string Model(string resources, string build) => $"<?xml version=\"1.0\" encoding=\"UTF-8\"?><model unit=\"inch\" xmlns=\"{Core}\" xmlns:p=\"{Production}\" xmlns:m=\"http://schemas.microsoft.com/3dmanufacturing/material/2015/02\" requiredextensions=\"p m\"><metadata name=\"Title\">t</metadata><resources>{resources}</resources><build>{build}</build></model>";
        yield return Packed(CompressionLevel.Fastest, Model($"<m:colorgroup id=\"4\"/><object id=\"1\" name=\"n\" pid=\"4\" pindex=\"0\">{Mesh}</object><object id=\"2\" type=\"support\">{Mesh}</object><object id=\"3\"><components><component objectid=\"1\" transform=\"-1 0 0 0 1 0 0 0 1 5 6 7\"/><component objectid=\"2\"/></components></object>", "<item objectid=\"3\" transform=\"0 1 0 1 0 0 0 0 1 0 0 0\" partnumber=\"a\"/><item objectid=\"1\"/>"), null);
        yield return Packed(CompressionLevel.NoCompression, Model("<object id=\"1\"><components><component p:path=\"/3D/other.model\" objectid=\"9\"/></components></object>", "<item objectid=\"1\"/><item p:path=\"/3D/other.model\" objectid=\"9\"/>"), Model($"<object id=\"9\" type=\"surface\">{Mesh}</object>", ""));
        yield return Packed(CompressionLevel.Optimal, Model("<x:y xmlns:x=\"urn:x\"><object/></x:y><object id=\"1\"><components><component objectid=\"2\"/><component objectid=\"2\"/></components></object><object id=\"2\">" + Mesh + "</object>", "<item objectid=\"1\"/>"), null);
    }

    public byte[] Mutated(Random random, byte[] parent, byte[] other)
    {
        if (random.Next(5) == 0) return Mutation.OfBytes(random, parent, other);
        try
        {
            var parts = Parts(parent);
            var at = parts.Count == 0 ? -1 : random.Next(4) > 0 ? parts.FindIndex(p => p.Name.EndsWith(".model", StringComparison.Ordinal)) : random.Next(parts.Count);
            if (at < 0) return Mutation.OfBytes(random, parent, other);
            var others = Parts(other);
            var piece = others.Count == 0 ? other : others[random.Next(others.Count)].Content;
            switch (random.Next(12))
            {
                case 0: parts.RemoveAt(at); break;
                case 1: parts.Add(parts[at]); break;
                case 2: parts[at] = (Words[random.Next(Words.Length)], parts[at].Content); break;
                default: parts[at] = (parts[at].Name, Mutation.OfText(random, parts[at].Content, piece, Words)); break;
            }

            return Packed(random.Next(3) == 0 ? CompressionLevel.NoCompression : CompressionLevel.Fastest, parts);
        }
        catch (Exception e) when (e is InvalidDataException or IOException or NotSupportedException or ArgumentException)
        {
            return Mutation.OfBytes(random, parent, other);
        }
    }

    public byte[] Large(Random random)
    {
        var n = random.Next(10_000, 400_000);
        var unit = random.Next(6) switch
        {
            0 => "<a>",
            1 => "<a/>",
            2 => "<object id=\"1\"/>",
            3 => "<component objectid=\"1\"/>",
            4 => $"<vertex x=\"{random.Next(99)}\" y=\"0\" z=\"0\"/>",
            _ => "<triangle v1=\"0\" v2=\"0\" v3=\"0\"/>",
        };
        var start = $"<model xmlns=\"{Core}\"><resources><object id=\"7\"><mesh><vertices><vertex x=\"0\" y=\"0\" z=\"0\"/>";
        var text = random.Next(3) switch
        {
            0 => start + string.Concat(Enumerable.Repeat(unit, n)),
            1 => start + $"</vertices><triangles>{string.Concat(Enumerable.Repeat(unit, n))}</triangles></mesh></object></resources><build><item objectid=\"7\"/></build></model>",
            _ => start + string.Concat(Enumerable.Range(0, n / 4).Select(i => FormattableString.Invariant($"<vertex x=\"{random.Next()}\" y=\"{i}\" z=\"{random.NextDouble()}\"/>"))),
        };
        return Packed(random.Next(2) == 0 ? CompressionLevel.Fastest : CompressionLevel.NoCompression, text, null);
    }

    private static List<(string Name, byte[] Content)> Parts(byte[] package)
    {
        var parts = new List<(string, byte[])>();
        using var zip = new ZipArchive(new MemoryStream(package));
        foreach (var entry in zip.Entries.Take(20))
        {
            // Read no more than a part of a sane size: a changed package may unfold to anything.
            using var stream = entry.Open();
            var content = new byte[200_000];
            var length = stream.ReadAtLeast(content, content.Length, throwOnEndOfStream: false);
            parts.Add((entry.FullName, content[..length]));
        }

        return parts;
    }

    private static byte[] Packed(CompressionLevel level, string model, string? other)
    {
        const string Type = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";
        string Relationship(string target) => $"<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r\" Type=\"{Type}\" Target=\"{target}\"/></Relationships>";
        var parts = new List<(string, byte[])>
        {
            ("[Content_Types].xml", Encoding.UTF8.GetBytes("<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>")),
            ("_rels/.rels", Encoding.UTF8.GetBytes(Relationship("/3D/3dmodel.model"))),
            ("3D/3dmodel.model", Encoding.UTF8.GetBytes(model)),
        };
        if (other is not null)
        {
            parts.Add(("3D/other.model", Encoding.UTF8.GetBytes(other)));
            parts.Add(("3D/_rels/3dmodel.model.rels", Encoding.UTF8.GetBytes(Relationship("/3D/other.model"))));
        }

        return Packed(level, parts);
    }

    private static byte[] Packed(CompressionLevel level, List<(string Name, byte[] Content)> parts)
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in parts)
            {
                if (name.Length == 0) continue;
                using var entry = zip.CreateEntry(name, level).Open();
                entry.Write(content);
            }
        }

        return stream.ToArray();
    }
}
