namespace Catalogue.Geometry.Orientations;

/// <summary>The front of what nothing else beats in every merit, and a few of it that lie far apart. Less is better; O(n²).</summary>
internal static class ParetoSpread
{
    /// <summary>Those that no other beats: as good in every merit and better in one. Of equals the first stays.</summary>
    public static List<T> Front<T>(List<T> all, Func<T, double[]> merits)
    {
        var values = all.ConvertAll(o => merits(o));
        return [.. all.Where((_, i) => !values.Where((other, j) => Beats(other, values[i], j < i)).Any())];

        static bool Beats(double[] a, double[] b, bool first)
        {
            var better = first;
            for (var m = 0; m < a.Length; m++)
            {
                if (a[m] > b[m]) return false;
                better |= a[m] < b[m];
            }

            return better;
        }
    }

    /// <summary>
    /// Leaves out what another all but beats: one that loses little in some merit and gains three times as much, in shares, in another.
    /// </summary>
    /// <param name="floors">Of each merit, in its unit: differences about this size do not count.</param>
    public static List<T> WithoutNearlyBeaten<T>(List<T> front, Func<T, double[]> merits, double[] floors)
    {
        const double Gain = 3;
        const double Least = 0.03;
        var values = front.ConvertAll(o => merits(o));
        var kept = new List<int>();
        for (var i = 0; i < front.Count; i++)
        {
            if (kept.Exists(k => NearlyBeats(values[k], values[i]))) continue;
            kept.RemoveAll(k => NearlyBeats(values[i], values[k]));
            kept.Add(i);
        }

        return [.. kept.Order().Select(i => front[i])];

        bool NearlyBeats(double[] a, double[] b)
        {
            var (loss, gain) = (0.0, 0.0);
            for (var m = 0; m < a.Length; m++)
            {
                var ratio = (a[m] + floors[m]) / (b[m] + floors[m]);
                (loss, gain) = (Math.Max(loss, ratio - 1), Math.Max(gain, 1 - ratio));
            }

            return gain >= (Gain * loss) + Least;
        }
    }

    /// <summary>At most so many: the best in each merit, then always the one farthest, in shares of each merit's range, from all that are taken.</summary>
    public static List<T> Thinned<T>(List<T> all, Func<T, double[]> merits, int most)
    {
        if (all.Count <= most) return all;
        var values = all.ConvertAll(o => merits(o));
        var (low, high) = (values[0].ToArray(), values[0].ToArray());
        foreach (var v in values)
        {
            for (var m = 0; m < v.Length; m++) (low[m], high[m]) = (Math.Min(low[m], v[m]), Math.Max(high[m], v[m]));
        }

        var taken = new List<int>();
        for (var m = 0; m < low.Length && taken.Count < most; m++)
        {
            var best = Enumerable.Range(0, all.Count).MinBy(i => values[i][m]);
            if (!taken.Contains(best)) taken.Add(best);
        }

        var apart = new double[all.Count];
        Array.Fill(apart, double.PositiveInfinity);
        foreach (var t in taken) Near(t);
        while (taken.Count < most)
        {
            var farthest = Enumerable.Range(0, all.Count).MaxBy(i => apart[i]);
            if (!(apart[farthest] > 0)) break;
            taken.Add(farthest);
            Near(farthest);
        }

        return [.. taken.Order().Select(i => all[i])];

        void Near(int t)
        {
            for (var i = 0; i < all.Count; i++)
            {
                var distance = 0.0;
                for (var m = 0; m < low.Length; m++)
                {
                    var range = high[m] - low[m];
                    if (range > 0) distance += Math.Pow((values[i][m] - values[t][m]) / range, 2);
                }

                apart[i] = Math.Min(apart[i], distance);
            }
        }
    }
}
