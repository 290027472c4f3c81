using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>A stretch of material along a column, in mm above the lowest point of the part in that pose.</summary>
public readonly record struct SolidSpan(float Bottom, float Top)
{
    public float Length => Top - Bottom;
}

/// <summary>
/// A part in one pose as a grid of upright columns, each with its stretches of material from the lowest to the highest: exact in z,
/// sampled in x and y. Layers, floods and supports are read off it without a mesh.
/// </summary>
/// <remarks>
/// <para>
/// The pose is the part turned by <see cref="Rotation"/>; column (i, j) stands at (<see cref="X"/>, <see cref="Y"/>) of the turned frame
/// and heights count from the part's lowest point there (<see cref="BaseZ"/>). <see cref="At"/> gives the place in the file's own coordinates.
/// The grid covers the part's box; whatever lies outside it is empty.
/// </para>
/// <para>
/// Material is where the surface winds around a point at all (winding number not 0): voids drawn facing inward are empty, pieces that overlap or
/// touch are one, a part that is inside out as a whole is read as meant. When the normals do not agree with each other, so that windings do not
/// cancel, everything is counted by parity instead (<see cref="ByParity"/>). Columns left odd by open edges are counted in
/// <see cref="OpenColumns"/>, their last crossing is ignored. Gaps and stretches below <see cref="ResolutionMm"/> are rounding, and dropped.
/// </para>
/// <para>
/// Error: heights to single precision (about 10⁻⁵ mm at 100 mm). A region of footprint F and rim length L is off by at most about L · pitch / 2
/// in footprint for a straight rim along the grid, and far less (L^½ · pitch^{3/2}) for any other. Immutable; any number of threads may read.
/// </para>
/// </remarks>
public sealed class SolidColumns
{
    private readonly int[] _starts;
    private readonly SolidSpan[] _spans;
    private readonly double _x0;
    private readonly double _y0;
    private readonly Rotation _back;

    internal SolidColumns(Rotation rotation, ColumnGrid grid, double baseZ, double height, int[] starts, SolidSpan[] spans, bool byParity, int openColumns)
    {
        Rotation = rotation;
        _back = rotation.Inverse();
        (PitchMm, Width, Depth, _x0, _y0) = (grid.Pitch, grid.Width, grid.Depth, grid.X0, grid.Y0);
        (BaseZ, HeightMm) = (baseZ, height);
        (_starts, _spans) = (starts, spans);
        (ByParity, OpenColumns) = (byParity, openColumns);
    }

    /// <summary>From the file's pose to the pose of the columns.</summary>
    public Rotation Rotation { get; }

    /// <summary>Distance of neighbouring columns, along x and y; each stands for a square of this side.</summary>
    public double PitchMm { get; }

    /// <summary>Columns along x.</summary>
    public int Width { get; }

    /// <summary>Columns along y.</summary>
    public int Depth { get; }

    /// <summary>Lowest z of the part in the turned frame: height 0.</summary>
    public double BaseZ { get; }

    /// <summary>Of the part in this pose, mm.</summary>
    public double HeightMm { get; }

    /// <summary>The normals disagree, so material was told by counting crossings.</summary>
    public bool ByParity { get; }

    /// <summary>Columns whose crossings do not pair up: the surface is open there.</summary>
    public int OpenColumns { get; }

    public int SpanCount => _spans.Length;

    /// <summary>Gaps and stretches shorter than this are not told apart.</summary>
    public double ResolutionMm => SolidColumnsBuilder.Resolution(HeightMm);

    /// <summary>All stretches, column after column along x, row after row along y.</summary>
    public ReadOnlySpan<SolidSpan> AllSpans => _spans;

    /// <summary>For column number j · Width + i the number of its first stretch in <see cref="AllSpans"/>; one entry more than columns.</summary>
    public ReadOnlySpan<int> Starts => _starts;

    /// <summary>The material of column (i, j), lowest stretch first; empty where there is none.</summary>
    public ReadOnlySpan<SolidSpan> Spans(int i, int j) => Spans((j * Width) + i);

    /// <summary>The material of column number <paramref name="column"/> = j · Width + i.</summary>
    public ReadOnlySpan<SolidSpan> Spans(int column) => _spans.AsSpan(_starts[column], _starts[column + 1] - _starts[column]);

    /// <summary>Where column i stands along x of the turned frame, mm.</summary>
    public double X(int i) => _x0 + (i * PitchMm);

    public double Y(int j) => _y0 + (j * PitchMm);

    /// <summary>The column nearest to (x, y) of the turned frame; may lie outside the grid.</summary>
    public (int I, int J) Nearest(double x, double y) => ((int)Math.Round((x - _x0) / PitchMm), (int)Math.Round((y - _y0) / PitchMm));

    /// <summary>The place at <paramref name="height"/> in column (i, j), in the file's coordinates.</summary>
    public Vec3 At(int i, int j, double height) => InFile(new(X(i), Y(j), height));

    /// <summary>A place (x, y of the turned frame, height) in the file's coordinates.</summary>
    public Vec3 InFile(Vec3 pose) => _back.Apply(new(pose.X, pose.Y, BaseZ + pose.Z));

    /// <summary>A place in the file's coordinates as (x, y of the turned frame, height).</summary>
    public Vec3 InPose(Vec3 file)
    {
        var p = Rotation.Apply(file);
        return new(p.X, p.Y, p.Z - BaseZ);
    }

    /// <summary>Material in mm³: lengths of all stretches times pitch².</summary>
    public double VolumeMm3()
    {
        var sum = 0.0;
        foreach (var span in _spans) sum += span.Length;
        return sum * PitchMm * PitchMm;
    }

    /// <summary>Stands columns in the part.</summary>
    /// <param name="mesh">n vertices in mm, m triangles; should be closed.</param>
    /// <param name="rotation">From the file's pose to the one wanted.</param>
    /// <param name="finestPitchMm">Wished distance of columns; it is coarsened where the budget asks for it.</param>
    /// <param name="budget">What the grid may hold; about 30 bytes a crossing while it is built, 8 a stretch afterwards.</param>
    /// <returns>The columns; the same whatever the number of cores. O(n + m + crossings).</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pitch is not a positive number.</exception>
    public static SolidColumns Of(
        TriangleMesh mesh, Rotation rotation, double finestPitchMm, ColumnBudget? budget = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        if (!(finestPitchMm > 0) || !double.IsFinite(finestPitchMm)) throw new ArgumentOutOfRangeException(nameof(finestPitchMm), "The pitch is a positive length.");
        return new SolidColumnsBuilder(mesh, rotation, cancel).Build(finestPitchMm, budget ?? ColumnBudget.Default);
    }
}

/// <summary>How much a grid of columns may hold; the pitch grows until it does.</summary>
/// <param name="Columns">In the part's box.</param>
/// <param name="Crossings">Of columns and surface, as expected from the area seen from above.</param>
public readonly record struct ColumnBudget(int Columns, int Crossings)
{
    public static ColumnBudget Default => new(1_000_000, 6_000_000);
}

/// <summary>Where the columns of a grid stand.</summary>
internal readonly record struct ColumnGrid(double Pitch, int Width, int Depth, double X0, double Y0);
