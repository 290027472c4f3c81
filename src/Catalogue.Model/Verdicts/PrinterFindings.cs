using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>What a visitor's own layer height and line width change in a judgement: relief that they cannot draw, and starts in mid-air that their layer does not hide.</summary>
/// <remarks>
/// <para>
/// A line narrower than the printer draws, or a step lower than its layer, is lost or closes whatever the process can do elsewhere, so both raise the limits of fine relief; a finer
/// printer does not lower them, because they are where relief survives cleaning and paint (common practice). A start in mid-air is saved by its neighbour
/// within one layer, so there the printer's layer stands in the place of the thickest one.
/// </para>
/// <para>
/// All of these are notes: the verdict is the same for every printer of the process, and so are shelf and matrix. Walls are not judged by the line: their limit is what survives
/// handling, which is wider than any usual line. Joints, fits and hollows do not depend on either. What is overruled stays so.
/// </para>
/// </remarks>
public static class PrinterFindings
{
    private static readonly HashSet<string> Judged = [Rules.DetailLost.Code, Rules.DetailClosed.Code, Rules.OverhangIsland.Code];

    /// <param name="kept">As it was judged by the process's limits.</param>
    /// <param name="layerMm">The visitor's layer height; null = not said.</param>
    /// <param name="lineMm">The width of a line or a pixel; null = not said.</param>
    public static Judgement Of(Judgement kept, MeshFacts facts, Process process, double? layerMm, double? lineMm)
    {
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(process);
        if ((layerMm is null && lineMm is null) || kept.Verdict == Verdict.Unchecked) return kept;
        var own = new Process(process.Code, process.Name, process.Description, process.Position, process.Material, process.Limits.Select(l => Own(l, layerMm, lineMm)));
        return Judgement.From(
        [
            .. kept.Findings.Where(f => !Judged.Contains(f.Code)),
            .. facts.Details is { } details ? DetailFindings.Of(details, own) : [],
            .. facts.Overhangs is { } overhangs ? OverhangFindings.Of(overhangs, facts.VolumeMm3, own).Where(f => Judged.Contains(f.Code)) : [],
        ]);
    }

    private static ProcessLimit Own(ProcessLimit limit, double? layerMm, double? lineMm) => limit.Key switch
    {
        LimitKey.DetailHeight when layerMm > limit.Value => new(limit.Key, layerMm.Value, limit.Unit, T($"your printer’s layer of {layerMm:0.###} mm")),
        LimitKey.DetailWidth when lineMm > limit.Value => new(limit.Key, lineMm.Value, limit.Unit, T($"your printer’s line of {lineMm:0.###} mm")),
        LimitKey.LayerHeightMax when layerMm is { } layer => new(limit.Key, layer, limit.Unit, T($"your printer’s layer")),
        _ => new(limit.Key, limit.Value, limit.Unit, limit.Origin),
    };
}
