using System.IO.Compression;
using System.Text;
using Catalogue.Geometry.Formats;

namespace Catalogue.Geometry.Tests.Formats.ThreeMf;

/// <summary>Small 3MF packages written by hand, right or wrong as the test wants them.</summary>
internal sealed class Package
{
    public const string Core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
    public const string Production = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06";
    private const string ModelType = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";

    /// <summary>A tetrahedron with corners at the origin and 10 along each axis: volume 1000 / 6.</summary>
    public const string TetrahedronMesh = """
        <mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="10" y="0" z="0"/><vertex x="0" y="10" z="0"/><vertex x="0" y="0" z="10"/></vertices>
        <triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles></mesh>
        """;

    private readonly List<(string Path, byte[] Content)> _parts = [];

    public Package() => With("[Content_Types].xml", """
        <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
        """).With("_rels/.rels", Relationships(("/3D/3dmodel.model", ModelType)));

    public static string Relationships(params (string Target, string Type)[] all) =>
        $"<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">{string.Concat(all.Select((r, i) =>
            $"<Relationship Id=\"r{i}\" Type=\"{r.Type}\" Target=\"{r.Target}\"/>"))}</Relationships>";

    /// <summary>A package whose model has these resources and build.</summary>
    public static Package Of(string resources, string build, string attributes = "") => new Package().With("3D/3dmodel.model",
        $"<model xmlns=\"{Core}\" xmlns:p=\"{Production}\" {attributes}><resources>{resources}</resources><build>{build}</build></model>");

    /// <summary>The tetrahedron as object 1, built with these items.</summary>
    public static Package Tetrahedron(string build = "<item objectid=\"1\"/>", string attributes = "") =>
        Of($"<object id=\"1\">{TetrahedronMesh}</object>", build, attributes);

    public Package With(string path, string content) => With(path, Encoding.UTF8.GetBytes(content));

    public Package With(string path, byte[] content)
    {
        _parts.RemoveAll(p => p.Path == path);
        return Adding(path, content);
    }

    public Package Adding(string path, byte[] content)
    {
        _parts.Add((path, content));
        return this;
    }

    public Package Without(string path)
    {
        _parts.RemoveAll(p => p.Path == path);
        return this;
    }

    public byte[] ToBytes()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (path, content) in _parts)
            {
                using var entry = zip.CreateEntry(path).Open();
                entry.Write(content);
            }
        }

        return stream.ToArray();
    }

    public MeshFile Read() => Reading.Bytes(ToBytes());

    public MeshFormatException Refused(string code) => Reading.Refused(ToBytes(), code);
}
