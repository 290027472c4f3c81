using System.Globalization;
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
    private readonly List<string> _warnings;
    private readonly GrowingCorners _corners;

    private StlAscii(TextScanner text, GrowingCorners corners, int maxTriangles, double limit, List<string> warnings) =>
        (_text, _corners, _maxTriangles, _limit, _warnings) = (text, corners, maxTriangles, limit, warnings);

    /// <summary>Reads and welds. The name is that of the first solid that has one.</summary>
    public static (string? Name, TriangleMesh Mesh) Read(
        Stream stream, LengthUnit unit, int maxTriangles, List<string> warnings, CancellationToken cancel)
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
                throw Unexpected(word, "a facet or the end of the solid");
            }

            word = _nextIsFacet ? "facet"u8 : _text.NextWord();
            _nextIsFacet = false;
        }

        if (_corners.Triangles == 0) throw CornerLimits.Empty("The text starts like an STL file but holds no facet.");
        if (open) _warnings.Add("The STL text has no closing \"endsolid\": check that nothing is missing at its end.");
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
                if (count == 3) throw Syntax(line, "a facet has more than three corners; STL holds triangles only");
                for (var i = 0; i < 3; i++) corners[(3 * count) + i] = ReadCoordinate();
                count++;
            }
            else if (Is(word, "endfacet"u8))
            {
                if (count != 3) throw Syntax(line, string.Create(CultureInfo.InvariantCulture, $"a facet has {count} corners instead of three"));
                if (_corners.Triangles == _maxTriangles) throw CornerLimits.TooMany(_maxTriangles + 1L, _maxTriangles);
                _corners.AddTriangle(corners);
                return;
            }
            else if (Is(word, "facet"u8) || Is(word, "endsolid"u8) || Is(word, "solid"u8))
            {
                throw Unexpected(word, "\"endfacet\"");
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
            if (IsNotFinite(word)) throw CornerLimits.Refused(double.NaN, InLine(_text.Line));
            throw new MeshFormatException("bad-number", string.Create(CultureInfo.InvariantCulture,
                $"Line {_text.Line}: \"{Shown(word)}\" is not a number. Numbers are written with digits and a decimal point, as in 12.5."));
        }

        if (!(Math.Abs(value) <= _limit)) throw CornerLimits.Refused(value, InLine(_text.Line));
        return (float)value;
    }

    internal static bool Is(ReadOnlySpan<byte> word, ReadOnlySpan<byte> keyword) => Ascii.EqualsIgnoreCase(word, keyword);

    internal static string InLine(int line) => string.Create(CultureInfo.InvariantCulture, $"in line {line}");

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

    private MeshFormatException Unexpected(ReadOnlySpan<byte> word, string expected) =>
        Syntax(_text.Line, $"\"{Shown(word)}\" stands where {expected} should be");

    private static MeshFormatException Syntax(int line, string what) => new("bad-syntax",
        string.Create(CultureInfo.InvariantCulture, $"Line {line} of the STL text: {what}. Export the mesh again."));

    private MeshFormatException Truncated() => new("truncated", string.Create(CultureInfo.InvariantCulture,
        $"The STL text ends inside a facet, in line {_text.Line}. Part of it is missing: copy or export it again."));
}
