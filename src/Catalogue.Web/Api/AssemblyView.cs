using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Api;

internal sealed record JointView(
    Guid Id, JointKind Kind, string Name, string FirstPart, string SecondPart, double? InnerDiameterMm, double? OuterDiameterMm,
    double? MouthDiameterMm, double? LengthMm, string Note, IReadOnlyList<string> Processes)
{
    /// <summary>How it holds on the process asked about; absent without one.</summary>
    public IReadOnlyList<MechanicsView>? Mechanics { get; init; }

    /// <summary>Of a pinned hinge: its two holes where the figure is assembled; absent when the parts' places or holes are not known.</summary>
    public RodView? InPlace { get; init; }

    public static JointView Of(Joint joint, Dictionary<Guid, string> slugs, Process? on = null, RodInPlace? rod = null) => new(
        joint.Id, joint.Kind, joint.Name, slugs[joint.FirstPartId], slugs[joint.SecondPartId], joint.InnerDiameterMm, joint.OuterDiameterMm,
        joint.MouthDiameterMm, joint.LengthMm, joint.Note, joint.Processes)
    {
        InPlace = rod is null ? null : RodView.Of(rod),
        Mechanics = on is null ? null : [.. JointMechanics.Of(joint.Spec, on).Select(m => new MechanicsView(m.Formula.ToString(), m.Arithmetic.ToString(), FindingReport.Of(m.Finding)))],
    };
}

/// <summary>The rod of a hinge in the assembled figure. Lengths in mm.</summary>
/// <param name="LinesUp">The rod goes through both holes, after no more reaming than printed holes want anyway.</param>
/// <param name="OffsetMm">How far an end of either hole is from the line that fits both best.</param>
/// <param name="LengthMm">From outer end to outer end, before the rod is cut.</param>
/// <param name="OpenEnds">0 to 2: where it can be put in.</param>
internal sealed record RodView(
    bool LinesUp, double AngleDegrees, double OffsetMm, double GapMm, double WidestRodMm, double LengthMm, double CutLengthMm, int OpenEnds, string Advice)
{
    public static RodView Of(RodInPlace rod)
    {
        var holes = rod.Holes;
        return new(rod.LinesUp, Math.Round(holes.AngleDegrees, 2), Math.Round(holes.OffsetMm, 3), Math.Round(holes.GapMm, 3), Math.Round(holes.WidestRodMm, 3),
            Math.Round(holes.LengthMm, 3), Math.Round(holes.CutLengthMm, 3), holes.OpenEnds, rod.Advice.ToString());
    }
}

/// <summary>One computation on a joint.</summary>
/// <param name="Formula">In words.</param>
/// <param name="Arithmetic">With its values.</param>
internal sealed record MechanicsView(string Formula, string Arithmetic, FindingReport Finding);

internal sealed record HardwareView(
    Guid Id, HardwareKind Kind, string Name, int Quantity, string Size, double? DiameterMm, double? CutLengthMm, string Substitutes, string Caution,
    bool Optional, IReadOnlyList<string> Processes, IReadOnlyList<string> Parts)
{
    public static HardwareView Of(HardwareNeed need) => new(
        need.Id, need.Kind, need.Name, need.Quantity, need.Size, need.DiameterMm, need.CutLengthMm, need.Substitutes, need.Caution,
        need.IsOptional, need.Processes, [.. need.Parts.OrderBy(p => p.Position).Select(p => p.Slug)]);
}

internal sealed record StepView(
    Guid Id, int Position, string Title, string Body, IReadOnlyList<string> Processes, string? OnlyWith, IReadOnlyList<string> Parts,
    IReadOnlyList<Guid> Hardware)
{
    public static StepView Of(Step step, Dictionary<Guid, string> slugs) => new(
        step.Id, step.Position, step.Title, step.Body, step.Processes, step.ChoicePartId is { } id ? slugs.GetValueOrDefault(id) : null,
        [.. step.Parts.OrderBy(p => p.Position).Select(p => p.Slug)], [.. step.Hardware.OrderBy(h => h.Position).Select(h => h.Id)]);
}
