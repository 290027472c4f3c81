using Catalogue.Model.Reports;

namespace Catalogue.Model.Verdicts;

/// <summary>What others reported of a revision on a process, as a finding beside the computed ones.</summary>
/// <remarks>
/// Only reports of this very revision count: the one that answered a failure is not blamed for it. A print that worked with trouble worked. It can raise a
/// verdict to care and never further: what did not print for some prints for others, and no report hides what was computed.
/// </remarks>
public static class ReportFindings
{
    /// <returns>Null while nobody reported a failure.</returns>
    public static Finding? Of(FailureShare share)
    {
        if (share.Failed == 0) return null;
        return Rules.ReportsFailed.Found(share.AsksForCare ? Severity.Care : Severity.Note,
            (share.Total == 1
                ? S($"{share.Failed} of {share.Total} print reported of this file here failed (95 % interval {100 * share.Low:0}–{100 * share.High:0} %).")
                : $"{share.Failed} of {share.Total} prints reported of this file here failed (95 % interval {100 * share.Low:0}–{100 * share.High:0} %).")
            + (share.AsksForCare ? S($"Read what happened before you print it.") : share.Total < FailureShare.FewestReports ? S($"Too few to judge by.") : $"No more than happens to any part.")) with
        {
            Measured = Math.Round(100.0 * share.Failed / share.Total, 1),
            Limit = 100 * FailureShare.CareAbove,
            Unit = "%",
            Source = $"reports; {Rules.ReportsFailed.Origin}",
        };
    }
}
