using System.Buffers.Text;
using System.Globalization;
using System.Numerics;
using System.Text;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.Obj;

/// <summary>Reads the polygons of an OBJ file as one mesh.</summary>
/// <remarks>
/// Vertices (<c>v</c>) and faces (<c>f</c>) make the mesh; texture, normals, groups and materials do not change its shape and
/// are passed over; lines, points and free-form surfaces are left out with a warning. A face may name a vertex that follows
/// later. A vertex that cannot be read matters only if a face uses it. See README.md for the format.
/// </remarks>
internal sealed class ObjReader : IDisposable
{
    private const int LongestName = 200;
    private const int MostRefused = 10_000;
    private const int NotUsable = -1;

    private readonly TextScanner _text;
    private readonly int _maxTriangles;
    private readonly double _limit;
    private readonly ExactWeld _weld = new(4096);
    private readonly Chunks<int> _vertices = new();
    private readonly Chunks<int> _triangles = new();
    private readonly Dictionary<int, MeshFormatException> _refused = [];
    private readonly PolygonTriangulation _cutter = new();
    private readonly List<int> _corners = [];
    private readonly Chunks<int> _later = new();
    private Vec3[] _places = [];
    private int[] _cut = [];
    private string? _name;
    private int _tangled, _firstTangledLine;
    private bool _freeForm, _linesOrPoints;

    private ObjReader(TextScanner text, int maxTriangles, double limit) => (_text, _maxTriangles, _limit) = (text, maxTriangles, limit);

    /// <summary>Reads and welds. The name is that of the first object that has one.</summary>
    public static (string? Name, TriangleMesh Mesh) Read(
        Stream stream, LengthUnit unit, int maxTriangles, List<FormattableString> warnings, CancellationToken cancel)
    {
        using var text = new TextScanner(stream, backslashJoinsLines: true, cancel);
        using var reader = new ObjReader(text, maxTriangles, CornerLimits.LargestMm / CornerLimits.Millimetres(unit));
        reader.ReadStatements();
        reader.AddLaterFaces();
        reader.Warn(warnings);
        return (reader._name, reader.ToMesh(unit));
    }

    public void Dispose() => _weld.Dispose();

    private void ReadStatements()
    {
        for (var word = _text.NextWord(); !word.IsEmpty; word = _text.NextWord())
        {
            if (word[0] == (byte)'#')
            {
                _text.SkipComment();
                continue;
            }

            if (word.SequenceEqual("v"u8)) ReadVertex();
            else if (word.SequenceEqual("f"u8) || word.SequenceEqual("fo"u8)) ReadFace();
            else if (word.SequenceEqual("o"u8) && _name is null) _name = ReadName();
            else if (word.SequenceEqual("l"u8) || word.SequenceEqual("p"u8)) _linesOrPoints = true;
            else if (word.SequenceEqual("curv"u8) || word.SequenceEqual("surf"u8)) _freeForm = true;
            _text.SkipLine();
        }
    }

    private string? ReadName()
    {
        var name = new StringBuilder();
        for (var word = _text.NextWordOfLine(); !word.IsEmpty && name.Length < LongestName; word = _text.NextWordOfLine())
        {
            if (name.Length > 0) name.Append(' ');
            name.Append(Encoding.UTF8.GetString(word[..Math.Min(word.Length, LongestName)]));
        }

        return name.Length > 0 ? name.ToString() : null;
    }

    private void ReadVertex()
    {
        Span<float> place = stackalloc float[3];
        for (var i = 0; i < 3; i++)
        {
            var word = _text.NextWordOfLine();
            if (!DecimalNumber.TryParse(word, out var value))
            {
                Refuse(StlAscii.IsNotFinite(word) ? CornerLimits.InLine(_text.Line, double.NaN) : BadNumber(word));
                return;
            }

            if (!(Math.Abs(value) <= _limit))
            {
                Refuse(CornerLimits.InLine(_text.Line, value));
                return;
            }

            place[i] = (float)value;
        }

        _vertices.Add(_weld.Add(new Vector3(place)));
    }

    /// <summary>A vertex that no face may use.</summary>
    private void Refuse(MeshFormatException reason)
    {
        if (_refused.Count == MostRefused) throw reason;
        _refused.Add(_vertices.Count, reason);
        _vertices.Add(NotUsable);
    }

    private void ReadFace()
    {
        var line = _text.Line;
        _corners.Clear();
        var forward = false;
        for (var word = _text.NextWordOfLine(); !word.IsEmpty; word = _text.NextWordOfLine())
        {
            if (word[0] == (byte)'#') break;
            var vertex = ReadReference(word, line);
            forward |= vertex >= _vertices.Count;
            if (_corners.Count == PolygonTriangulation.MostCorners)
                throw Bad("too-many-corners", line, $"a face has more than {PolygonTriangulation.MostCorners} corners");
            _corners.Add(vertex);
        }

        if (_corners.Count == 1) throw Bad("bad-face", line, $"a face has one corner; it needs at least three");
        if (_corners.Count < 3) throw Bad("bad-face", line, $"a face has {_corners.Count} corners; it needs at least three");
        if (!forward)
        {
            AddFace(line);
            return;
        }

        _later.Add(line);
        _later.Add(_corners.Count);
        foreach (var corner in _corners) _later.Add(corner);
    }

    /// <summary>The vertex named by the first number of "v", "v/vt", "v//vn" or "v/vt/vn", counted from 0.</summary>
    private int ReadReference(ReadOnlySpan<byte> word, int line)
    {
        var slash = word.IndexOf((byte)'/');
        var number = slash < 0 ? word : word[..slash];
        if (number.Length > 0 && number[0] == (byte)'+') number = number[1..];
        if (!Utf8Parser.TryParse(number, out long index, out var read) || read != number.Length)
        {
            var digits = number.TrimStart((byte)'-');
            throw digits.Length >= Math.Max(1, number.Length - 1) && !digits.ContainsAnyExceptInRange((byte)'0', (byte)'9')
                ? OutOfRange(StlAscii.Shown(number), line)
                : Bad("bad-face", line, $"\"{StlAscii.Shown(word)}\" is no vertex number");
        }

        var vertex = index > 0 ? index - 1 : _vertices.Count + index;
        return index == 0 || vertex < 0 || vertex >= int.MaxValue ? throw OutOfRange(StlAscii.Shown(number), line) : (int)vertex;
    }

    private void AddLaterFaces()
    {
        for (var i = 0; i < _later.Count;)
        {
            var (line, count) = (_later[i], _later[i + 1]);
            i += 2;
            _corners.Clear();
            for (var end = i + count; i < end; i++)
            {
                if (_later[i] >= _vertices.Count) throw OutOfRange((_later[i] + 1L).ToString(CultureInfo.InvariantCulture), line);
                _corners.Add(_later[i]);
            }

            AddFace(line);
        }
    }

    private void AddFace(int line)
    {
        var n = _corners.Count;
        if ((_triangles.Count / 3) + n - 2 > _maxTriangles) throw CornerLimits.TooMany(_maxTriangles + 1L, _maxTriangles);
        for (var i = 0; i < n; i++)
        {
            var vertex = _vertices[_corners[i]];
            if (vertex == NotUsable) throw _refused[_corners[i]];
            _corners[i] = vertex;
        }

        if (n == 3)
        {
            AddTriangle(0, 1, 2);
            return;
        }

        if (_places.Length < n) (_places, _cut) = (new Vec3[Math.Max(n, 16)], new int[3 * Math.Max(n, 16)]);
        var positions = _weld.Positions;
        for (var i = 0; i < n; i++)
        {
            var at = 3 * _corners[i];
            _places[i] = new(positions[at], positions[at + 1], positions[at + 2]);
        }

        var cut = _cut.AsSpan(0, 3 * (n - 2));
        if (!_cutter.Cut(_places.AsSpan(0, n), cut) && _tangled++ == 0) _firstTangledLine = line;
        for (var i = 0; i < cut.Length; i += 3) AddTriangle(cut[i], cut[i + 1], cut[i + 2]);
    }

    private void AddTriangle(int a, int b, int c)
    {
        _triangles.Add(_corners[a]);
        _triangles.Add(_corners[b]);
        _triangles.Add(_corners[c]);
    }

    private void Warn(List<FormattableString> warnings)
    {
        if (_tangled > 0)
        {
            warnings.Add(_tangled == 1
                ? (FormattableString)$"One of the faces crosses itself or is folded, in line {_firstTangledLine}; its triangles may overlap."
                : $"{_tangled:N0} of the faces cross themselves or are folded, the first in line {_firstTangledLine}; their triangles may overlap.");
        }

        if (_freeForm) warnings.Add($"Free-form curves and surfaces of the OBJ file are not read.");
        if (_linesOrPoints) warnings.Add($"Lines and points of the OBJ file are not read.");
    }

    /// <summary>The triangles with the vertices they use, numbered as they first appear.</summary>
    private TriangleMesh ToMesh(LengthUnit unit)
    {
        if (_triangles.Count == 0)
        {
            throw _vertices.Count > 0
                ? CornerLimits.Empty($"The OBJ file holds points but no faces.")
                : new MeshFormatException("not-a-mesh", $"This text holds no vertices and no faces. STL, OBJ and 3MF are read: export the part as one of them.");
        }

        var indices = _triangles.ToArray();
        var positions = _weld.Positions;
        var numbers = new int[_weld.VertexCount];
        var used = 0;
        foreach (var vertex in indices)
            if (numbers[vertex] == 0) numbers[vertex] = ++used;
        var kept = GC.AllocateUninitializedArray<float>(3 * used);
        for (var v = 0; v < numbers.Length; v++)
            if (numbers[v] > 0) positions.Slice(3 * v, 3).CopyTo(kept.AsSpan(3 * (numbers[v] - 1)));
        for (var i = 0; i < indices.Length; i++) indices[i] = numbers[indices[i]] - 1;
        return CornerLimits.InMillimetres(kept, indices, unit);
    }

    private MeshFormatException BadNumber(ReadOnlySpan<byte> word) => word.IsEmpty
        ? Bad("bad-number", _text.Line, $"a vertex that a face uses has fewer than three coordinates")
        : Bad("bad-number", _text.Line, $"\"{StlAscii.Shown(word)}\" is not a number, and a face uses that vertex. Numbers are written with digits and a decimal point, as in 12.5");

    private MeshFormatException OutOfRange(string index, int line) => Bad("bad-index", line,
        $"a face names vertex {index}, but there are {_vertices.Count}, counted from 1");

    /// <param name="what">A sentence without capital and full stop.</param>
    private static MeshFormatException Bad(string code, int line, FormattableString what) => new(code, $"Line {line} of the OBJ file: {what}. Export the mesh again.");
}
