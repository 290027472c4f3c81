using System.Globalization;
using System.Numerics;
using System.Xml;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>Reads one model part, forward only: its unit, its objects in mm, and, of the root part, what is built.</summary>
/// <remarks>Elements and attributes of namespaces not understood are passed over, unless the part says they are required.</remarks>
internal sealed class ModelReader
{
    /// <summary>Working memory of a vertex: its number, its place while the array grows, its slots in the weld.</summary>
    private const int BytesPerVertex = 80;
    private const int BytesPerTriangle = 24;
    private const int BytesKeptPerVertex = 12;
    private const int BytesKeptPerTriangle = 12;

    private readonly XmlReader _xml;
    private readonly string _path;
    private readonly bool _isRoot;
    private readonly UnfoldBudget _budget;
    private readonly ISet<FormattableString> _warnings;
    private readonly CancellationToken _cancel;
    private readonly Dictionary<int, ModelObject> _objects = [];
    private readonly HashSet<int> _resourceIds = [];
    private readonly List<BuildItem> _items = [];
    private double _unit = 1;
    private int _sinceCancelCheck;

    private ModelReader(XmlReader xml, string path, bool isRoot, UnfoldBudget budget, ISet<FormattableString> warnings, CancellationToken cancel) =>
        (_xml, _path, _isRoot, _budget, _warnings, _cancel) = (xml, path, isRoot, budget, warnings, cancel);

    public static ModelPart Read(
        PackageParts package, string path, bool isRoot, UnfoldBudget budget, ISet<FormattableString> warnings, CancellationToken cancel)
    {
        ModelPart? part = null;
        ModelXml.Read(package, path, xml => part = new ModelReader(xml, path, isRoot, budget, warnings, cancel).ReadPart());
        return part!;
    }

    private ModelPart ReadPart()
    {
        while (_xml.Read() && _xml.NodeType != XmlNodeType.Element)
        {
            if (_xml.NodeType == XmlNodeType.XmlDeclaration && _xml.GetAttribute("encoding") is { } encoding
                && !encoding.Equals("utf-8", StringComparison.OrdinalIgnoreCase))
            {
                throw ModelXml.NotUtf8(_path);
            }
        }

        if (!IsCore("model"))
            throw Error("not-a-model", $"the part that should describe the model has another root element");
        CheckElement();
        var unitWord = _xml.GetAttribute("unit")?.Trim() ?? "millimeter";
        var unit = ThreeMfNames.Unit(unitWord) ?? throw Error("bad-unit",
            $"\"{PackageParts.Shown(unitWord)}\" is no unit; micron, millimeter, centimeter, inch, foot and meter are");
        _unit = CornerLimits.Millimetres(unit);
        CheckRequiredExtensions();

        var (resources, build) = (0, 0);
        if (!_xml.IsEmptyElement)
        {
            for (var depth = _xml.Depth; NextChild(depth);)
            {
                if (IsCore("resources"))
                {
                    resources++;
                    ReadResources();
                }
                else if (IsCore("build"))
                {
                    build++;
                    ReadBuild();
                }
            }
        }

        if (resources == 0) throw Error("missing-resources", $"the model has no resources element, so nothing that could be built");
        if (build == 0 && _isRoot) throw Error("missing-build", $"the model has no build element, so nothing is to be built");
        if (resources > 1 || build > 1) throw Error("repeated-section", $"the model has more than one resources or build element");
        ReadToEnd();
        return new(unit, _objects, _items);
    }

    /// <summary>Nothing but comments and white space may follow the model.</summary>
    private void ReadToEnd()
    {
        try
        {
            while (_xml.Read())
            {
            }
        }
        catch (XmlException e)
        {
            throw new MeshFormatException("several-models", Told(e.LineNumber, $"something follows the model element; a part holds exactly one model"), e);
        }
    }

    private void CheckRequiredExtensions()
    {
        foreach (var prefix in (_xml.GetAttribute("requiredextensions") ?? "").Split([' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries))
        {
            var ns = _xml.LookupNamespace(prefix)
                ?? throw Error("unsupported-extension", $"the required extension \"{PackageParts.Shown(prefix)}\" is not declared");
            if (!ThreeMfNames.IsUnderstood(ns))
                throw Error("unsupported-extension", $"the file requires the extension \"{PackageParts.Shown(ns)}\", which is not supported here; save it without that extension");
            if (ns == ThreeMfNames.Materials) _warnings.Add($"Colours and materials of the 3MF file are not read.");
        }
    }

    private void ReadResources()
    {
        if (_xml.IsEmptyElement) return;
        for (var depth = _xml.Depth; NextChild(depth);)
        {
            if (IsCore("object")) ReadObject();
            else if (IsCore("basematerials") || _xml.NamespaceURI == ThreeMfNames.Materials) TakeId();
        }
    }

    private int TakeId()
    {
        var id = Id("id");
        if (!_resourceIds.Add(id))
            throw Error("duplicate-id", $"the resource id {id} is used twice");
        return id;
    }

    private void ReadObject()
    {
        var id = TakeId();
        var name = _xml.GetAttribute("name");
        var type = (_xml.GetAttribute("type")?.Trim() ?? "model") switch
        {
            "model" => ObjectType.Model,
            "surface" => ObjectType.Surface,
            "support" or "solidsupport" => ObjectType.Support,
            "other" => ObjectType.Other,
            var word => throw Error("bad-object-type", $"\"{PackageParts.Shown(word)}\" is no object type"),
        };
        if (_xml.GetAttribute("pindex") is not null && _xml.GetAttribute("pid") is null)
            throw Error("missing-pid", $"object {id} gives a pindex without the pid it counts in");
        TriangleMesh? mesh = null;
        var components = new List<Component>();
        if (!_xml.IsEmptyElement)
        {
            for (var depth = _xml.Depth; NextChild(depth);)
            {
                if (IsCore("mesh")) mesh = ReadMesh(id);
                else if (IsCore("components")) ReadComponents(components);
            }
        }

        _objects.Add(id, new(name, type, mesh, components));
    }

    private void ReadComponents(List<Component> components)
    {
        if (_xml.IsEmptyElement) return;
        for (var depth = _xml.Depth; NextChild(depth);)
        {
            if (!IsCore("component")) continue;
            if (!_isRoot && _xml.GetAttribute("path", ThreeMfNames.Production) is not null)
                throw Error("nested-path", $"a component outside the root model refers to yet another part, which the production extension forbids");
            components.Add(ReadUse());
            _budget.TakeMesh(160);
        }
    }

    private void ReadBuild()
    {
        if (!_isRoot || _xml.IsEmptyElement) return;
        for (var depth = _xml.Depth; NextChild(depth);)
        {
            if (!IsCore("item")) continue;
            _items.Add(new(ReadUse(), _xml.GetAttribute("partnumber")));
            _budget.TakeMesh(160);
        }
    }

    private Component ReadUse()
    {
        var path = _xml.GetAttribute("path", ThreeMfNames.Production);
        return new(path is null ? _path : PackageParts.Resolved("/", path.Trim()), Id("objectid"), ReadTransform());
    }

    private Affine ReadTransform()
    {
        var text = _xml.GetAttribute("transform");
        if (text is null) return Affine.Identity;
        Span<double> m = stackalloc double[12];
        var count = 0;
        foreach (var range in text.AsSpan().SplitAny(" \t\r\n"))
        {
            var word = text.AsSpan()[range];
            if (word.IsEmpty) continue;
            if (count == 12 || !TryNumber(word, out m[count++]) || !double.IsFinite(m[count - 1])) throw NotTwelve();
        }

        if (count != 12) throw NotTwelve();
        var map = new Affine(new(m[0], m[1], m[2]), new(m[3], m[4], m[5]), new(m[6], m[7], m[8]), new Vec3(m[9], m[10], m[11]) * _unit);
        var scale = map.X.Length * map.Y.Length * map.Z.Length;
        if (!(Math.Abs(map.Determinant) > 1e-12 * scale) || !double.IsFinite(scale)) throw Error("bad-transform", $"a transform flattens the object to nothing");
        return map;
        MeshFormatException NotTwelve() => Error("bad-transform", $"a transform is not twelve numbers");
    }

    private TriangleMesh ReadMesh(int id)
    {
        using var weld = new ExactWeld(64);
        var numbers = new Chunks<int>();
        var indices = new Chunks<int>();
        if (!_xml.IsEmptyElement)
        {
            for (var depth = _xml.Depth; NextChild(depth);)
            {
                if (IsCore("vertices")) ReadVertices(weld, numbers, id);
                else if (IsCore("triangles")) ReadTriangles(numbers, indices, id);
                else if (_xml.NamespaceURI == ThreeMfNames.BeamLattice) _warnings.Add($"Beams of the 3MF file are not read.");
            }
        }

        var mesh = new TriangleMesh(weld.ToPositions(), indices.ToArray());
        _budget.GiveBackMesh(((long)(BytesPerVertex - BytesKeptPerVertex) * numbers.Count) + ((long)(BytesPerTriangle - BytesKeptPerTriangle) * mesh.TriangleCount));
        return mesh;
    }

    private void ReadVertices(ExactWeld weld, Chunks<int> numbers, int id)
    {
        if (_xml.IsEmptyElement) return;
        for (var depth = _xml.Depth; NextChild(depth);)
        {
            if (!IsCore("vertex")) continue;
            double x = double.NaN, y = double.NaN, z = double.NaN;
            var seen = 0;
            while (_xml.MoveToNextAttribute())
            {
                if (_xml.LocalName is not { Length: 1 } name || _xml.NamespaceURI.Length > 0) continue;
                switch (name[0])
                {
                    case 'x': x = Coordinate(ref seen, 1); break;
                    case 'y': y = Coordinate(ref seen, 2); break;
                    case 'z': z = Coordinate(ref seen, 4); break;
                }
            }

            if (seen != 7) throw Error("bad-vertex", $"vertex {numbers.Count} of object {id} has not all of x, y and z");
            _budget.TakeMesh(BytesPerVertex);
            numbers.Add(weld.Add(new Vector3((float)x, (float)y, (float)z)));
        }
    }

    private double Coordinate(ref int seen, int which)
    {
        seen |= which;
        var text = _xml.Value;
        if (!TryNumber(text, out var value)) throw Error("bad-number", $"\"{PackageParts.Shown(text)}\" is not a number");
        value *= _unit;
        if (!(Math.Abs(value) <= CornerLimits.LargestMm))
            throw CornerLimits.InPart(PackageParts.Shown(_path), Line, value);
        return value;
    }

    private void ReadTriangles(Chunks<int> numbers, Chunks<int> indices, int id)
    {
        if (_xml.IsEmptyElement) return;
        for (var depth = _xml.Depth; NextChild(depth);)
        {
            if (!IsCore("triangle")) continue;
            int a = -1, b = -1, c = -1;
            while (_xml.MoveToNextAttribute())
            {
                if (_xml.LocalName is not { Length: 2 } name || name[0] != 'v' || _xml.NamespaceURI.Length > 0) continue;
                switch (name[1])
                {
                    case '1': a = Vertex(); break;
                    case '2': b = Vertex(); break;
                    case '3': c = Vertex(); break;
                }
            }

            if (a < 0 || b < 0 || c < 0) throw Error("bad-triangle", $"triangle {indices.Count / 3} of object {id} has not all of v1, v2 and v3");
            _budget.TakeObjectTriangles(1);
            _budget.TakeMesh(BytesPerTriangle);
            indices.Add(a);
            indices.Add(b);
            indices.Add(c);
        }

        int Vertex()
        {
            var text = _xml.Value;
            if (!int.TryParse(text.AsSpan().Trim(" \t\r\n"), NumberStyles.None, CultureInfo.InvariantCulture, out var v) || v >= numbers.Count)
                throw Error("bad-index", $"triangle {indices.Count / 3} of object {id} names vertex \"{PackageParts.Shown(text)}\", but there are {numbers.Count}, counted from 0");
            return numbers[v];
        }
    }

    /// <summary>Goes on to the next child of the element at <paramref name="depth"/>, over anything inside the last one; false at its end.</summary>
    private bool NextChild(int depth)
    {
        while (_xml.Read())
        {
            if ((++_sinceCancelCheck & 0xFFF) == 0) _cancel.ThrowIfCancellationRequested();
            var type = _xml.NodeType;
            if (type == XmlNodeType.EndElement && _xml.Depth == depth) return false;
            if (type != XmlNodeType.Element) continue;
            CheckElement();
            if (_xml.Depth == depth + 1) return true;
        }

        return false;
    }

    private void CheckElement()
    {
        ModelXml.CheckDepth(_xml);
        if (_xml.XmlSpace != XmlSpace.None) throw Error("xml-space", $"the attribute xml:space is used, which the format forbids");
    }

    private bool IsCore(string name) => _xml.LocalName == name && _xml.NamespaceURI == ThreeMfNames.Core;

    private int Id(string attribute)
    {
        var text = _xml.GetAttribute(attribute) ?? throw Error("bad-id", $"an element {_xml.LocalName} has no {attribute}");
        return int.TryParse(text.AsSpan().Trim(" \t\r\n"), NumberStyles.None, CultureInfo.InvariantCulture, out var id) && id > 0
            ? id
            : throw Error("bad-id", $"\"{PackageParts.Shown(text)}\" is no id; whole numbers from 1 are");
    }

    private static bool TryNumber(ReadOnlySpan<char> text, out double value)
    {
        text = text.Trim(" \t\r\n");
        value = 0;
        if (text.Length > 1024) return false;
        Span<byte> ascii = stackalloc byte[text.Length];
        return System.Text.Ascii.FromUtf16(text, ascii, out _) == System.Buffers.OperationStatus.Done && DecimalNumber.TryParse(ascii, out value);
    }

    private int Line => _xml is IXmlLineInfo info ? info.LineNumber : 0;

    private FormattableString Told(int line, FormattableString what) => $"Part \"{PackageParts.Shown(_path)}\" of the 3MF package, line {line}: {what}. Export the file again.";

    /// <param name="what">A sentence without capital and full stop.</param>
    private MeshFormatException Error(string code, FormattableString what) => new(code, Told(Line, what));
}
