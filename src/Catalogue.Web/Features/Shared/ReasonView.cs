using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>One reason for a figure's verdict, as programs read it.</summary>
/// <param name="Part">The part's slug.</param>
/// <param name="Optional">True for an accessory: told, but not counted.</param>
/// <param name="Overruled">The designer's word that it does not hold: told, but not counted. Absent where it counts.</param>
internal sealed record ReasonView(
    string Part, string PartName, string Code, Severity Severity, string Message, double? Measured, double? Limit, string? Unit, double[]? At, string? Arithmetic, string? Source, bool Optional,
    Overruled? Overruled)
{
    public static ReasonView Of(Reason reason)
    {
        var finding = FindingReport.Of(reason.Finding);
        return new(reason.Part, reason.PartName, finding.Code, reason.Finding.Severity, finding.Message.ToString(), finding.Measured, finding.Limit, finding.Unit, finding.At, finding.Arithmetic?.ToString(), finding.Source?.ToString(),
            reason.Optional, reason.Finding.Overruled);
    }

    public static IReadOnlyList<ReasonView> Of(FigureVerdict verdict) => [.. verdict.Reasons.Select(Of)];
}
