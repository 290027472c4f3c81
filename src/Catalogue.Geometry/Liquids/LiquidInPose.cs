using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>Gaps that hang together and hold liquid.</summary>
/// <param name="LengthMm">From end to end along z.</param>
/// <param name="LargestMm2">Its largest level area.</param>
/// <param name="Column">Of its extreme point: the lowest in the world for a pool, the one nearest to the platform for suction.</param>
/// <param name="Height">Of that point.</param>
public sealed record LiquidPocket(double VolumeMm3, double LengthMm, double LargestMm2, int Column, double Height)
{
    /// <summary>The gaps in it, for those who look closer.</summary>
    internal IReadOnlyList<int> Gaps { get; init; } = [];

    /// <summary>The extreme point in the file's coordinates.</summary>
    public Vec3 Extreme(SolidColumns columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        return columns.At(Column % columns.Width, Column / columns.Width, Height);
    }
}

/// <summary>Pools and suction of a part in one pose, from its columns alone: what an orientation is judged by. See <see cref="TrappedLiquid"/> for pose and tolerances.</summary>
public sealed class LiquidInPose
{
    /// <summary>Pockets smaller than this are not listed (they count in the sums): below it a drop clings anywhere.</summary>
    public const double LeastPocketMm3 = 1;

    /// <summary>Liquid this shallow is not counted.</summary>
    private const float Shallow = 0.02f;

    private readonly ColumnGaps _gaps;
    private readonly TrappedStretches _toFilm;
    private readonly TrappedStretches _toPlatform;

    private LiquidInPose(ColumnGaps gaps, TrappedStretches toFilm, TrappedStretches toPlatform) =>
        (_gaps, _toFilm, _toPlatform) = (gaps, toFilm, toPlatform);

    /// <summary>Largest first.</summary>
    public IReadOnlyList<LiquidPocket> Pools { get; private init; } = [];

    public IReadOnlyList<LiquidPocket> SuctionCups { get; private init; } = [];

    public double PooledMm3 { get; private init; }

    /// <summary>The largest area sealed in any one layer.</summary>
    public double SuctionMm2 { get; private init; }

    /// <summary>Height of all layers that seal at least 1 mm².</summary>
    public double SuctionLastsMm { get; private init; }

    public static LiquidInPose Of(SolidColumns columns, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(columns);
        var gaps = new ColumnGaps(columns);
        TrappedStretches? toFilm = null, toPlatform = null;
        Fork.Both(() => toFilm = TrappedStretches.Of(gaps, WayOut.Film, cancel), () => toPlatform = TrappedStretches.Of(gaps, WayOut.Platform, cancel));
        List<LiquidPocket>? pools = null, cups = null;
        Fork.Both(() => pools = Pockets(gaps, toFilm!, WayOut.Film), () => cups = Pockets(gaps, toPlatform!, WayOut.Platform));
        var square = columns.PitchMm * columns.PitchMm;
        var areas = new AreaProfile(columns.HeightMm);
        var pooled = 0.0;
        for (var gap = 0; gap < gaps.Count; gap++)
        {
            if (toFilm!.To[gap] - toFilm.From[gap] > Shallow) pooled += toFilm.To[gap] - toFilm.From[gap];
            if (toPlatform!.To[gap] - toPlatform.From[gap] > Shallow) areas.Add(toPlatform.From[gap], toPlatform.To[gap]);
        }

        var (largest, lasts) = areas.Take(Math.Max(1, 1 / square));
        return new(gaps, toFilm!, toPlatform!)
        {
            Pools = pools!,
            SuctionCups = cups!,
            PooledMm3 = pooled * square,
            SuctionMm2 = largest * square,
            SuctionLastsMm = lasts,
        };
    }

    /// <summary>Whether a place of the turned frame is joined to the outside by gaps the columns can see.</summary>
    internal bool IsReached(int column, double height) => _gaps.At(column, height) is >= 0 and var gap && _toPlatform.IsReached(gap);

    /// <summary>Whether liquid at that place stays, in the vat or after the print.</summary>
    internal bool IsTrapped(int column, double height) =>
        _gaps.At(column, height) is >= 0 and var gap && (_toFilm.Holds(gap, height) || _toPlatform.Holds(gap, height));

    /// <summary>What liquid does at a place: nothing where there is material.</summary>
    internal LiquidTouch TouchAt(int column, double height)
    {
        var gap = _gaps.At(column, height);
        if (gap < 0) return LiquidTouch.Free;
        if (!_toPlatform.IsReached(gap)) return LiquidTouch.Sealed;
        return _toFilm.Holds(gap, height) ? LiquidTouch.Pool : _toPlatform.Holds(gap, height) ? LiquidTouch.Suction : LiquidTouch.Free;
    }

    internal bool IsMaterial(int column, double height) => _gaps.At(column, height) < 0;

    /// <summary>Points a little off the floor of a pool, those near its deepest; (x, y, height) of the turned frame.</summary>
    internal IEnumerable<Vec3> LowPoints(LiquidPocket pool) => Points(pool, _toFilm, gap => pool.Height - _toFilm.To[gap], gap => _toFilm.To[gap], -1);

    /// <summary>Points a little off the roof of a suction cup, those nearest to the platform.</summary>
    internal IEnumerable<Vec3> HighPoints(LiquidPocket cup) => Points(cup, _toPlatform, gap => _toPlatform.From[gap] - cup.Height, gap => _toPlatform.From[gap], 1);

    private IEnumerable<Vec3> Points(LiquidPocket pocket, TrappedStretches stretches, Func<int, double> awayOf, Func<int, double> endOf, int inward)
    {
        var near = Math.Max(0.1 * pocket.LengthMm, 1);
        foreach (var gap in pocket.Gaps)
        {
            if (awayOf(gap) > near) continue;
            var column = _gaps.ColumnOf(gap);
            var inset = Math.Min(0.3, (stretches.To[gap] - stretches.From[gap]) / 2) * inward;
            var columns = _gaps.Columns;
            yield return new(columns.X(column % columns.Width), columns.Y(column / columns.Width), endOf(gap) + inset);
        }
    }

    private static List<LiquidPocket> Pockets(ColumnGaps gaps, TrappedStretches stretches, WayOut wayOut)
    {
        var (from, to) = (stretches.From, stretches.To);
        var pockets = new List<LiquidPocket>();
        var seen = new bool[gaps.Count];
        var square = gaps.Columns.PitchMm * gaps.Columns.PitchMm;
        Span<int> beside = stackalloc int[4];
        var areas = new AreaProfile(gaps.Columns.HeightMm);
        for (var first = 0; first < gaps.Count; first++)
        {
            if (seen[first] || !(to[first] - from[first] > Shallow)) continue;
            var members = new List<int> { first };
            seen[first] = true;
            var length = 0.0;
            var extreme = first;
            var (low, high) = (float.PositiveInfinity, float.NegativeInfinity);
            for (var at = 0; at < members.Count; at++)
            {
                var gap = members[at];
                length += to[gap] - from[gap];
                (low, high) = (Math.Min(low, from[gap]), Math.Max(high, to[gap]));
                if (wayOut == WayOut.Film ? to[gap] > to[extreme] : from[gap] < from[extreme]) extreme = gap;
                gaps.Beside(gaps.ColumnOf(gap), beside);
                foreach (var column in beside)
                {
                    if (column < 0) continue;
                    for (var other = gaps.First(column); other < gaps.First(column + 1); other++)
                    {
                        if (seen[other] || !(to[other] - from[other] > Shallow)) continue;
                        if (Math.Min(to[gap], to[other]) - Math.Max(from[gap], from[other]) <= 0) continue;
                        seen[other] = true;
                        members.Add(other);
                    }
                }
            }

            if (length * square < LeastPocketMm3) continue;
            foreach (var gap in members) areas.Add(from[gap], to[gap]);
            pockets.Add(new(length * square, high - low, areas.Take(1).Area * square, gaps.ColumnOf(extreme), wayOut == WayOut.Film ? to[extreme] : from[extreme])
            {
                Gaps = members,
            });
        }

        return [.. pockets.OrderByDescending(p => p.VolumeMm3).ThenBy(p => p.Column)];
    }
}
