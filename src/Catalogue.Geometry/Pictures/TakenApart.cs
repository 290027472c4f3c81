using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Pictures;

/// <summary>Pieces of one thing moved away from each other, so that each is seen whole.</summary>
public static class TakenApart
{
    /// <summary>Each mesh farther from the middle of all, along the line on which it lies, by as much again as it was off; none is turned.</summary>
    /// <param name="meshes">Where they sit together.</param>
    /// <param name="share">How far, of the distance between the middle of a mesh and that of all.</param>
    public static IReadOnlyList<PicturedMesh> Of(IReadOnlyList<PicturedMesh> meshes, double share = 1)
    {
        ArgumentNullException.ThrowIfNull(meshes);
        if (meshes.Count == 0) return meshes;
        var middles = meshes.Select(MiddleOf).ToList();
        var middle = middles.Aggregate((sum, m) => sum + m) / middles.Count;
        return [.. meshes.Zip(middles, (mesh, own) => mesh with { Position = mesh.Position + (share * (own - middle)) })];
    }

    private static Vec3 MiddleOf(PicturedMesh mesh) => mesh.Rotation.Apply((mesh.Mesh.Bounds.Min + mesh.Mesh.Bounds.Max) / 2) + mesh.Position;
}
