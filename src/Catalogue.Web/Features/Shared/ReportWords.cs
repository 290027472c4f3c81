using Catalogue.Data.Ranges;
using Catalogue.Model.Reports;

namespace Catalogue.Web.Features.Shared;

/// <summary>Reports in words for people.</summary>
internal static class ReportWords
{
    public static string Of(ReportOutcome outcome) => outcome switch
    {
        ReportOutcome.Worked => "worked",
        ReportOutcome.WorkedWithCare => "worked, with trouble",
        _ => "failed",
    };

    public static string Of(ReportStage stage) => stage switch
    {
        ReportStage.Printing => "while printing",
        ReportStage.Cleaning => "while cleaning",
        ReportStage.Assembly => "during assembly",
        _ => "in use",
    };

    public static string Of(ReportSymptom symptom) => symptom switch
    {
        ReportSymptom.None => "nothing amiss",
        ReportSymptom.CameLoose => "came loose from the plate",
        ReportSymptom.Warped => "warped",
        ReportSymptom.DetailLost => "lost detail",
        ReportSymptom.Snapped => "snapped",
        ReportSymptom.Cracked => "cracked",
        ReportSymptom.TrappedLiquid => "held liquid inside",
        ReportSymptom.TooTight => "too tight",
        ReportSymptom.TooLoose => "too loose",
        ReportSymptom.HoleBlocked => "hole blocked or blind",
        ReportSymptom.DoesNotFitPrinter => "did not fit the printer",
        ReportSymptom.LayersParted => "layers came apart",
        ReportSymptom.SupportScars => "scarred by supports",
        ReportSymptom.Fused => "moving parts fused",
        _ => "something else",
    };

    /// <summary>“Failed: snapped in use”.</summary>
    public static string Headline(Report report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var outcome = Of(report.Outcome);
        var said = char.ToUpperInvariant(outcome[0]) + outcome[1..];
        return report.Symptom == ReportSymptom.None ? said : $"{said}: {Of(report.Symptom)} {Of(report.Stage)}";
    }

    /// <summary>The files shown now first, earlier revisions told apart.</summary>
    public static string Of(PartReports reports)
    {
        ArgumentNullException.ThrowIfNull(reports);
        return (reports.Now.Total, reports.Earlier.Total) switch
        {
            (0, 0) => "Nobody has reported a print yet.",
            (_, 0) => Of(reports.Now),
            (0, _) => $"Of earlier revisions {Of(reports.Earlier)} Nobody has reported the present one yet.",
            _ => $"{Of(reports.Now)} Of earlier revisions {Of(reports.Earlier)}",
        };
    }

    /// <summary>“9 of 14 failed: snapped in use (7), warped while printing (2).”; empty when nobody reported.</summary>
    public static string Of(ReportTally tally)
    {
        ArgumentNullException.ThrowIfNull(tally);
        if (tally.Total == 0) return "";
        if (tally is { Failed: 0, WithCare: 0 }) return tally.Total == 1 ? "One print reported; it worked." : $"{tally.Total} prints reported; all worked.";
        var trouble = tally.Failed > 0 ? $"{tally.Failed} of {tally.Total} failed" : $"{tally.WithCare} of {tally.Total} gave trouble";
        var kinds = tally.Troubles.Take(3).Select(t => $"{Of(t.Symptom)} {Of(t.Stage)}" + (tally.Total > 1 ? $" ({t.Count})" : ""));
        return $"{trouble}: {string.Join(", ", kinds)}.";
    }
}
