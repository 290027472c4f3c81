namespace Catalogue.Geometry.Liquids;

/// <summary>Which side liquid can leave a part to.</summary>
internal enum WayOut
{
    /// <summary>Down, to the film and the vat: what cannot is a pool after the print.</summary>
    Film,

    /// <summary>Up, to the platform, or sideways out of what is printed so far: what cannot is sealed by the film.</summary>
    Platform,
}

/// <summary>For each gap of the columns the stretch that liquid cannot leave, and whether any way leads out at all.</summary>
/// <remarks>
/// A way from a gap to the outside passes gaps that overlap each other; it has to climb over the ends of all of them. The best way is the one
/// whose worst end is least bad, and the worst end of the best way is the level up to which liquid stays. Found by flooding from the outside in the
/// order of level (priority flood: Barnes, Lehman and Mulla, "Priority-Flood", Computers and Geosciences 62, 2014), with gaps instead of
/// cells of a terrain, so that overhangs, tunnels and rooms upon rooms are right. For the film the ends are the gaps' upper z (the world's floor);
/// for the platform the gaps' lower z: a layer at height t seals what cannot leave below t. O(gaps · log gaps).
/// </remarks>
internal sealed class TrappedStretches
{
    private readonly bool[] _reached;

    private TrappedStretches(float[] from, float[] to, bool[] reached) => (From, To, _reached) = (from, to, reached);

    /// <summary>Start of what stays in each gap; not below <see cref="To"/> where nothing does.</summary>
    public float[] From { get; }

    public float[] To { get; }

    /// <summary>Whether a gap is joined to the outside.</summary>
    public bool IsReached(int gap) => _reached[gap];

    public bool Holds(int gap, double height) => height > From[gap] && height < To[gap];

    /// <summary>Gaps that are closed off for good hold all they have toward the platform (it is sealed while printed) and nothing toward the film (no pool, a void).</summary>
    public static TrappedStretches Of(ColumnGaps gaps, WayOut wayOut, CancellationToken cancel)
    {
        var toFilm = wayOut == WayOut.Film;
        var levels = Levels(gaps, toFilm, cancel);
        var (from, to, reached) = (new float[gaps.Count], new float[gaps.Count], new bool[gaps.Count]);
        for (var gap = 0; gap < gaps.Count; gap++)
        {
            var level = levels[gap];
            reached[gap] = !float.IsNaN(level);
            (from[gap], to[gap]) = (gaps.From[gap], gaps.To[gap]);
            if (toFilm) from[gap] = reached[gap] ? Math.Max(gaps.From[gap], level) : float.PositiveInfinity;
            else if (reached[gap]) to[gap] = Math.Min(gaps.To[gap], -level);
        }

        return new(from, to, reached);
    }

    /// <summary>The level of each gap, as an upper z (film) or a negated lower z (platform); NaN where no way leads out.</summary>
    private static float[] Levels(ColumnGaps gaps, bool toFilm, CancellationToken cancel)
    {
        var (from, to) = (gaps.From, gaps.To);
        var levels = new float[gaps.Count];
        Array.Fill(levels, float.NaN);
        var ready = new Stack<int>();
        var waiting = new PriorityQueue<int, float>();
        var columns = gaps.Columns.Width * gaps.Columns.Depth;
        Span<int> beside = stackalloc int[4];
        for (var column = 0; column < columns; column++)
        {
            gaps.Beside(column, beside);
            var atRim = beside.Contains(-1);
            for (var gap = gaps.First(column); gap < gaps.First(column + 1); gap++)
            {
                var end = toFilm ? to[gap] : -from[gap];
                if (float.IsPositiveInfinity(end))
                {
                    levels[gap] = end;
                    ready.Push(gap);
                }
                else if (atRim)
                {
                    levels[gap] = end;
                    waiting.Enqueue(gap, -end);
                }
            }
        }

        var resolution = (float)gaps.Columns.ResolutionMm;
        var steps = 0;
        while (ready.TryPop(out var gap) || waiting.TryDequeue(out gap, out _))
        {
            if ((++steps & 0xFFFF) == 0) cancel.ThrowIfCancellationRequested();
            var level = levels[gap];
            gaps.Beside(gaps.ColumnOf(gap), beside);
            foreach (var column in beside)
            {
                if (column < 0) continue;
                for (var other = gaps.First(column); other < gaps.First(column + 1); other++)
                {
                    if (!float.IsNaN(levels[other])) continue;
                    if (Math.Min(to[gap], to[other]) - Math.Max(from[gap], from[other]) <= resolution) continue;
                    var end = toFilm ? to[other] : -from[other];
                    if (end >= level)
                    {
                        levels[other] = level;
                        ready.Push(other);
                    }
                    else
                    {
                        levels[other] = end;
                        waiting.Enqueue(other, -end);
                    }
                }
            }
        }

        return levels;
    }
}
