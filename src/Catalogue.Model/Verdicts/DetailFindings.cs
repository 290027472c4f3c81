using System.Globalization;
using Catalogue.Geometry.Details;
using Catalogue.Geometry.Meshes;
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
        if (Narrow(details.Ridges, width, Rules.DetailLost, "Ridges", "raised lines are lost or break up. Widen them, or expect a plainer surface.") is { } ridges) yield return ridges;
        if (Narrow(details.Grooves, width, Rules.DetailClosed, "Grooves", "engraved lines close up. Widen them, or cut them after printing.") is { } grooves) yield return grooves;
    }

    private static Finding? Low(DetailMeasures details, ProcessLimit limit)
    {
        if (DetailMeasures.At(details.Low, limit.Value) is not { } step || step.LengthMm < WorthTellingMm || step.Largest.Count == 0) return null;
        var first = step.Largest[0];
        return Rules.DetailLost.Found(Severity.Note,
            Text($"Relief lower than {limit.Value:0.##} mm may not show: {Edges(step)}, the longest {first.HeightMm:0.0#} mm high at {Place(first.At)}. Raise or sink it further, or expect a plainer surface.")) with
        {
            Measured = Math.Round(first.HeightMm, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = first.At,
            Source = limit.Origin,
        };
    }

    private static Finding? Narrow(IReadOnlyList<DetailStep> table, ProcessLimit limit, Rule rule, string what, string follows)
    {
        if (DetailMeasures.At(table, limit.Value) is not { } step || step.LengthMm < WorthTellingMm || step.Largest.Count == 0) return null;
        var first = step.Largest[0];
        return rule.Found(Severity.Note,
            Text($"{what} narrower than {limit.Value:0.##} mm, {step.LengthMm:0} mm of them in {Places(step)}, the longest {first.WidthMm ?? 0:0.0#} mm wide at {Place(first.At)}: ") + follows) with
        {
            Measured = Math.Round(first.WidthMm ?? 0, 3),
            Limit = limit.Value,
            Unit = "mm",
            At = first.At,
            Source = limit.Origin,
        };
    }

    private static string Edges(DetailStep step) => Text($"{step.LengthMm:0} mm of edges in {Places(step)}");

    private static string Places(DetailStep step) => step.Count == 1 ? "one place" : Text($"{step.Count} places");

    private static string Place(Vec3 at) => Text($"({at.X:0.0}, {at.Y:0.0}, {at.Z:0.0})");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
