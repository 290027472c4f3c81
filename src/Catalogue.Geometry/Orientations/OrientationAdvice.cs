using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Orientations;

/// <summary>What an orientation can be good at; less is better of each.</summary>
public enum OrientationMerit
{
    /// <summary>Surface that supports touch.</summary>
    Contact,

    /// <summary>Height above the plate: the time that layers take.</summary>
    Height,

    /// <summary>Surface with marks of supports or of the plate.</summary>
    Marked,

    /// <summary>Liquid left in hollows open toward the platform; only where it is asked about.</summary>
    Pools,

    /// <summary>Area that the film seals in one layer; only where it is asked about.</summary>
    Suction,
}

/// <summary>One way to lay a part on the plate, with its numbers.</summary>
/// <param name="Rotation">From the file's pose to the printer's axes, z away from the plate.</param>
/// <param name="Size">Along the printer's width, depth and height, mm; on a round plate the footprint's diameter twice, then the height.</param>
/// <param name="SpareMm">The smallest difference between room and part.</param>
/// <param name="ContactMm2">Surface that supports touch: what hangs over beyond the limit, and where its columns stand on the part.</param>
/// <param name="SupportVolumeMm3">Of straight columns under it.</param>
/// <param name="RestingMm2">Footprint on the plate.</param>
/// <param name="IslandCount">Places that start in mid-air.</param>
public sealed record AdvisedOrientation(
    Rotation Rotation, Vec3 Size, double SpareMm, double ContactMm2, double SupportVolumeMm3, double RestingMm2, int IslandCount)
{
    /// <summary>Surface with marks of supports or of the plate (mm²).</summary>
    public double MarkedMm2 => ContactMm2 + RestingMm2;

    /// <summary>Liquid that stays in it when it hangs in a vat like this (mm³); null when that was not asked.</summary>
    public double? PooledMm3 { get; init; }

    /// <summary>Largest area that the film seals in one layer (mm²); null when that was not asked.</summary>
    public double? SuctionMm2 { get; init; }

    /// <summary>False when it would fall over: neither what rests on the plate nor supports are under its centre of mass.</summary>
    public bool Stands { get; init; } = true;

    /// <summary>Nothing else in the advice is better at these.</summary>
    public IReadOnlyList<OrientationMerit> BestIn { get; init; } = [];

    /// <summary>In the order of <see cref="OrientationMerit"/>.</summary>
    internal double[] Merits => PooledMm3 is { } pooled && SuctionMm2 is { } suction
        ? [ContactMm2, Size.Z, MarkedMm2, pooled, suction]
        : [ContactMm2, Size.Z, MarkedMm2];
}

/// <summary>A handful of orientations that fit a build volume, each better than every other in something.</summary>
/// <remarks>
/// <para>
/// Candidates: the file's own pose and its other five axes, the largest flat sides of the convex hull, the pose that fits best, and some five hundred directions spread over the sphere. Those that do not fit in some turn
/// about the upright are let go. The rest are compared on a sample of the surface without looking for the part below (a proxy, good to a few per cent); those on the front and their
/// neighbours, as long as they stand without falling over, are measured as <see cref="OverhangMeasures"/> does. Of these, the ones that no other beats, or all but beats, in every merit make the front; it is thinned to
/// <see cref="Most"/>: the best in each merit, then those farthest from the ones taken. There is no overall score.
/// </para>
/// <para>
/// Approximate: a better orientation between the candidates (about 9° apart, 4° near the front) may be missed. Numbers of the orientations given are within 2 %; the least contact and the least height told of the same part turned or in other triangles are, too (tested on flat-sided parts).
/// Pools and suction, where asked for, are no part of that comparison: then some more directions all over the sphere are measured. They are read off columns half a hundredth of the part's diagonal apart, so hollows narrower than some of those are told roughly
/// (<see cref="LiquidInPose"/>). Cost: about thirty measures of overhangs, and of liquid. Deterministic; thread-safe. The mesh must be closed with its faces outward.
/// </para>
/// </remarks>
/// <param name="Orientations">From the least contact to the most; empty when nothing that was tried fits.</param>
/// <param name="AsTheFileLies">The file's own pose measured likewise, turned about the upright to fit; null when it does not fit.</param>
public sealed record OrientationAdvice(IReadOnlyList<AdvisedOrientation> Orientations, AdvisedOrientation? AsTheFileLies)
{
    /// <summary>No more orientations are given.</summary>
    public const int Most = 5;

    private const int MostMeasured = 24;
    private const int MostSpreadInVat = 16;
    private const int RoughRays = 6_000;
    private const double SameDegrees = 8;
    private const double SameShare = 0.01;

    private const int ColumnsAcross = 200;

    /// <summary>mm², mm, mm², mm³, mm²: less is hardly seen.</summary>
    private static readonly double[] MeritFloors = [5, 0.5, 5, 50, 10];

    private static readonly ColumnBudget RoughColumns = new(40_000, 1_000_000);

    /// <summary>Advice for one printer.</summary>
    /// <param name="tree">Of the part's mesh.</param>
    /// <param name="hull">Of the same mesh.</param>
    /// <param name="volume">Its margin is kept free.</param>
    /// <param name="fit">What <see cref="FitSearch"/> says of that hull and volume; asked for when it is not given.</param>
    /// <param name="limitDegrees">The steepest unsupported overhang, from the vertical.</param>
    /// <param name="liquid">True to ask about pools and suction as well: for parts that hang in a vat.</param>
    /// <param name="cancel">Ends the search with <see cref="OperationCanceledException"/>.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    public static OrientationAdvice For(
        TriangleTree tree, ConvexHull hull, BuildVolume volume, FitResult? fit = null, double limitDegrees = OverhangMeasures.ReferenceDegrees,
        bool liquid = false, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(hull);
        fit ??= FitSearch.Fit(hull, volume, cancel);
        if (tree.Mesh.TriangleCount == 0 || !fit.Fits) return new([], null);
        var upright = new UprightFit(hull, volume);
        var samples = SurfaceSamples.Of(tree, hull, cancel);
        var finalists = OrientationCandidates.Promising(hull, fit.Rotation, upright, samples, limitDegrees, MostMeasured, liquid ? MostSpreadInVat : 0, cancel);
        var surface = new OverhangSurface(tree, cancel);
        var (measured, done) = (new AdvisedOrientation?[finalists.Count], 0);
        progress?.Report(0.2);
        Parallel.For(0, finalists.Count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancel }, i =>
        {
            if (upright.Exactly(finalists[i]) is not { } placed) return;
            var rough = surface.Supports(placed.Rotation, RoughRays, cancel);
            measured[i] = WithLiquid(
                new(placed.Rotation, placed.Size, placed.SpareMm, rough.ContactAt(limitDegrees), rough.SupportVolumeAt(limitDegrees), rough.RestingMm2, 0));
            progress?.Report(0.2 + (0.6 * Interlocked.Increment(ref done) / finalists.Count));
        });

        var front = Distinct(ParetoSpread.Front([.. measured.OfType<AdvisedOrientation>()], o => o.Merits));
        front = ParetoSpread.WithoutNearlyBeaten(front, o => o.Merits, MeritFloors);
        var chosen = ParetoSpread.Thinned(front, o => o.Merits, Most).ConvertAll(o => Finished(o));
        chosen = ParetoSpread.Front(chosen, o => o.Merits);
        return new(
            [.. chosen.OrderBy(o => o.ContactMm2).ThenBy(o => o.Size.Z).Select(o => o with { BestIn = BestIn(o, chosen) })],
            upright.Upright(Vec3.UnitZ) is { } own && upright.Exactly(own) is { } lies ? Finished(WithLiquid(new(lies.Rotation, lies.Size, lies.SpareMm, 0, 0, 0, 0))) : null);

        AdvisedOrientation WithLiquid(AdvisedOrientation o)
        {
            if (!liquid) return o;
            var kept = LiquidInPose.Of(SolidColumns.Of(tree.Mesh, o.Rotation, hull.Bounds.Size.Length / ColumnsAcross, RoughColumns, cancel), cancel);
            return o with { PooledMm3 = Math.Round(kept.PooledMm3, 1), SuctionMm2 = Math.Round(kept.SuctionMm2, 1) };
        }

        AdvisedOrientation Finished(AdvisedOrientation o)
        {
            var exact = surface.Measure(o.Rotation, null, cancel);
            return o with
            {
                Stands = samples.Stands(o.Rotation, upright.PlateAlong(o.Rotation.RowZ), limitDegrees),
                ContactMm2 = Math.Round(exact.ContactAt(limitDegrees), 2),
                SupportVolumeMm3 = Math.Round(exact.SupportVolumeAt(limitDegrees), 2),
                RestingMm2 = exact.RestingMm2,
                IslandCount = exact.IslandCount,
            };
        }
    }

    /// <summary>Leaves out what says nothing new: nearly the same way up, or the same numbers (a symmetric part).</summary>
    private static List<AdvisedOrientation> Distinct(List<AdvisedOrientation> front)
    {
        var kept = new List<AdvisedOrientation>();
        foreach (var o in front.OrderBy(o => o.ContactMm2).ThenBy(o => o.Size.Z))
            if (!kept.Exists(k => AreAlike(k, o))) kept.Add(o);
        return kept;

        static bool AreAlike(AdvisedOrientation a, AdvisedOrientation b) =>
            Vec3.Dot(a.Rotation.RowZ, b.Rotation.RowZ) > Math.Cos(SameDegrees * Math.PI / 180)
            || a.Merits.Zip(b.Merits).All(m => Math.Abs(m.First - m.Second) <= Math.Max(0.5, SameShare * Math.Max(m.First, m.Second)));
    }

    /// <summary>Where it is the best, or one of the best; what they are all equal in says nothing.</summary>
    private static List<OrientationMerit> BestIn(AdvisedOrientation o, List<AdvisedOrientation> all) =>
    [
        .. Enumerable.Range(0, o.Merits.Length)
            .Where(m => all.TrueForAll(other => o.Merits[m] <= other.Merits[m]) && (all.Count == 1 || all.Exists(other => o.Merits[m] < other.Merits[m])))
            .Select(m => (OrientationMerit)m),
    ];
}
