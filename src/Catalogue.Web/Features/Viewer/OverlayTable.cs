using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Every overlay there is, when it applies, and who works it out. To add one: a line here and a function beside the others.</summary>
/// <param name="InPose">It depends on how the part lies.</param>
/// <param name="Applies">Whether there is anything to show of a measured mesh on a process; the last tells whether a revision came before.</param>
internal sealed record OverlayTable(string Code, Sentence Name, bool InPose, Func<MeshFacts, Process, bool, bool> Applies, Func<OverlayQuestion, Overlay> Make)
{
    public static IReadOnlyList<OverlayTable> All { get; } =
    [
        new("thickness", $"Thin places", false,
            (f, p, _) => f.Walls is not null && (p.Limit(LimitKey.WallSupported) ?? p.Limit(LimitKey.WallFree)) is not null, WallOverlays.Thickness),
        new("gaps", $"Narrow gaps", false, (f, p, _) => f.Gaps is not null && p.Limit(LimitKey.Clearance) is { Value: > 0 }, WallOverlays.Gaps),
        new("overhangs", $"Overhangs and islands", true, (f, _, _) => f.Overhangs is not null, PoseOverlays.Overhangs),
        new("liquid", $"Trapped liquid", true, (f, p, _) => f.Liquid is not null && ProcessCode.Category(p.Code) == "VPP", PoseOverlays.Liquid),
        new("details", $"Lost detail", false,
            (f, p, _) => f.Details is not null && (p.Limit(LimitKey.DetailWidth) ?? p.Limit(LimitKey.DetailHeight)) is not null, FeatureOverlays.Details),
        new("holes", $"Round holes", false, (f, _, _) => f.Holes is { Holes.Count: > 0 }, FeatureOverlays.Holes),
        new("limbs", $"Fragile limbs", false,
            (f, p, _) => f.Limbs is { Limbs.Count: > 0 } && p.Material.ElongationLowPercent < LimbFindings.BrittleBelowPercent, FeatureOverlays.Limbs),
        new("changes", $"Changed since the revision before", false, (_, _, hasBefore) => hasBefore, FeatureOverlays.Changes),
    ];
}
