using System.Text;
using System.Xml;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>Shared rules for reading the XML of a package.</summary>
internal static class ModelXml
{
    private const int DeepestNesting = 64;

    /// <summary>Runs a reading step and turns what the XML and ZIP readers find wrong into errors for the person who made the file.</summary>
    public static void Read(PackageParts package, string part, Action<XmlReader> step)
    {
        try
        {
            using var xml = package.OpenXml(part);
            step(xml);
        }
        catch (XmlException e)
        {
            throw e.Message.Contains("DTD", StringComparison.Ordinal)
                ? new MeshFormatException("dtd", $"The part \"{PackageParts.Shown(part)}\" of the 3MF package contains a document type definition, which the format forbids. Export the file again.", e)
                : Bad(part, e.LineNumber, $"the XML is not well formed", e);
        }
        catch (DecoderFallbackException e)
        {
            throw NotUtf8(part, e);
        }
        catch (Exception e) when (e is InvalidDataException or NotSupportedException or IOException)
        {
            throw PackageParts.Broken(e);
        }
    }

    public static MeshFormatException NotUtf8(string part, Exception? inner = null) => new("not-utf8",
        $"The part \"{PackageParts.Shown(part)}\" of the 3MF package is not UTF-8 text, which the format requires. Export the file again.", inner);

    public static MeshFormatException Bad(string part, int line, FormattableString what, Exception? inner = null) => new("bad-xml",
        $"Part \"{PackageParts.Shown(part)}\" of the 3MF package, line {line}: {what}. Export the file again.", inner);

    public static void CheckDepth(XmlReader xml)
    {
        if (xml.Depth > DeepestNesting)
            throw new MeshFormatException("too-deep", $"Elements of the 3MF package are nested more than {DeepestNesting} deep, which no model needs. Export the file again.");
    }
}
