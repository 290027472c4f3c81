using System.Text;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.Stl;

/// <summary>Reads text STL, one or several solids, as one mesh.</summary>
/// <remarks>
/// Tolerant where nothing can be misunderstood: any spacing and line ending, any case, any or no normal, a missing
/// <c>endsolid</c>. Strict where it could: three corners per facet, numbers with a point. See README.md for the format.
/// </remarks>
internal sealed class StlAscii
{
    private const int LongestName = 200;

    private readonly TextScanner _text;
    private readonly int _maxTriangles;
    private readonly double _limit;
    private readonly List<FormattableString> _warnings;
    private readonly GrowingCorners _corners;

    private StlAscii(TextScanner text, GrowingCorners corners, int maxTriangles, double limit, List<FormattableString> warnings) =>
        (_text, _corners, _maxTriangles, _limit, _warnings) = (text, corners, maxTriangles, limit, warnings);

    /// <summary>Reads and welds. The name is that of the first solid that has one.</summary>
    public static (string? Name, TriangleMesh Mesh) Read(
        Stream stream, LengthUnit unit, int maxTriangles, List<FormattableString> warnings, CancellationToken cancel)
    {
        using var text = new TextScanner(stream, backslashJoinsLines: false, cancel);
        using var corners = new GrowingCorners();
        var reader = new StlAscii(text, corners, maxTriangles, CornerLimits.LargestMm / CornerLimits.Millimetres(unit), warnings);
        var name = reader.ReadSolids();
        return (name, corners.ToMesh(unit));
    }

    private string? ReadSolids()
    {
        string? name = null;
        var open = false;
        for (var word = _text.NextWord(); !word.IsEmpty;)
        {
            if (Is(word, "solid"u8))
            {
                open = true;
                var found = ReadName();
                name ??= found;
            }
            else if (Is(word, "endsolid"u8))
            {
                open = false;
                ReadName();
            }
            else if (Is(word, "facet"u8))
            {
                ReadFacet();
            }
            else
            {
                throw Syntax(_text.Line, $"\"{Shown(word)}\" stands where a facet or the end of the solid should be");
            }

            word = _nextIsFacet ? "facet"u8 : _text.NextWord();
            _nextIsFacet = false;
        }

        if (_corners.Triangles == 0) throw CornerLimits.Empty($"The text starts like an STL file but holds no facet.");
        if (open) _warnings.Add($"The STL text has no closing \"endsolid\": check that nothing is missing at its end.");
        return name;
    }

    /// <summary>Set when a name ran into the first facet because the file has no line ends.</summary>
    private bool _nextIsFacet;

    /// <summary>A name goes to the end of its line, or, in a file written on one line, to the first facet.</summary>
    private string? ReadName()
    {
        var name = new StringBuilder();
        while (true)
        {
            var word = _text.NextWordOfLine();
            if (word.IsEmpty) break;
            if (Is(word, "facet"u8))
            {
                var next = _text.NextWordOfLine();
                if (Is(next, "normal"u8))
                {
                    _nextIsFacet = true;
                    break;
                }

                Append("facet"u8);
                word = next;
            }

            Append(word);
        }

        return name.Length > 0 ? name.ToString() : null;

        void Append(ReadOnlySpan<byte> word)
        {
            if (name.Length >= LongestName || word.IsEmpty) return;
            if (name.Length > 0) name.Append(' ');
            name.Append(Encoding.UTF8.GetString(word[..Math.Min(word.Length, LongestName)]));
        }
    }

    private void ReadFacet()
    {
        var line = _text.Line;
        Span<float> corners = stackalloc float[9];
        var count = 0;
        while (true)
        {
            var word = _text.NextWord();
            if (word.IsEmpty) throw Truncated();
            if (Is(word, "vertex"u8))
            {
                if (count == 3) throw Syntax(line, $"a facet has more than three corners; STL holds triangles only");
                for (var i = 0; i < 3; i++) corners[(3 * count) + i] = ReadCoordinate();
                count++;
            }
            else if (Is(word, "endfacet"u8))
            {
                if (count != 3) throw count == 1 ? Syntax(line, $"a facet has one corner instead of three") : Syntax(line, $"a facet has {count} corners instead of three");
                if (_corners.Triangles == _maxTriangles) throw CornerLimits.TooMany(_maxTriangles + 1L, _maxTriangles);
                _corners.AddTriangle(corners);
                return;
            }
            else if (Is(word, "facet"u8) || Is(word, "endsolid"u8) || Is(word, "solid"u8))
            {
                throw Syntax(_text.Line, $"\"{Shown(word)}\" stands where \"endfacet\" should be");
            }

            // The normal, "outer loop" and "endloop" say nothing the corners do not.
        }
    }

    private float ReadCoordinate()
    {
        var word = _text.NextWord();
        if (word.IsEmpty) throw Truncated();
        if (!DecimalNumber.TryParse(word, out var value))
        {
            if (IsNotFinite(word)) throw CornerLimits.InLine(_text.Line, double.NaN);
            throw new MeshFormatException("bad-number", $"Line {_text.Line}: \"{Shown(word)}\" is not a number. Numbers are written with digits and a decimal point, as in 12.5.");
        }

        if (!(Math.Abs(value) <= _limit)) throw CornerLimits.InLine(_text.Line, value);
        return (float)value;
    }

    internal static bool Is(ReadOnlySpan<byte> word, ReadOnlySpan<byte> keyword) => Ascii.EqualsIgnoreCase(word, keyword);

    /// <summary>A word of the file, fit to be shown in a message.</summary>
    internal static string Shown(ReadOnlySpan<byte> word)
    {
        var text = Encoding.UTF8.GetString(word[..Math.Min(word.Length, 40)]);
        return string.Concat(text.Select(c => char.IsControl(c) ? '·' : c)) + (word.Length > 40 ? "…" : "");
    }

    internal static bool IsNotFinite(ReadOnlySpan<byte> word)
    {
        if (word.Length > 0 && word[0] is (byte)'-' or (byte)'+') word = word[1..];
        return word.Length >= 3 && (Is(word[..3], "nan"u8) || Is(word[..3], "inf"u8) || word.StartsWith("1.#"u8));
    }

    /// <param name="what">A sentence without capital and full stop.</param>
    private static MeshFormatException Syntax(int line, FormattableString what) => new("bad-syntax", $"Line {line} of the STL text: {what}. Export the mesh again.");

    private MeshFormatException Truncated() => new("truncated",
        $"The STL text ends inside a facet, in line {_text.Line}. Part of it is missing: copy or export it again.");
}
