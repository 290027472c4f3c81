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
    /// Accuracy: area and moments of the section to 2 % on limbs that vary slowly; place to one slab (two cubes), lever to one cube and a half, volume beyond to 5 % or one slab. Turned meshes: scores within 10 %. Limbs thinner than
    /// about 1.5 cubes may be missed on parts whose cubes are that large. O(cubes + triangles · limbs); 40 MB.
    /// </para>
    /// </remarks>
    /// <param name="mesh">Closed, facing outward; else the answer means nothing.</param>
    public static LimbMeasures Of(TriangleMesh mesh, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var volume = MeshMeasures.Of(mesh, cancel).VolumeMm3;
        var pitch = Math.Clamp(Math.Cbrt(Math.Abs(volume) / CubesWanted), 0.2, 0.8);
        var columns = SolidColumns.Of(mesh, Rotation.Identity, pitch, null, cancel);
        var cells = new SolidCells(columns);
        if (cells.Count < 2) return new() { Limbs = [] };
        var cutting = new LimbCuts(mesh, new LimbTree(cells, cancel));
        var limbs = new List<Limb>();
        foreach (var branch in cutting.SlenderBranches())
        {
            cancel.ThrowIfCancellationRequested();
            if (cutting.Measure(branch) is { } limb) limbs.Add(limb);
        }

        return new() { Limbs = [.. limbs.OrderByDescending(l => l.Pushed.PushScore).Take(MostLimbs)] };
    }
}
