using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Thickness;

/// <summary>
/// How thick the matter is under every part of a surface, or how wide the gap in front of it: the diameter of the largest ball that
/// touches the surface there and the wall opposite (<see cref="TriangleTree.LargestBall"/>).
/// </summary>
/// <remarks>
/// <para>
/// The surface is taken in cells: its triangles, the longer ones halved until there are some 60 000 or more; the ball is found
/// under the middle of each; where several lie within a patch of a 60 000th of the area, under one of them (<see cref="CellBalls"/>).
/// Where no wall faces back within <see cref="TriangleTree.WidestOppositeAngle"/> degrees (beside the sharp edge of a tetrahedron)
/// there is no thickness, and such cells count nowhere: a cube is as thick as it is wide, up to its edges. A bar of triangular
/// section has none either.
/// </para>
/// <para>
/// On flat walls right to 0.1 %; on a facet of a curved wall the normal is bent between its neighbours (<see cref="FacetNormals"/>), so that the value is that of
/// the curved wall to about the facet's sagitta. Turning the part changes the shares of <see cref="Distribution"/> by less than 0.5 %, remeshing by less than
/// 2 % where the surface stays put; the least value, resting on few cells, by less than 1 % on walls and by up to 10 % in sharp folds (all tested). O(cells · log triangles) for fixed proportions, on all cores, about 60 bytes a cell.
/// Deterministic. The mesh should be closed and face outward; elsewhere the answer is about whatever surface faces back.
/// </para>
/// </remarks>
public sealed class LocalThickness
{
    /// <summary>What is thinner on less surface than this may be a flaw of the mesh, mm².</summary>
    internal const double SpeckMm2 = 0.1;

    private const double CellsAtLeast = 60_000;
    private const int CellsPerBlock = 512;

    private readonly float[] _value;
    private readonly int[] _oppositeCell;
    private readonly float[] _area;
    private readonly float[] _width;

    private LocalThickness(TriangleTree tree, SurfaceCells cells, EdgeAdjacency edges, bool isGap, double widthsBelow)
    {
        (Tree, Cells, Edges, IsGap) = (tree, cells, edges, isGap);
        _value = new float[cells.Count];
        _oppositeCell = new int[cells.Count];
        _area = new float[cells.Count];
        _width = widthsBelow > 0 ? new float[cells.Count] : [];
    }

    /// <summary>False for the thickness of matter, true for the width of gaps.</summary>
    public bool IsGap { get; }

    /// <summary>Places measured.</summary>
    public int Samples => Cells.Count;

    /// <summary>Area that has a wall opposite, mm².</summary>
    public double OpposedAreaMm2 { get; private set; }

    /// <summary>Least value and shares by area; null when nothing is opposite anything.</summary>
    public ThicknessDistribution? Distribution { get; private set; }

    internal SurfaceCells Cells { get; }

    internal TriangleTree Tree { get; }

    internal EdgeAdjacency Edges { get; }

    /// <summary>mm; infinite where no wall is opposite.</summary>
    internal ReadOnlySpan<float> Values => _value;

    internal ReadOnlySpan<float> Areas => _area;

    /// <summary>The cell that the ball under a cell touches on the other side; −1 for none.</summary>
    internal ReadOnlySpan<int> OppositeCells => _oppositeCell;

    /// <summary>How wide the section is there (<see cref="SectionWidth"/>), mm; infinite where it is no limb. Empty when it was not asked for.</summary>
    internal ReadOnlySpan<float> Widths => _width;

    /// <summary>Measures the thickness of the matter everywhere.</summary>
    /// <param name="tree">Tree of the mesh, in mm.</param>
    /// <param name="limbsBelow">Where a part is thinner than this its section's width is measured too, mm; 0 for nowhere.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    /// <param name="cancel">Stops the work.</param>
    public static LocalThickness OfMatter(
        TriangleTree tree, double limbsBelow = 0, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentOutOfRangeException.ThrowIfNegative(limbsBelow);
        return Measure(tree, false, tree.Mesh.Bounds.Size.Length / 2, limbsBelow, progress, cancel);
    }

    /// <summary>Measures the gaps up to <paramref name="widest"/> mm in front of every part of the surface.</summary>
    /// <param name="tree">Tree of the mesh, in mm.</param>
    /// <param name="widest">Wider gaps are of no interest, mm.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    /// <param name="cancel">Stops the work.</param>
    public static LocalThickness OfGaps(TriangleTree tree, double widest, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(widest);
        return Measure(tree, true, widest / 2, 0, progress, cancel);
    }

    /// <summary>The least value on a triangle of the mesh, mm; NaN where no wall is opposite. For overlays.</summary>
    public float OnTriangle(int triangle)
    {
        var (first, end) = Cells.CellsOf(triangle);
        var least = float.PositiveInfinity;
        for (var i = first; i < end; i++) least = Math.Min(least, _value[i]);
        return float.IsFinite(least) ? least : float.NaN;
    }

    /// <summary>Connected areas thinner (or, for gaps, narrower) than a limit in mm, the largest first; specks smaller than the limit squared left out.</summary>
    public IReadOnlyList<ThinRegion> Below(double limit, CancellationToken cancel = default)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(limit);
        return new RegionLadder(this, Values, [limit], 1, cancel).Climb(int.MaxValue, int.MaxValue)[0].Regions;
    }

    private static LocalThickness Measure(
        TriangleTree tree, bool isGap, double maxRadius, double limbsBelow, IProgress<double>? progress, CancellationToken cancel)
    {
        var mesh = tree.Mesh;
        var total = 0.0;
        for (var t = 0; t < mesh.TriangleCount; t++) total += SurfaceCells.Area(mesh.Triangle(t));

        // Halved until no side is longer than this, triangles are on average about 0.3 of its square.
        var cells = new SurfaceCells(mesh, total > 0 ? Math.Sqrt(total / CellsAtLeast / 0.3) : double.PositiveInfinity, cancel);
        var measured = new LocalThickness(tree, cells, EdgeAdjacency.Of(mesh, cancel), isGap, limbsBelow);
        var patch = Math.Sqrt(total / CellsAtLeast / Math.PI);
        var order = tree.TrianglesInOrder();
        var ends = Ends(order, cells);
        var (next, done) = (-1, 0);
        Fork.Join(() =>
        {
            for (int block; (block = Interlocked.Increment(ref next)) < ends.Count;)
            {
                cancel.ThrowIfCancellationRequested();
                var balls = new CellBalls(tree, cells, measured.Edges, isGap, maxRadius, limbsBelow, patch, cancel);
                for (var i = block == 0 ? 0 : ends[block - 1]; i < ends[block]; i++)
                    balls.Triangle(order[i], measured._value, measured._oppositeCell, measured._area, measured._width);
                progress?.Report(Interlocked.Increment(ref done) / (double)ends.Count);
            }
        });
        measured.Summarise();
        return measured;
    }

    /// <summary>Where blocks of about equal numbers of cells end in the order of triangles.</summary>
    private static List<int> Ends(int[] order, SurfaceCells cells)
    {
        var ends = new List<int>();
        for (int i = 0, count = 0; i < order.Length; i++)
        {
            var (first, end) = cells.CellsOf(order[i]);
            count += end - first;
            if (count < CellsPerBlock && i < order.Length - 1) continue;
            ends.Add(i + 1);
            count = 0;
        }

        return ends;
    }

    private void Summarise()
    {
        var keys = new float[_value.Length];
        var areas = new float[_value.Length];
        var count = 0;
        for (var cell = 0; cell < _value.Length; cell++)
        {
            if (!float.IsFinite(_value[cell]) || _area[cell] <= 0) continue;
            (keys[count], areas[count++]) = (_value[cell], _area[cell]);
            OpposedAreaMm2 += _area[cell];
        }

        if (count == 0) return;
        Array.Sort(keys, areas, 0, count);
        Distribution = new(Share(Math.Min(SpeckMm2 / OpposedAreaMm2, 0.001)), Share(0.01), Share(0.05), Share(0.5));

        double Share(double part)
        {
            var area = 0.0;
            for (var i = 0; i < count; i++)
            {
                area += areas[i];
                if (area >= part * OpposedAreaMm2) return keys[i];
            }

            return keys[count - 1];
        }
    }
}

/// <summary>Thickness or gap by area.</summary>
/// <param name="MinMm">The least value, leaving out what is thinner on less than 0.1 mm² or a thousandth of the area: a flaw of the mesh, or the edge of an edge.</param>
/// <param name="P01Mm">1 % of the opposed area is at or below this.</param>
/// <param name="P05Mm">5 % is.</param>
/// <param name="MedianMm">Half of it is.</param>
public readonly record struct ThicknessDistribution(double MinMm, double P01Mm, double P05Mm, double MedianMm);
