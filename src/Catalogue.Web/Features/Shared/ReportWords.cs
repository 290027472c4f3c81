using Catalogue.Data.Ranges;
using Catalogue.Model.Reports;

namespace Catalogue.Web.Features.Shared;

/// <summary>Reports in words for people.</summary>
internal static class ReportWords
{
    public static string Of(ReportOutcome outcome) => outcome switch
    {
        ReportOutcome.Worked => T($"worked"),
        ReportOutcome.WorkedWithCare => T($"worked, with trouble"),
        _ => T($"failed"),
    };

    public static string Of(ReportStage stage) => stage switch
    {
        ReportStage.Printing => T($"while printing"),
        ReportStage.Cleaning => T($"while cleaning"),
        ReportStage.Assembly => T($"during assembly"),
        _ => T($"in use"),
    };

    public static string Of(ReportSymptom symptom) => symptom switch
    {
        ReportSymptom.None => T($"nothing amiss"),
        ReportSymptom.CameLoose => T($"came loose from the plate"),
        ReportSymptom.Warped => T($"warped"),
        ReportSymptom.DetailLost => T($"lost detail"),
        ReportSymptom.Snapped => T($"snapped"),
        ReportSymptom.Cracked => T($"cracked"),
        ReportSymptom.TrappedLiquid => T($"held liquid inside"),
        ReportSymptom.TooTight => T($"too tight"),
        ReportSymptom.TooLoose => T($"too loose"),
        ReportSymptom.HoleBlocked => T($"hole blocked or blind"),
        ReportSymptom.DoesNotFitPrinter => T($"did not fit the printer"),
        ReportSymptom.LayersParted => T($"layers came apart"),
        ReportSymptom.SupportScars => T($"scarred by supports"),
        ReportSymptom.Fused => T($"moving parts fused"),
        _ => T($"something else"),
    };

    /// <summary>“Failed: snapped in use”.</summary>
    public static string Headline(Report report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var said = Wording.Begun(Of(report.Outcome));
        return report.Symptom == ReportSymptom.None ? said : T($"{said}: {Of(report.Symptom)} {Of(report.Stage)}");
    }

    /// <summary>The files shown now first, earlier revisions told apart.</summary>
    public static Sentence Of(PartReports reports)
    {
        ArgumentNullException.ThrowIfNull(reports);
        return (reports.Now.Total, reports.Earlier.Total) switch
        {
            (0, 0) => $"Nobody has reported a print yet.",
            (_, 0) => Of(reports.Now),
            (0, _) => OfEarlier(reports.Earlier) + S($"Nobody has reported the present one yet."),
            _ => Of(reports.Now) + OfEarlier(reports.Earlier),
        };
    }

    /// <summary>“9 of 14 failed: snapped in use (7), warped while printing (2).”; empty when nobody reported.</summary>
    public static Sentence Of(ReportTally tally)
    {
        ArgumentNullException.ThrowIfNull(tally);
        if (tally.Total == 0) return Sentence.Empty;
        if (tally is { Failed: 0, WithCare: 0 }) return tally.Total == 1 ? S($"One print reported; it worked.") : $"{tally.Total} prints reported; all worked.";
        return tally switch
        {
            { WithCare: 0 } => $"{tally.Failed} of {tally.Total} failed: {Troubles(tally)}.",
            { Failed: 0 } => $"{tally.WithCare} of {tally.Total} gave trouble: {Troubles(tally)}.",
            _ => $"{tally.Failed} of {tally.Total} failed, {tally.WithCare} more gave trouble: {Troubles(tally)}.",
        };
    }

    private static Sentence OfEarlier(ReportTally tally)
    {
        if (tally is { Failed: 0, WithCare: 0 }) return tally.Total == 1 ? S($"Of earlier revisions one print was reported; it worked.") : $"Of earlier revisions {tally.Total} prints were reported; all worked.";
        return tally switch
        {
            { WithCare: 0 } => $"Of earlier revisions {tally.Failed} of {tally.Total} failed: {Troubles(tally)}.",
            { Failed: 0 } => $"Of earlier revisions {tally.WithCare} of {tally.Total} gave trouble: {Troubles(tally)}.",
            _ => $"Of earlier revisions {tally.Failed} of {tally.Total} failed, {tally.WithCare} more gave trouble: {Troubles(tally)}.",
        };
    }

    private static string Troubles(ReportTally tally) =>
        string.Join(", ", tally.Troubles.Take(3).Select(t => $"{Of(t.Symptom)} {Of(t.Stage)}" + (tally.Total > 1 ? $" ({t.Count})" : "")));
}
