namespace Catalogue.Model.Reports;

/// <summary>What a number of reports come to: how many prints, how many failed, and of what.</summary>
/// <param name="Troubles">What went wrong and when, the most frequent first; care and failures together.</param>
public sealed record ReportTally(int Total, int Failed, int WithCare, IReadOnlyList<Trouble> Troubles)
{
    public int Worked => Total - Failed - WithCare;

    public static ReportTally Of(IEnumerable<Report> reports)
    {
        ArgumentNullException.ThrowIfNull(reports);
        var all = reports as IReadOnlyCollection<Report> ?? [.. reports];
        return new(
            all.Count, all.Count(r => r.Outcome == ReportOutcome.Failed), all.Count(r => r.Outcome == ReportOutcome.WorkedWithCare),
            [
                .. all.Where(r => r.Symptom != ReportSymptom.None).GroupBy(r => (r.Symptom, r.Stage))
                    .Select(g => new Trouble(g.Key.Symptom, g.Key.Stage, g.Count()))
                    .OrderByDescending(t => t.Count).ThenBy(t => t.Stage).ThenBy(t => t.Symptom),
            ]);
    }
}

/// <summary>One kind of trouble and how often it was reported.</summary>
public sealed record Trouble(ReportSymptom Symptom, ReportStage Stage, int Count);
