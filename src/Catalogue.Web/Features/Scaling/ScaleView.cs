using Catalogue.Data.Ranges;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Scaling;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Scaling;

/// <summary>A figure at another size as programs read it. mm, per cent of the drawn size.</summary>
/// <param name="ScaleDenominator">N of 1:N at that size; absent when the figure has no scale.</param>
/// <param name="HoldsFromPercent">From here on nothing is unsuited, around the drawn size or nearest to it; absent when there is no such size.</param>
/// <param name="HoldsToPercent">Up to here.</param>
/// <param name="FitsUpToPercent">The largest size that fits the volume; absent without a volume, and when every size looked at fits.</param>
/// <param name="Spans">All sizes by verdict, rising.</param>
internal sealed record ScaleView(
    double Percent, double HeightMm, double? ScaleDenominator, string Process, Verdict Verdict, IReadOnlyList<ReasonView> Reasons, double? HoldsFromPercent, double? HoldsToPercent,
    double? FitsUpToPercent, IReadOnlyList<ScaleSpanView> Spans, IReadOnlyList<ScaledPartView> Parts, IReadOnlyList<ScaledRodView> Rods, IReadOnlyList<ScaledHolesView> Holes,
    IReadOnlyList<ScaledJointView> Joints, CostView? Cost)
{
    public static ScaleView Of(RescaledAnswer answer)
    {
        var holds = answer.Holds;
        return new(answer.Scale.Percent, Math.Round(answer.HeightMm, 2), answer.ScaleDenominator is { } n ? Math.Round(n, 3) : null, answer.Process.Code, answer.Verdict.Verdict,
            ReasonView.Of(answer.Verdict), holds?.FromPercent, holds?.ToPercent, answer.FitsUpToPercent,
            [.. answer.Spans.Select(s => new ScaleSpanView(s.FromPercent, s.ToPercent, s.Verdict, [.. s.Reasons.Select(ReasonView.Of)]))],
            [.. answer.Parts.Select(ScaledPartView.Of)], [.. answer.Rods.Select(ScaledRodView.Of)], [.. answer.Holes.Select(ScaledHolesView.Of)],
            [.. answer.Joints.Select(j => new ScaledJointView(j.Joint.Name, j.Spec.InnerDiameterMm, j.Spec.OuterDiameterMm, j.Spec.MouthDiameterMm, j.Spec.LengthMm,
                [.. j.Mechanics.Select(m => new MechanicsView(m.Formula.ToString(), m.Arithmetic.ToString(), FindingReport.Of(m.Finding)))]))],
            CostView.Of(answer.Cost, answer.Answer.Snapshot.Currency));
    }
}

/// <param name="Reasons">What decides the verdict, at the end nearer to the drawn size.</param>
internal sealed record ScaleSpanView(double FromPercent, double ToPercent, Verdict Verdict, IReadOnlyList<ReasonView> Reasons);

/// <param name="Take">The slug of the file to take and to scale.</param>
/// <param name="SmallPart">Goes into the small-parts cylinder at that size.</param>
/// <param name="Come">Codes of what the size brings.</param>
/// <param name="Gone">Codes of what stood against the part as drawn and does no more, or less gravely.</param>
internal sealed record ScaledPartView(
    string Part, string? Take, Verdict Verdict, IReadOnlyList<FindingReport> Findings, FitReport? Fit, bool SmallPart, IReadOnlyList<string> Come, IReadOnlyList<string> Gone)
{
    public static ScaledPartView Of(RescaledPart part) => new(part.Part.Part.Slug, part.Taken?.Variant.Slug, part.Verdict.Verdict,
        [.. part.Verdict.Judgement.Findings.Select(FindingReport.Of)], part.Fit is { } fit ? FitReport.Of(fit) : null, part.SmallPart,
        [.. part.Come.Select(f => f.Code)], [.. part.Gone.Select(f => f.Code)]);
}

/// <param name="DrawnMm">Diameter it was drawn for.</param>
/// <param name="IdealMm">What the scale makes of it.</param>
/// <param name="RodMm">The stock rod to take.</param>
/// <param name="Exact">The two are the same.</param>
/// <param name="Advice">How that rod goes into its hole, where a joint says how wide that is.</param>
/// <param name="MatchBelowPercent">The nearest size, this one or less, at which a stock rod fits as drawn.</param>
/// <param name="MatchAbovePercent">This one or more.</param>
internal sealed record ScaledRodView(
    string Name, int Quantity, double DrawnMm, double IdealMm, double RodMm, bool Exact, double? CutLengthMm, string? Advice, double? MatchBelowPercent, double? MatchAbovePercent)
{
    public static ScaledRodView Of(RescaledRod rod) => new(rod.Need.Name, rod.Need.Quantity, rod.Need.DiameterMm!.Value, Math.Round(rod.IdealMm, 3), rod.RodMm, rod.IsExact,
        rod.CutLengthMm is { } cut ? Math.Round(cut, 2) : null, rod.Passage?.Advice.ToString(), Rounded(rod.Below), Rounded(rod.Above));

    private static double? Rounded(RodMatch? match) => match is null ? null : Math.Round(match.Percent, 2);
}

/// <param name="RodMm">The thickest stock rod that goes in as printed or after a few turns of a drill by hand; absent when none does.</param>
internal sealed record ScaledHolesView(double DrawnMm, double ScaledMm, IReadOnlyList<string> Parts, int Count, double? RodMm, RodPassing? Passing, string? Advice)
{
    public static ScaledHolesView Of(RescaledHoles holes) =>
        new(holes.DrawnMm, Math.Round(holes.ScaledMm, 3), holes.Parts, holes.Count, holes.Rod?.RodMm, holes.Rod?.Passing, holes.Rod?.Advice.ToString());
}

internal sealed record ScaledJointView(
    string Name, double? InnerDiameterMm, double? OuterDiameterMm, double? MouthDiameterMm, double? LengthMm, IReadOnlyList<MechanicsView> Mechanics);
