using Catalogue.Geometry.Thickness;

namespace Catalogue.Model.Verdicts;

/// <summary>The regions on a ladder of steps that lie below a limit, whatever step the limit falls between.</summary>
/// <param name="Thinnest">The thinnest of them; null when there is none.</param>
/// <param name="Count">How many there are at the step of the limit; at least 1 when there is one at all.</param>
internal readonly record struct ThinPlaces(ThinRegion? Thinnest, int Count)
{
    /// <summary>
    /// Looks at all steps up to the smallest one at or above the limit (beyond the last step, up to the last), so that a thinner region within a larger one of
    /// another kind is found.
    /// </summary>
    /// <param name="steps">Those that have regions.</param>
    /// <param name="ladder">All steps.</param>
    /// <param name="limit">mm.</param>
    /// <param name="counts">Whether a region counts.</param>
    /// <param name="measure">What is compared with the limit; the least value if not given.</param>
    public static ThinPlaces Below(
        IReadOnlyList<ThinStep> steps, IReadOnlyList<double> ladder, double limit, Func<ThinRegion, bool> counts, Func<ThinRegion, double>? measure = null)
    {
        measure ??= r => r.MinMm;
        var last = StepAt(ladder, limit);
        var (thinnest, count) = ((ThinRegion?)null, 0);
        foreach (var step in steps.Where(s => s.BelowMm <= last))
        {
            var below = step.Regions.Where(r => measure(r) < limit * WallMeasures.Clearly && counts(r)).ToList();
            if (below.Count == 0) continue;
            count = below.Count;
            var least = below.MinBy(measure)!;
            if (thinnest is null || measure(least) < measure(thinnest)) thinnest = least;
        }

        return new(thinnest, count);
    }

    /// <summary>The regions at the step of a limit; null when there are none.</summary>
    public static ThinStep? StepFor(IReadOnlyList<ThinStep> steps, IReadOnlyList<double> ladder, double limit) =>
        steps.FirstOrDefault(s => s.BelowMm == StepAt(ladder, limit));

    private static double StepAt(IReadOnlyList<double> ladder, double limit) => ladder.FirstOrDefault(s => s >= limit * (1 - 1e-9), ladder[^1]);
}
