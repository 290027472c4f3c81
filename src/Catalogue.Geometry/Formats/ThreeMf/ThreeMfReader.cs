using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>Reads 3MF (core 1.4.0, production 1.2): one mesh in mm for each build item, its components placed and joined.</summary>
/// <remarks>
/// Only what the build names is read out. A mirroring transform turns its triangles around, so that volumes keep their
/// sign. What decompression and placing may unfold to is bounded by <see cref="UnfoldBudget"/>. See README.md for the specification.
/// </remarks>
internal sealed class ThreeMfReader
{
    private const int DeepestComponents = 32;
    private const int MostUses = 200_000;

    private readonly PackageParts _package;
    private readonly UnfoldBudget _budget;
    private readonly SortedSet<FormattableString> _warnings = new(Comparer<FormattableString>.Create((a, b) => string.CompareOrdinal(a.Format, b.Format)));
    private readonly Dictionary<string, ModelPart> _parts = new(StringComparer.OrdinalIgnoreCase);
    private readonly CancellationToken _cancel;
    private int _uses;

    private ThreeMfReader(PackageParts package, UnfoldBudget budget, CancellationToken cancel) =>
        (_package, _budget, _cancel) = (package, budget, cancel);

    /// <param name="stream">Seekable, positioned at 0, holding nothing but the package.</param>
    public static MeshFile Read(Stream stream, int maxTriangles, CancellationToken cancel)
    {
        var budget = new UnfoldBudget(stream.Length, maxTriangles);
        using var package = PackageParts.Open(stream, budget);
        return new ThreeMfReader(package, budget, cancel).Read();
    }

    private MeshFile Read()
    {
        var models = _package.RelationshipsOf("").Where(r => r.Type == ThreeMfNames.ModelRelationship).Select(r => r.Target).ToList();
        if (models.Count == 0)
            throw new MeshFormatException("no-model", $"The package does not say which of its parts is the 3D model: it is no 3MF file, or a damaged one. Export it again.");
        if (models.Count > 1)
            throw new MeshFormatException("several-model-parts", $"The 3MF package names more than one part as its 3D model; it is not clear which one counts. Export it again.");
        var root = models[0];
        if (_package.RelationshipsOf(root).Count(r => r.Type == ThreeMfNames.PrintTicketRelationship) > 1)
            throw new MeshFormatException("several-print-tickets", $"The model of the 3MF package has more than one print ticket, which the format forbids. Export it again.");
        var part = Part(root);
        if (part.Items.Count == 0) throw CornerLimits.Empty($"The 3MF file has nothing in its build.");
        var items = new List<MeshItem>(part.Items.Count);
        for (var i = 0; i < part.Items.Count; i++) items.Add(Built(part.Items[i], i + 1));
        return new(MeshFormat.ThreeMf, part.Unit, true, items, [.. _warnings]);
    }

    private ModelPart Part(string path)
    {
        if (_parts.TryGetValue(path, out var part)) return part;
        if (!_package.Has(path))
            throw new MeshFormatException("missing-part", $"The 3MF package refers to its part \"{PackageParts.Shown(path)}\", which is not in it. Export the file again.");
        return _parts[path] = ModelReader.Read(_package, path, _parts.Count == 0, _budget, _warnings, _cancel);
    }

    private MeshItem Built(BuildItem item, int number)
    {
        var placed = new List<(TriangleMesh Mesh, Affine Transform)>();
        Collect(item.Use, Affine.Identity, placed, 0);
        var triangles = placed.Sum(p => (long)p.Mesh.TriangleCount);
        if (triangles == 0) throw CornerLimits.Empty($"Build item {number} of the 3MF file holds no triangles.");
        _budget.TakeItemTriangles((int)Math.Min(triangles, int.MaxValue));
        var mesh = placed.Count == 1 ? Placed(placed[0].Mesh, placed[0].Transform) : Joined(placed);
        return new(Part(item.Use.Path).Objects[item.Use.ObjectId].Name ?? item.PartNumber, mesh);
    }

    /// <summary>The meshes an object comes down to, with the transform of each.</summary>
    private void Collect(Component use, Affine outer, List<(TriangleMesh Mesh, Affine Transform)> placed, int depth)
    {
        if (depth > DeepestComponents)
            throw new MeshFormatException("too-deep", $"Objects of the 3MF file contain each other more than {DeepestComponents} deep, or in a circle. Export the file again.");
        if (++_uses > MostUses)
            throw new MeshFormatException("unfolds-too-large", $"The 3MF file unfolds to more than {MostUses} placed objects. Save fewer copies in one file.");
        if ((_uses & 0xFF) == 0) _cancel.ThrowIfCancellationRequested();
        if (!Part(use.Path).Objects.TryGetValue(use.ObjectId, out var found))
            throw new MeshFormatException("unknown-object", $"The 3MF file uses object {use.ObjectId} of part \"{PackageParts.Shown(use.Path)}\", which is not there. Export the file again.");
        var transform = use.Transform.Then(outer);
        if (found.Mesh is { } mesh)
        {
            switch (found.Type)
            {
                case ObjectType.Other:
                    throw new MeshFormatException("not-buildable", $"The 3MF file builds object {use.ObjectId}, which is of a type not meant to be built. Export the file again.");
                case ObjectType.Support:
                    _warnings.Add($"Supports in the 3MF file are left out.");
                    return;
                case ObjectType.Surface:
                    _warnings.Add($"The 3MF file builds a surface, which need not enclose anything.");
                    break;
            }

            placed.Add((mesh, transform));
            return;
        }

        foreach (var component in found.Components) Collect(component, transform, placed, depth + 1);
    }

    private TriangleMesh Placed(TriangleMesh mesh, Affine transform)
    {
        if (transform == Affine.Identity) return mesh;
        _budget.TakeMesh(4L * mesh.Positions.Length);
        var positions = GC.AllocateUninitializedArray<float>(mesh.Positions.Length);
        Place(mesh, transform, positions);
        if (transform.Determinant > 0) return mesh.WithPositions(positions);
        _budget.TakeMesh(4L * mesh.Indices.Length);
        var indices = GC.AllocateUninitializedArray<int>(mesh.Indices.Length);
        CopyIndices(mesh, 0, true, indices);
        return new(positions, indices);
    }

    private TriangleMesh Joined(List<(TriangleMesh Mesh, Affine Transform)> placed)
    {
        var vertices = placed.Sum(p => (long)p.Mesh.VertexCount);
        var triangles = placed.Sum(p => (long)p.Mesh.TriangleCount);
        _budget.TakeMesh(12 * (vertices + triangles));
        var positions = GC.AllocateUninitializedArray<float>(checked((int)(3 * vertices)));
        var indices = GC.AllocateUninitializedArray<int>(checked((int)(3 * triangles)));
        var (v, t) = (0, 0);
        foreach (var (mesh, transform) in placed)
        {
            _cancel.ThrowIfCancellationRequested();
            Place(mesh, transform, positions.AsSpan(3 * v, mesh.Positions.Length));
            CopyIndices(mesh, v, transform.Determinant < 0, indices.AsSpan(3 * t, mesh.Indices.Length));
            v += mesh.VertexCount;
            t += mesh.TriangleCount;
        }

        return new(positions, indices);
    }

    private static void Place(TriangleMesh mesh, Affine transform, Span<float> to)
    {
        for (var i = 0; i < mesh.VertexCount; i++)
        {
            var p = transform.Apply(mesh.Vertex(i));
            var farthest = Math.Max(Math.Abs(p.X), Math.Max(Math.Abs(p.Y), Math.Abs(p.Z)));
            if (!(farthest <= CornerLimits.LargestMm)) throw CornerLimits.OncePlaced(farthest);
            (to[3 * i], to[(3 * i) + 1], to[(3 * i) + 2]) = ((float)p.X, (float)p.Y, (float)p.Z);
        }
    }

    private static void CopyIndices(TriangleMesh mesh, int shift, bool turned, Span<int> to)
    {
        var from = mesh.Indices;
        var (second, third) = turned ? (2, 1) : (1, 2);
        for (var i = 0; i < from.Length; i += 3)
            (to[i], to[i + 1], to[i + 2]) = (from[i] + shift, from[i + second] + shift, from[i + third] + shift);
    }
}
