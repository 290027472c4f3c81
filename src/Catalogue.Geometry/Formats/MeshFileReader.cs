using Catalogue.Geometry.Formats.Obj;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats;

/// <summary>Reads a mesh file of any known format, told by its content: name and header words do not decide.</summary>
/// <remarks>
/// Binary STL is read in chunks and never held whole. The meshes come out welded exactly and in millimetres.
/// Thread-safe; a stream is read forward once unless it is a 3MF package.
/// </remarks>
public static class MeshFileReader
{
    /// <summary>Reads from the stream's present position to its end.</summary>
    /// <exception cref="MeshFormatException">The content is not a mesh this program reads, or breaks a bound.</exception>
    public static MeshFile Read(Stream stream, MeshReadOptions? options = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(stream);
        return Read(stream, stream.CanSeek ? stream.Length - stream.Position : null, options, cancel);
    }

    /// <summary>Reads from a stream of known length, as an upload often is, without seeking.</summary>
    /// <param name="length">Bytes to the end; null when not known.</param>
    /// <exception cref="MeshFormatException">The content is not a mesh this program reads, or breaks a bound.</exception>
    public static MeshFile Read(Stream stream, long? length, MeshReadOptions? options = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(stream);
        options ??= MeshReadOptions.Default;
        var start = stream.CanSeek ? stream.Position : -1;
        using var content = new PeekedStream(stream, length);
        var warnings = new List<FormattableString>();
        var kind = ContentKind.Of(content.Head, content.KnownLength);
        var unit = options.Unit ?? LengthUnit.Millimetre;
        MeshFormat format;
        MeshItem item;
        switch (kind.Kind)
        {
            case ContentKind.StlBinary:
                format = MeshFormat.StlBinary;
                item = new(null, StlBinary.Read(content, content.KnownLength, unit, options.MaxTriangles, cancel));
                break;
            case ContentKind.StlAscii:
                format = MeshFormat.StlAscii;
                using (var text = kind.AsUtf8(content))
                {
                    var (name, mesh) = StlAscii.Read(text, unit, options.MaxTriangles, warnings, cancel);
                    item = new(name, mesh);
                }

                break;
            case ContentKind.Obj:
                format = MeshFormat.Obj;
                using (var text = kind.AsUtf8(content))
                {
                    var (name, mesh) = ObjReader.Read(text, unit, options.MaxTriangles, warnings, cancel);
                    item = new(name, mesh);
                }

                break;
            case ContentKind.Package:
                return ReadPackage(content, stream, start, options, cancel);
            default:
                throw new MeshFormatException("not-a-mesh", $"This is not a mesh file that can be read here. STL (binary or text), OBJ and 3MF can: export the part as one of them.");
        }

        if (options.Unit is null && ImplausibleSize(item.Mesh) is { } warning) warnings.Add(warning);
        return new(format, unit, options.Unit is not null, [item], warnings);
    }

    /// <summary>A package is read from its end: from the stream itself where that can be, else from memory.</summary>
    private static MeshFile ReadPackage(PeekedStream content, Stream stream, long start, MeshReadOptions options, CancellationToken cancel)
    {
        MeshFile file;
        if (start == 0 && (content.KnownLength is not { } length || length == stream.Length))
        {
            stream.Position = 0;
            file = ThreeMfReader.Read(stream, options.MaxTriangles, cancel);
        }
        else
        {
            using var memory = new MemoryStream();
            content.CopyTo(memory);
            memory.Position = 0;
            file = ThreeMfReader.Read(memory, options.MaxTriangles, cancel);
        }

        return options.Unit is { } unit && unit != file.Unit
            ? file with { Warnings = [.. file.Warnings, $"The 3MF file states its own unit; the unit asked for was not used."] }
            : file;
    }

    /// <summary>A warning when a mesh of unstated unit makes no sense in millimetres; null when it does.</summary>
    /// <remarks>
    /// Limits (practice): a figure is some 50 to 500 mm tall and hardly any part of one is under 8 mm in its longest
    /// direction; 1 to 8 units read as inches give 25 to 203 mm, less than 1 read as metres up to 1 m.
    /// </remarks>
    private static FormattableString? ImplausibleSize(TriangleMesh mesh)
    {
        var size = mesh.Bounds.Size;
        var longest = Math.Max(size.X, Math.Max(size.Y, size.Z));
        return longest switch
        {
            0 => null,
            < 1 => $"The file does not state its unit. Read as millimetres the part is {longest:0.###} mm long; read as metres it would be {longest * 1000:0.#} mm. State the unit if millimetres are wrong.",
            < 8 => $"The file does not state its unit. Read as millimetres the part is {longest:0.###} mm long; read as inches it would be {longest * 25.4:0.#} mm. State the unit if millimetres are wrong.",
            > 5000 => $"The file does not state its unit. Read as millimetres the part is {longest:0.###} mm long; read as microns it would be {longest * 0.001:0.#} mm. State the unit if millimetres are wrong.",
            _ => null,
        };
    }
}
