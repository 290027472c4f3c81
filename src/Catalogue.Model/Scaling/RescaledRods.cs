using Catalogue.Geometry.Holes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Scaling;

/// <summary>A rod of a figure's hardware when the figure is printed at another size. Lengths in mm.</summary>
/// <param name="Need">As the designer wrote it.</param>
/// <param name="IdealMm">What the drawn diameter becomes.</param>
/// <param name="RodMm">The stock rod to take.</param>
/// <param name="Passage">How that rod goes into the hole of its joint; null where no joint says how wide the hole is.</param>
/// <param name="CutLengthMm">To cut it to; null when the designer gave none.</param>
/// <param name="Below">Nearest scale, this one or less, at which a stock rod fits as drawn.</param>
/// <param name="Above">The same, this one or more.</param>
public sealed record RescaledRod(HardwareNeed Need, double IdealMm, double RodMm, RodPassage? Passage, double? CutLengthMm, RodMatch? Below, RodMatch? Above)
{
    private const double SameMm = 0.01;

    /// <summary>True when the scale is one at which a stock rod fits as drawn.</summary>
    public bool IsExact => Math.Abs(RodMm - IdealMm) <= 0.005;

    /// <param name="need">A rod with a diameter.</param>
    /// <param name="joints">Of the figure; the pinned hinge with that rod says how wide its hole is.</param>
    public static RescaledRod? Of(HardwareNeed need, IEnumerable<JointSpec> joints, Process process, PrintScale scale)
    {
        ArgumentNullException.ThrowIfNull(need);
        ArgumentNullException.ThrowIfNull(joints);
        if (need is not { Kind: HardwareKind.Rod, DiameterMm: { } drawn }) return null;
        var hole = joints.Where(j => j is { Kind: JointKind.PinnedHinge, OuterDiameterMm: not null, InnerDiameterMm: { } rod } && Math.Abs(rod - drawn) <= SameMm)
            .Select(j => j.OuterDiameterMm).Min();
        var passage = hole is { } width ? ForHole(width, drawn, process, scale) : null;
        var (below, above) = StockRods.Matches(drawn, scale);
        return new(need, drawn * scale.Factor, passage?.RodMm ?? StockRods.Nearest(drawn * scale.Factor), passage, need.CutLengthMm * scale.Factor, below, above);
    }

    /// <summary>The rod for a scaled hole: the drawn one's exact match where there is one, as the designer gave it its play; else the thickest that goes in; else the nearest, with a drill.</summary>
    public static RodPassage ForHole(double drawnHoleMm, double drawnRodMm, Process process, PrintScale scale)
    {
        var (hole, ideal) = (drawnHoleMm * scale.Factor, drawnRodMm * scale.Factor);
        if (scale == PrintScale.Drawn) return RodPassage.Of(hole, drawnRodMm, process);
        return StockRods.IsStock(ideal)
            ? RodPassage.Of(hole, StockRods.Nearest(ideal), process)
            : StockRods.ForHole(hole, process) ?? RodPassage.Of(hole, StockRods.Nearest(ideal), process);
    }
}

/// <summary>Pin holes of one diameter, in all parts that are built, at another size. Lengths in mm.</summary>
/// <param name="DrawnMm">Their diameter as drawn.</param>
/// <param name="Parts">In which parts, by name.</param>
/// <param name="Count">How many in one of each.</param>
/// <param name="Rod">The thickest stock rod that goes in without drilling; null when none does.</param>
public sealed record RescaledHoles(double DrawnMm, double ScaledMm, IReadOnlyList<string> Parts, int Count, RodPassage? Rod)
{
    /// <summary>Pins, rods and screws go into holes up to this wide at the scaled size, mm (common practice).</summary>
    private const double WidestMm = Verdicts.HoleFindings.WidestPinMm;

    /// <param name="parts">Names of parts with their holes as drawn.</param>
    public static IReadOnlyList<RescaledHoles> Of(IEnumerable<(string Part, IReadOnlyList<RoundHole> Holes)> parts, Process process, PrintScale scale) =>
    [
        .. parts.SelectMany(p => p.Holes.Select(h => (p.Part, Hole: h)))
            .Where(h => h.Hole.DiameterMm <= WidestMm)
            .GroupBy(h => Math.Round(h.Hole.DiameterMm * 20) / 20)
            .OrderBy(g => g.Key)
            .Select(g => new RescaledHoles(g.Key, g.Key * scale.Factor, [.. g.Select(h => h.Part).Distinct()], g.Count(),
                StockRods.ForHole(g.Min(h => h.Hole.ClearMm) * scale.Factor, process, g.Min(h => h.Hole.WallMm) * scale.Factor))),
    ];
}
