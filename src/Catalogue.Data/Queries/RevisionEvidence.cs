using Catalogue.Model.Reports;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>What is said of revisions beside what is computed: how many reported prints failed, and what their designers overrule.</summary>
internal sealed class RevisionEvidence
{
    private readonly Dictionary<(Guid Revision, string Process), FailureShare> _shares = [];
    private readonly Dictionary<(Guid Revision, string Process), Dictionary<string, Overruled>> _words = [];

    private RevisionEvidence()
    {
    }

    public static async Task<RevisionEvidence> LoadAsync(CatalogueDb db, IReadOnlyCollection<Guid> revisions, CancellationToken cancellation)
    {
        var evidence = new RevisionEvidence();
        var reports = await db.Reports.Where(r => revisions.Contains(r.RevisionId)).GroupBy(r => new { r.RevisionId, r.Process })
            .Select(g => new { g.Key.RevisionId, g.Key.Process, Total = g.Count(), Failed = g.Count(r => r.Outcome == ReportOutcome.Failed) }).ToListAsync(cancellation);
        foreach (var report in reports) evidence._shares[(report.RevisionId, report.Process)] = new(report.Failed, report.Total);
        var overrulings = await db.Overrulings.AsNoTracking().Where(o => revisions.Contains(o.RevisionId) && o.WithdrawnAt == null).ToListAsync(cancellation);
        foreach (var overruling in overrulings)
        {
            var key = (overruling.RevisionId, overruling.Process);
            if (!evidence._words.TryGetValue(key, out var words)) evidence._words[key] = words = [];
            words[overruling.Code] = overruling.Word;
        }

        return evidence;
    }

    /// <summary>A computed judgement with both. Neither hides what was computed: a report adds a finding, an overruling marks one.</summary>
    public Judgement Weigh(Judgement computed, Guid revision, string process)
    {
        var judged = computed.With(_shares.TryGetValue((revision, process), out var share) ? ReportFindings.Of(share) : null);
        return _words.TryGetValue((revision, process), out var words) ? judged.OverruledBy(words) : judged;
    }
}
