using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Thickness;

namespace Catalogue.Geometry.Details;

/// <summary>Features of one kind that hang together.</summary>
/// <param name="WidthMm">Across, the median; null for the edge of something broad.</param>
/// <param name="HeightMm">Above or below the surface around it, the median.</param>
/// <param name="AreaMm2">Of the ridge's top or the groove's floor; of a broad relief's edge the band of <see cref="DetailMeasures.ReachMm"/> beside it.</param>
/// <param name="LengthMm">Along it.</param>
/// <param name="At">In the middle of it, on the surface; the file's coordinates.</param>
public sealed record DetailFeature(double? WidthMm, double HeightMm, double AreaMm2, double LengthMm, Vec3 At);

/// <summary>What lies below one size.</summary>
/// <param name="BelowMm">The size.</param>
/// <param name="Count">Features.</param>
/// <param name="Largest">The longest of them, at most <see cref="DetailMeasures.Most"/>.</param>
public sealed record DetailStep(double BelowMm, int Count, double AreaMm2, double LengthMm, IReadOnlyList<DetailFeature> Largest);

/// <summary>
/// The fine relief of a surface: steps by height, ridges and grooves by width, each tabulated over sizes, so that any process's limits can be
/// put to it. A ridge narrower than a process's line is what opening the solid by that width takes away, a groove what closing it fills.
/// </summary>
/// <remarks>
/// <para>
/// The surface is felt from samples of about equal area (at most some 40 000, no closer than 0.15 mm): just under it, along it, a ray leaves the
/// matter through a wall where something raised ends; just above it, it meets a wall where something rises. A wall leans 22° or more against
/// the sample's surface, within <see cref="ReachMm"/> of it; beyond it there must be surface again that leans less than the wall by 12°, at most 30° against the
/// sample's, and at most <see cref="HighestMm"/> higher or lower: so edges of a part, bends and curved surface are no relief. Walls on both
/// sides make a ridge or a groove, one wall the edge of something broad. (Opening and closing on a field of distances would do the same, but a field fine enough for 0.1 mm on a part
/// of 150 mm takes a hundred times the memory, and cannot see the height of what is broad.)
/// </para>
/// <para>
/// Heights and widths of flat-sided features are right to 0.02 mm, areas and lengths to about 10 % from some hundred samples up (tested; less where walls lean); features of less than a few
/// samples (area / 40 000) may be missed. The same part turned or in other triangles: as many features, within the same tolerances (tested). Not felt: relief lower than <see cref="LowestMm"/>, and soft swellings without a wall. O(samples · log triangles).
/// Deterministic; all cores.
/// </para>
/// </remarks>
public sealed record DetailMeasures
{
    /// <summary>Features told of per size.</summary>
    public const int Most = 3;

    /// <summary>How far along the surface walls are looked for, mm; wider features are broad.</summary>
    public const double ReachMm = 1.25;

    /// <summary>What is higher is no detail, mm.</summary>
    public const double HighestMm = 2;

    /// <summary>Lower steps are not felt, mm.</summary>
    public const double LowestMm = 0.1;

    /// <summary>Edges shorter than this, and ridges and grooves of half of it, are specks and left out, mm.</summary>
    public const double ShortestMm = 2;

    /// <summary>Surface that leans this much against a sample's is a wall.</summary>
    internal const double WallDegrees = 22;

    private const int MostSamples = 40_000;
    private const double ClosestMm = 0.15;

    public static IReadOnlyList<double> Sizes { get; } = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.2];

    public static IReadOnlyList<double> Heights { get; } = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.2, 1.5, 2];

    /// <summary>Edges of relief lower than each of <see cref="Heights"/>; ridges' edges among them.</summary>
    public required IReadOnlyList<DetailStep> Low { get; init; }

    /// <summary>Ridges narrower than each of <see cref="Sizes"/>.</summary>
    public required IReadOnlyList<DetailStep> Ridges { get; init; }

    /// <summary>Grooves narrower than each of <see cref="Sizes"/>.</summary>
    public required IReadOnlyList<DetailStep> Grooves { get; init; }

    /// <summary>The step of a table for a limit: the largest size that is not above it; null below the smallest.</summary>
    public static DetailStep? At(IReadOnlyList<DetailStep> table, double limit)
    {
        ArgumentNullException.ThrowIfNull(table);
        return table.LastOrDefault(s => s.BelowMm <= limit + 1e-9);
    }

    /// <param name="tree">Of a closed mesh whose normals face outward, in mm.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    public static DetailMeasures Of(TriangleTree tree, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        var found = Felt(tree, out var spacing, progress, cancel);
        var clusters = new DetailClusters(spacing, cancel);
        return new()
        {
            Low = clusters.Ladder(found.Where(f => f.IsRaised), Heights, byHeight: true),
            Ridges = clusters.Ladder(found.Where(f => f.IsRaised), Sizes, byHeight: false),
            Grooves = clusters.Ladder(found.Where(f => !f.IsRaised), Sizes, byHeight: false),
        };
    }

    /// <summary>What each sample of the surface finds, in the order of the tree.</summary>
    internal static List<ReliefTouch> Felt(TriangleTree tree, out double spacing, IProgress<double>? progress, CancellationToken cancel)
    {
        var mesh = tree.Mesh;
        var total = 0.0;
        for (var t = 0; t < mesh.TriangleCount; t++) total += SurfaceCells.Area(mesh.Triangle(t));
        spacing = Math.Max(Math.Sqrt(total / MostSamples), ClosestMm);
        var samples = Samples(tree, spacing * spacing, spacing, cancel);
        const int Piece = 512;
        var pieces = new List<ReliefTouch>[(samples.Count + Piece - 1) / Piece];
        var (next, done) = (-1, 0);
        Fork.Join(() =>
        {
            var probe = new ReliefProbe(tree);
            int piece;
            while ((piece = Interlocked.Increment(ref next)) < pieces.Length)
            {
                cancel.ThrowIfCancellationRequested();
                var touches = new List<ReliefTouch>();
                for (var s = piece * Piece; s < Math.Min(samples.Count, (piece + 1) * Piece); s++)
                    if (probe.Feel(samples[s], s) is { } touch) touches.Add(touch);
                pieces[piece] = touches;
                progress?.Report(0.1 + (0.8 * Interlocked.Increment(ref done) / pieces.Length));
            }
        });
        return [.. pieces.SelectMany(p => p)];
    }

    /// <summary>
    /// Places on the surface, each for about the same area; more of them on long, narrow triangles, which is how modelled ridges and grooves
    /// come. A sample's area is what it stands for on average, so sums are unbiased.
    /// </summary>
    private static List<SurfaceSample> Samples(TriangleTree tree, double each, double spacing, CancellationToken cancel)
    {
        var mesh = tree.Mesh;
        var cells = new SurfaceCells(mesh, 1.5 * spacing, cancel);
        var samples = new List<SurfaceSample>();
        var owed = each / 2;
        var order = tree.TrianglesInOrder();
        for (var i = 0; i < order.Length; i++)
        {
            if ((i & 0x3fff) == 0) cancel.ThrowIfCancellationRequested();
            var triangle = order[i];
            var (a, b, c) = mesh.Triangle(triangle);
            var cross = Vec3.Cross(b - a, c - a);
            var normal = cross.Normalized();
            if (normal.LengthSquared == 0) continue;
            var longest = Math.Sqrt(Math.Max((b - a).LengthSquared, Math.Max((c - b).LengthSquared, (a - c).LengthSquared)));
            var narrow = cross.Length / longest;
            var denser = longest > 2 * spacing && narrow < spacing ? Math.Min(8, spacing / narrow) : 1;
            var (first, end) = cells.CellsOf(triangle);
            for (var cell = first; cell < end; cell++)
            {
                var corners = cells.Corners(triangle, cell);
                owed += SurfaceCells.Area(corners) * denser;
                if (owed < each) continue;
                owed %= each;
                samples.Add(new(Within(corners, samples.Count), normal, each / denser));
            }
        }

        return samples;
    }

    /// <summary>A place in a triangle, spread evenly from sample to sample: rows of cells along an edge would else all lie equally far from it.</summary>
    private static Vec3 Within((Vec3 A, Vec3 B, Vec3 C) corners, int number)
    {
        var (u, v) = ((0.5 + (number * 0.7548776662)) % 1, (0.5 + (number * 0.5698402910)) % 1);
        if (u + v > 1) (u, v) = (1 - u, 1 - v);
        return corners.A + ((corners.B - corners.A) * u) + ((corners.C - corners.A) * v);
    }
}
