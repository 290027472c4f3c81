using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Viewer;

/// <summary>What a check found, on the surface: a kind for each triangle of the file, and places.</summary>
/// <param name="Code">Stable, for programs and addresses.</param>
/// <param name="About">What is shown, by which limit, and where that comes from.</param>
/// <param name="Kinds">Numbered from 1; a triangle of none is 0.</param>
internal sealed record Overlay(string Code, Sentence Name, Sentence About, IReadOnlyList<OverlayKind> Kinds, IReadOnlyList<OverlayPlace> Places)
{
    /// <summary>The kind of each triangle of the file.</summary>
    public byte[] OfTriangle { get; init; } = [];

    /// <summary>Counts up when overlays are made another way by the same checks.</summary>
    public const int Version = 3;

    /// <summary>The same with the area of each kind.</summary>
    public Overlay Measured(TriangleMesh mesh)
    {
        var areas = new double[Kinds.Count + 1];
        for (var t = 0; t < OfTriangle.Length; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            areas[OfTriangle[t]] += Vec3.Cross(b - a, c - a).Length / 2;
        }

        return this with { Kinds = [.. Kinds.Select(k => k with { AreaMm2 = Math.Round(areas[k.Number], 2) })] };
    }
}

/// <param name="From">The least it stands for; absent when it has no lower end.</param>
/// <param name="To">Less than this; absent when it has no upper end.</param>
/// <param name="Unit">Of both.</param>
internal sealed record OverlayKind(int Number, Sentence Words, double? From = null, double? To = null, string? Unit = null, double AreaMm2 = 0);

/// <param name="At">In the file's coordinates, mm.</param>
internal sealed record OverlayPlace(Sentence Words, double[] At, double? DiameterMm = null)
{
    public static OverlayPlace Of(Sentence words, Vec3 at, double? diameterMm = null) => new(words, [at.X, at.Y, at.Z], diameterMm);
}

/// <summary>What an overlay is worked out from.</summary>
/// <param name="Rotation">From the file's pose to the one it is printed in.</param>
/// <param name="Before">The mesh of the revision before; null for the first.</param>
internal sealed record OverlayQuestion(TriangleMesh Mesh, MeshFacts Facts, Process Process, Rotation Rotation, TriangleMesh? Before, CancellationToken Stop)
{
    private TriangleTree? _tree;

    public TriangleTree Tree => _tree ??= TriangleTree.Build(Mesh, Stop);
}
