using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Limbs;

/// <summary>The limbs of a part and the sections they would break at: geometry only, whatever they are made of.</summary>
public sealed record LimbMeasures
{
    public const int MostLimbs = 12;

    private const int CubesWanted = 400_000;

    /// <summary>The one that a push at its tip bends most first.</summary>
    public required IReadOnlyList<Limb> Limbs { get; init; }

    /// <summary>
    /// Finds the pieces that hang on a part by one section, and of each the section that a push at its tip and its own mass strain most.
    /// </summary>
    /// <remarks>
    /// <para>
    /// Which pieces there are is read off cubes of 0.2 to 0.8 mm (about 400 000 of them), see <see cref="LimbTree"/>; sections are exact plane cuts of the mesh, at up to 18 places along each limb, turned until
    /// the cut is smallest. Pieces that are held at two places (a ring, arms that meet) are no limbs, pieces shorter than 3 mm or one and a half of their width neither: a ball, a cube have none.
    /// </para>
    /// <para>
    /// Accuracy: area and moments of the section to 2 % on limbs that vary slowly; place to one slab (two cubes), lever to one cube and a half, volume beyond to 5 % or one slab. The same part turned or in other triangles: scores within 10 % (tested). Limbs thinner than
    /// about 1.5 cubes may be missed on parts whose cubes are that large. O(cubes + triangles); 60 MB.
    /// </para>
    /// </remarks>
    /// <param name="tree">Of a closed mesh that faces outward; else the answer means nothing.</param>
    /// <param name="progress">Told the share done.</param>
    public static LimbMeasures Of(TriangleTree tree, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        var mesh = tree.Mesh;
        var volume = MeshMeasures.Of(mesh, cancel).VolumeMm3;
        var pitch = Math.Clamp(Math.Cbrt(Math.Abs(volume) / CubesWanted), 0.2, 0.8);
        var columns = SolidColumns.Of(mesh, Rotation.Identity, pitch, null, cancel);
        progress?.Report(0.15);
        var cells = new SolidCells(columns, cancel);
        progress?.Report(0.25);
        if (cells.Count < 2) return new() { Limbs = [] };
        var cutting = new LimbCuts(tree, new LimbTree(cells, progress, cancel), cancel);
        var limbs = new List<Limb>();
        var branches = cutting.SlenderBranches().ToList();
        for (var b = 0; b < branches.Count; b++)
        {
            progress?.Report(0.75 + (0.25 * b / branches.Count));
            if (cutting.Measure(branches[b]) is { } limb) limbs.Add(limb);
        }

        return new() { Limbs = [.. limbs.OrderByDescending(l => l.Pushed.PushScore).Take(MostLimbs)] };
    }
}
