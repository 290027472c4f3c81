using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats;

/// <summary>How a mesh file is written; told by content, never by name.</summary>
public enum MeshFormat
{
    StlBinary,
    StlAscii,
    Obj,
    ThreeMf,
}

/// <summary>The length that a file's number 1 stands for.</summary>
public enum LengthUnit
{
    Millimetre,
    Micron,
    Centimetre,
    Inch,
    Foot,
    Metre,
}

/// <summary>What a mesh file holds, already in millimetres.</summary>
/// <param name="Format">Told by content.</param>
/// <param name="Unit">The unit the numbers were read in.</param>
/// <param name="UnitStated">True when the file or the caller said so; false when millimetres were assumed.</param>
/// <param name="Items">The things to build: one for STL and OBJ, one per build item for 3MF. Never empty.</param>
/// <param name="Warnings">Sentences for the person who uploaded it: a guessed unit, ignored content. With their holes, so that they can be said in another language.</param>
public sealed record MeshFile(
    MeshFormat Format, LengthUnit Unit, bool UnitStated, IReadOnlyList<MeshItem> Items, IReadOnlyList<FormattableString> Warnings)
{
    /// <summary>Everything there is to build, as one mesh; not welded across items. O(n) where there are several.</summary>
    public TriangleMesh Whole() => Items.Count == 1 ? Items[0].Mesh : Solids.Together([.. Items.Select(i => i.Mesh)]);
}

/// <summary>One thing to build: a welded mesh and the name the file gives it, if any.</summary>
public sealed record MeshItem(string? Name, TriangleMesh Mesh);

/// <summary>The bounds a reader keeps to, whatever a file claims.</summary>
public sealed record MeshReadOptions
{
    public static MeshReadOptions Default { get; } = new();

    /// <summary>The unit to read in where the file states none; null = millimetres, with a warning where that is implausible.</summary>
    public LengthUnit? Unit { get; init; }

    /// <summary>More triangles than this are refused before memory is taken for them.</summary>
    public int MaxTriangles { get; init; } = 20_000_000;
}

/// <summary>A file that cannot be read as a mesh.</summary>
public sealed class MeshFormatException : Exception
{
    public MeshFormatException(string code, FormattableString said, Exception? inner = null)
        : base(null, inner) => (Code, Said) = (code, said);

    /// <summary>A stable word for programs: <c>empty</c>, <c>truncated</c>, <c>not-a-mesh</c>, <c>not-finite</c>, …</summary>
    public string Code { get; }

    /// <summary>What is wrong and where, for the person who made the file: a text and what goes into its holes. A hole may hold another such text.</summary>
    public FormattableString Said { get; }

    /// <summary>In English.</summary>
    public override string Message => FormattableString.Invariant(Said);
}
