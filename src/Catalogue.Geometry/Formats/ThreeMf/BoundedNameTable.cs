using System.Xml;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>Names of an XML document, few enough to keep: a reader remembers every different name it has seen.</summary>
internal sealed class BoundedNameTable : NameTable
{
    private const int MostNames = 20_000;

    private int _names;

    public override string Add(char[] key, int start, int len) => Get(key, start, len) ?? Counted(base.Add(key, start, len));

    public override string Add(string key) => Get(key) ?? Counted(base.Add(key));

    private string Counted(string name) => ++_names <= MostNames
        ? name
        : throw new MeshFormatException("bad-xml", $"The 3MF package uses more different names for elements and attributes than any model can. Export the file again.");
}
