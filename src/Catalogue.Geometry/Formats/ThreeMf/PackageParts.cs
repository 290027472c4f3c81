using System.IO.Compression;
using System.Text;
using System.Xml;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>The parts of a 3MF package: a ZIP file by the Open Packaging Conventions. Nothing outside it is ever opened.</summary>
internal sealed class PackageParts : IDisposable
{
    private readonly ZipArchive _zip;
    private readonly UnfoldBudget _budget;
    private readonly Dictionary<string, ZipArchiveEntry> _parts = new(StringComparer.OrdinalIgnoreCase);

    private PackageParts(ZipArchive zip, UnfoldBudget budget) => (_zip, _budget) = (zip, budget);

    /// <param name="stream">Seekable, positioned at 0; not closed.</param>
    public static PackageParts Open(Stream stream, UnfoldBudget budget)
    {
        PackageParts? package = null;
        try
        {
            var zip = Guarded(() => new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true));
            package = new PackageParts(zip, budget);
            foreach (var entry in Guarded(() => zip.Entries))
            {
                // Folders are no parts, and a leading slash is not part of a ZIP item's name; some programs write it.
                if (entry.FullName.EndsWith('/')) continue;
                if (!package._parts.TryAdd(entry.FullName.TrimStart('/'), entry))
                    throw new MeshFormatException("duplicate-part", $"The 3MF package holds two parts called \"{Shown(entry.FullName)}\"; it is not clear which one counts. Export the file again.");
            }

            return package;
        }
        catch
        {
            package?.Dispose();
            throw;
        }
    }

    public void Dispose() => _zip.Dispose();

    /// <param name="path">Absolute, from the package's root, with or without the leading slash.</param>
    public bool Has(string path) => _parts.ContainsKey(path.TrimStart('/'));

    /// <summary>An XML reader over a part that exists: UTF-8 only, no DTD, nothing resolved. It reads at once: see <see cref="ModelXml.Read"/>.</summary>
    public XmlReader OpenXml(string path)
    {
        var entry = _parts[path.TrimStart('/')];
        var text = new StreamReader(
            new PackageText(Guarded(entry.Open), Shown(path), _budget), new UTF8Encoding(true, throwOnInvalidBytes: true), false, 1 << 14);
        return XmlReader.Create(text, new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            NameTable = new BoundedNameTable(),
            CloseInput = true,
        });
    }

    /// <summary>Relationships of a part, or of the package for an empty path; none when it has no relationships part.</summary>
    public List<(string Type, string Target)> RelationshipsOf(string path)
    {
        var slash = path.LastIndexOf('/');
        var folder = path[..(slash + 1)];
        var found = new List<(string, string)>();
        var part = $"{folder}_rels/{path[(slash + 1)..]}.rels";
        if (!Has(part)) return found;
        ModelXml.Read(this, part, xml =>
        {
            while (xml.Read())
            {
                ModelXml.CheckDepth(xml);
                if (xml.NodeType != XmlNodeType.Element || xml.LocalName != "Relationship" || xml.NamespaceURI != ThreeMfNames.Relationships) continue;
                var (type, target) = (xml.GetAttribute("Type") ?? "", xml.GetAttribute("Target") ?? "");
                var external = xml.GetAttribute("TargetMode") == "External";
                if (type is not (ThreeMfNames.ModelRelationship or ThreeMfNames.PrintTicketRelationship)) continue;
                if (external)
                    throw new MeshFormatException("outside-package", $"The 3MF package refers to \"{Shown(target)}\" outside itself. Nothing outside a package is opened: export the file with everything in it.");
                found.Add((type, Resolved(folder, target)));
            }
        });
        return found;
    }

    /// <summary>A target, relative to a folder or absolute, as a path from the root.</summary>
    /// <exception cref="MeshFormatException"><c>outside-package</c> when it leads out of the package.</exception>
    public static string Resolved(string folder, string target)
    {
        var path = Uri.UnescapeDataString(target.StartsWith('/') ? target : "/" + folder.TrimStart('/') + target);
        var names = new List<string>();
        foreach (var name in path.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            if (name == ".") continue;
            if (name != "..") names.Add(name);
            else if (names.Count > 0) names.RemoveAt(names.Count - 1);
            else throw new MeshFormatException("outside-package", $"The 3MF package refers to \"{Shown(target)}\", which leads out of it. Export the file again.");
        }

        return "/" + string.Join('/', names);
    }

    /// <summary>A name from the file, fit to be shown in a message.</summary>
    public static string Shown(string name)
    {
        var cut = name.Length <= 80 ? name.Length : char.IsHighSurrogate(name[79]) ? 79 : 80;
        return string.Concat(name.Take(cut).Select(c => char.IsControl(c) ? '·' : c)) + (cut < name.Length ? "…" : "");
    }

    /// <summary>What the ZIP reader finds wrong becomes an error for the person who made the file.</summary>
    public static T Guarded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is InvalidDataException or NotSupportedException or IOException or ArgumentException or OverflowException)
        {
            throw Broken(e);
        }
    }

    public static MeshFormatException Broken(Exception inner) => new("bad-package",
        $"The 3MF file is not a whole ZIP package: it is damaged, encrypted or packed in a way that is not allowed. Copy or export it again.", inner);
}
