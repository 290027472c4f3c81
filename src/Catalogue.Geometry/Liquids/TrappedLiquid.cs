using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>A hole to drill or model: where it starts on the outside, which way it goes, through how much wall.</summary>
/// <param name="At">On the outer skin, in the file's coordinates.</param>
/// <param name="Direction">Into the part, a unit vector in the file's frame.</param>
public sealed record Drilling(Vec3 At, Vec3 Direction, double WallMm);

/// <summary>A way out of a cavity.</summary>
/// <param name="DiameterMm">Of the largest ball that passes.</param>
/// <param name="At">Where it is narrowest.</param>
/// <param name="Beyond">Number of the cavity on the other side; −1 for the outside.</param>
public sealed record CavityOpening(double DiameterMm, Vec3 At, int Beyond);

/// <summary>A hollow that is wider than the ways into it, or has none.</summary>
public sealed record Cavity
{
    public required double VolumeMm3 { get; init; }

    /// <summary>A place inside, far from its walls.</summary>
    public required Vec3 At { get; init; }

    /// <summary>Closed on all sides.</summary>
    public required bool Sealed { get; init; }

    /// <summary>Widest first; empty with <see cref="Sealed"/> false: there are some, all below <see cref="TrappedLiquid.FinestOpeningMm"/>.</summary>
    public required IReadOnlyList<CavityOpening> Openings { get; init; }

    /// <summary>Least wall between the cavity and the outside as sampled along the wall's normals; null when none leads outside.</summary>
    public required double? SkinMm { get; init; }

    public required Vec3? SkinAt { get; init; }

    /// <summary>From the end of the cavity that hangs lowest: where liquid runs out.</summary>
    public required Drilling? Drain { get; init; }

    /// <summary>From the end nearest to the platform: where air comes in.</summary>
    public required Drilling? Vent { get; init; }
}

/// <summary>Liquid that stays in a hollow open toward the platform.</summary>
/// <param name="DepthMm">From its deepest point to the rim it runs over.</param>
/// <param name="At">The deepest point.</param>
public sealed record LiquidPool(double VolumeMm3, double DepthMm, Vec3 At, Drilling? Drain);

/// <summary>A hollow that the film seals while it is printed.</summary>
/// <param name="AreaMm2">Largest area sealed in one layer.</param>
/// <param name="LastsMm">Height of the layers during which it is sealed.</param>
/// <param name="VolumeMm3">Of the liquid drawn along.</param>
/// <param name="At">The end nearest to the platform: opened there, it never seals.</param>
public sealed record SuctionCup(double AreaMm2, double LastsMm, double VolumeMm3, Vec3 At, Drilling? Vent);

/// <summary>
/// Where a part keeps liquid when it is printed hanging from a platform and rising out of a vat: cavities with the sizes of their ways out
/// (however it lies), pools and suction in one pose, and where a drain and a vent would do most. No process limit enters.
/// </summary>
/// <remarks>
/// <para>
/// The pose is the mesh turned by <see cref="Rotation"/>: the platform is at its lowest z, the film and the floor of the world at its highest.
/// The part is taken to hang on supports, so the platform itself closes nothing. Closed surfaces that enclose a void are found from the nesting
/// of shells, exactly; everything else on columns of <see cref="PitchMm"/> (a five-hundredth of the part's longest side, 0.1 to 0.25 mm; coarser
/// where that makes more than a million) and on cubes of <see cref="FinestOpeningMm"/> for the ways out, whose narrowest ball is then refined on the mesh itself.
/// </para>
/// <para>
/// Tolerances, tested: volume of a pool 2 % (of cavities 4 %) where it is at least 20 pitches (cubes) wide; area of suction likewise; depths and
/// heights one pitch on slopes, rounding on level ones; diameters 0.1 mm; so for the same part in other triangles, or turned together with the pose. Not seen: walls thinner than the pitch (the thickness check's
/// business) and ways out narrower than it. Liquids are slow: surface tension, and air that cannot get in from above, are left out.
/// </para>
/// <para>O(m + columns · log), about 40 bytes a column and 10 a cube; at most 1 M columns, 4 M cubes. Deterministic, whatever the cores.</para>
/// </remarks>
public sealed record TrappedLiquid
{
    /// <summary>Cavities, pools and suction cups kept, largest first.</summary>
    public const int Most = 12;

    public required double[] Rotation { get; init; }

    public required double PitchMm { get; init; }

    public required double FinestOpeningMm { get; init; }

    public required IReadOnlyList<Cavity> Cavities { get; init; }

    public required IReadOnlyList<LiquidPool> Pools { get; init; }

    public required IReadOnlyList<SuctionCup> SuctionCups { get; init; }

    /// <summary>Of all pools, also those too small to list.</summary>
    public required double PooledMm3 { get; init; }

    /// <summary>The largest area that is sealed in any one layer, all cups together.</summary>
    public required double SuctionMm2 { get; init; }

    /// <summary>How many millimetres of layers seal something.</summary>
    public required double SuctionLastsMm { get; init; }

    /// <param name="mesh">Closed; without an inside there is no answer worth having.</param>
    /// <param name="tree">Of that mesh.</param>
    /// <param name="health">Of that mesh.</param>
    /// <param name="rotation">From the file's pose to the one it is printed in.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    /// <exception cref="ArgumentException">The mesh is not closed, or the tree is of another mesh.</exception>
    public static TrappedLiquid Of(
        TriangleMesh mesh, TriangleTree tree, MeshHealth health, Rotation rotation, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(health);
        if (!health.Closed) throw new ArgumentException("The mesh is not closed.", nameof(health));
        if (!ReferenceEquals(tree.Mesh, mesh)) throw new ArgumentException("The tree is of another mesh.", nameof(tree));
        var columns = SolidColumns.Of(mesh, rotation, PitchFor(mesh), cancel: cancel);
        progress?.Report(0.2);
        var pose = LiquidInPose.Of(columns, cancel);
        progress?.Report(0.4);
        var grid = ClearanceGrid.Of(columns, cancel);
        progress?.Report(0.6);
        var rooms = Rooms.Of(grid, cancel);
        progress?.Report(0.7);
        var walls = new WallSearch(tree, columns, rooms, pose);
        var cavities = CavitySearch.Find(tree, health, columns, rooms, walls, pose, cancel);
        return new()
        {
            Rotation = rotation.ToRowMajor(),
            PitchMm = columns.PitchMm,
            FinestOpeningMm = grid.Size,
            Cavities = cavities,
            Pools = [.. pose.Pools.Take(Most).Select(p => new LiquidPool(p.VolumeMm3, p.LengthMm, p.Extreme(columns), walls.From(pose.LowPoints(p), down: true)))],
            SuctionCups = [.. pose.SuctionCups.Take(Most).Select(p =>
                new SuctionCup(p.LargestMm2, p.LengthMm, p.VolumeMm3, p.Extreme(columns), walls.From(pose.HighPoints(p), down: false)))],
            PooledMm3 = pose.PooledMm3,
            SuctionMm2 = pose.SuctionMm2,
            SuctionLastsMm = pose.SuctionLastsMm,
        };
    }

    /// <summary>The pitch of columns asked for: a five-hundredth of the longest side of the part's box, within 0.1 and 0.25 mm.</summary>
    internal static double PitchFor(TriangleMesh mesh)
    {
        var size = mesh.Bounds.Size;
        return Math.Clamp(Math.Max(size.X, Math.Max(size.Y, size.Z)) / 500, 0.1, 0.25);
    }
}
