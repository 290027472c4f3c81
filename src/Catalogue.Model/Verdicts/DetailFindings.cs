using Catalogue.Geometry.Details;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>Which relief a process does not show: ridges narrower and steps lower than its limits are lost, grooves narrower than its limit close.</summary>
/// <remarks>
/// Notes, never more: the part prints and works without its fine relief, and who prints it should know that it will look plainer. Limits are met by the
/// table's largest size that is not above them (<see cref="DetailMeasures.At"/>), so nothing within a limit is called lost.
/// </remarks>
public static class DetailFindings
{
    /// <summary>Less of it is not spoken of (mm of edge or length; our own bound).</summary>
    internal const double WorthTellingMm = 5;

    public static IEnumerable<Finding> Of(DetailMeasures details, Process process)
    {
        ArgumentNullException.ThrowIfNull(details);
        ArgumentNullException.ThrowIfNull(process);
        if (process.Limit(LimitKey.DetailHeight) is { } height && Low(details, height) is { } low) yield return low;
        if (process.Limit(LimitKey.DetailWidth) is not { } width) yield break;
        if (Narrow(details.Ridges, width, Rules.DetailLost, Ridges) is { } ridges) yield return ridges;
        if (Narrow(details.Grooves, width, Rules.DetailClosed, Grooves) is { } grooves) yield return grooves;
    }

    private static Finding? Low(DetailMeasures details, ProcessLimit limit)
    {
        if (DetailMeasures.At(details.Low, limit.Value) is not { } step || step.LengthMm < WorthTellingMm || step.Largest.Count == 0) return null;
        var first = step.Largest[0];
        return Rules.DetailLost.Found(Severity.Note,
            (step.Count == 1
                ? S($"Relief lower than {limit.Value:0.##} mm may not show: {step.LengthMm:0} mm of edges in one place, the longest {first.HeightMm:0.0#} mm high at {Place.Of(first.At)}.")
                : $"Relief lower than {limit.Value:0.##} mm may not show: {step.LengthMm:0} mm of edges in {step.Count} places, the longest {first.HeightMm:0.0#} mm high at {Place.Of(first.At)}.")
            + S($"Raise or sink it further, or expect a plainer surface.")) with
        {
            Measured = Math.Round(first.HeightMm, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = first.At,
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    private static Finding? Narrow(IReadOnlyList<DetailStep> table, ProcessLimit limit, Rule rule, Func<double, DetailStep, Sentence> said)
    {
        if (DetailMeasures.At(table, limit.Value) is not { } step || step.LengthMm < WorthTellingMm || step.Largest.Count == 0) return null;
        var first = step.Largest[0];
        return rule.Found(Severity.Note, said(limit.Value, step)) with
        {
            Measured = Math.Round(first.WidthMm ?? 0, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = first.At,
            Source = Sentence.FromWords(limit.Origin),
        };
    }

    private static Sentence Ridges(double limit, DetailStep step)
    {
        var (width, place) = (step.Largest[0].WidthMm ?? 0, Place.Of(step.Largest[0].At));
        return (step.Count == 1
            ? S($"Ridges narrower than {limit:0.##} mm, {step.LengthMm:0} mm of them in one place, the longest {width:0.0#} mm wide at {place}: raised lines are lost or break up.")
            : $"Ridges narrower than {limit:0.##} mm, {step.LengthMm:0} mm of them in {step.Count} places, the longest {width:0.0#} mm wide at {place}: raised lines are lost or break up.")
            + S($"Widen them, or expect a plainer surface.");
    }

    private static Sentence Grooves(double limit, DetailStep step)
    {
        var (width, place) = (step.Largest[0].WidthMm ?? 0, Place.Of(step.Largest[0].At));
        return (step.Count == 1
            ? S($"Grooves narrower than {limit:0.##} mm, {step.LengthMm:0} mm of them in one place, the longest {width:0.0#} mm wide at {place}: engraved lines close up.")
            : $"Grooves narrower than {limit:0.##} mm, {step.LengthMm:0} mm of them in {step.Count} places, the longest {width:0.0#} mm wide at {place}: engraved lines close up.")
            + S($"Widen them, or cut them after printing.");
    }
}
