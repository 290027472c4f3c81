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
        if (facts.Walls is not null && Beyond(wall, WallMeasures.WallSteps[^1], scale, Walls, Source(LimitKey.WallFree)) is { } walls) yield return walls;
        var clearance = process.Limit(LimitKey.Clearance)?.Value ?? 0;
        if (facts.Gaps is not null && Beyond(clearance, GapMeasures.GapSteps[^1], scale, Gaps, Source(LimitKey.Clearance)) is { } gaps) yield return gaps;
        var limb = ThicknessFindings.NarrowLimb * (process.Limit(LimitKey.LimbWidth)?.Value ?? 0);
        if (facts.Walls is not null && Beyond(limb, WallMeasures.LimbSteps[^1], scale, Limbs, Source(LimitKey.LimbWidth)) is { } limbs) yield return limbs;

        Sentence? Source(string key) => process.Limit(key) is { } limit ? Sentence.FromWords(limit.Origin) : null;
    }

    private static Finding? Beyond(double limit, double measured, double scale, Func<double, double, double, Sentence> said, Sentence? source)
    {
        if (limit / scale <= measured * (1 + 1e-9)) return null;
        return Rules.ScaleNotMeasured.Found(Severity.Care, said(limit / scale, limit, measured)) with
        {
            Measured = Math.Round(100 * scale, 2),
            Limit = Math.Round(100 * limit / measured, 2),
            Unit = "%",
            Source = source,
        };
    }

    private static Sentence Walls(double drawn, double limit, double measured) =>
        $"So small, walls that are drawn {drawn:0.##} mm wide come to the limit of {limit:0.##} mm, and walls are measured up to {measured:0.##} mm only: more may be too thin than is told here.";

    private static Sentence Gaps(double drawn, double limit, double measured) =>
        $"So small, gaps that are drawn {drawn:0.##} mm wide come to the limit of {limit:0.##} mm, and gaps are measured up to {measured:0.##} mm only: more may fuse than is told here.";

    private static Sentence Limbs(double drawn, double limit, double measured) =>
        $"So small, limbs that are drawn {drawn:0.##} mm wide come to the limit of {limit:0.##} mm, and limbs are measured up to {measured:0.##} mm only: more may be too narrow than is told here.";
}
