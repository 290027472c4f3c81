using System.Globalization;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Scaling;

/// <summary>Down to which scale the stored measurements tell everything: thickness and gaps are measured up to a length only, and what is thicker at drawn size may become too thin.</summary>
public static class ScaleReach
{
    /// <summary>What cannot be told at a scale; nothing for most.</summary>
    public static IEnumerable<Finding> Findings(MeshFacts facts, Process process, double scale)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(process);
        var wall = Math.Max(process.Limit(LimitKey.WallFree)?.Value ?? 0, process.Limit(LimitKey.WallSupported)?.Value ?? 0);
        if (facts.Walls is not null && Beyond(wall, WallMeasures.WallSteps[^1], scale, "walls", "be too thin", Source(LimitKey.WallFree)) is { } walls) yield return walls;
        var clearance = process.Limit(LimitKey.Clearance)?.Value ?? 0;
        if (facts.Gaps is not null && Beyond(clearance, GapMeasures.GapSteps[^1], scale, "gaps", "fuse", Source(LimitKey.Clearance)) is { } gaps) yield return gaps;
        var limb = ThicknessFindings.NarrowLimb * (process.Limit(LimitKey.LimbWidth)?.Value ?? 0);
        if (facts.Walls is not null && Beyond(limb, WallMeasures.LimbSteps[^1], scale, "limbs", "be too narrow", Source(LimitKey.LimbWidth)) is { } limbs) yield return limbs;

        string? Source(string key) => process.Limit(key)?.Origin;
    }

    private static Finding? Beyond(double limit, double measured, double scale, string what, string how, string? source)
    {
        if (limit / scale <= measured * (1 + 1e-9)) return null;
        return Rules.ScaleNotMeasured.Found(Severity.Care,
            Text($"So small, {what} that are drawn {limit / scale:0.##} mm wide come to the limit of {limit:0.##} mm, and {what} are measured up to {measured:0.##} mm only: more may {how} than is told here.")) with
        {
            Measured = Math.Round(100 * scale, 2),
            Limit = Math.Round(100 * limit / measured, 2),
            Unit = "%",
            Source = source,
        };
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
