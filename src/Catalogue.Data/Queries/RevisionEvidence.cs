using Catalogue.Model.Figures;
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

    public static Task<RevisionEvidence> LoadAsync(CatalogueDb db, IReadOnlyCollection<Guid> revisions, CancellationToken cancellation) =>
        ReadAsync(db.Reports.Where(r => revisions.Contains(r.RevisionId)), db.Overrulings.Where(o => revisions.Contains(o.RevisionId)), cancellation);

    /// <summary>Of all revisions between two, both included: thousands of numbers in a question would cost more than the answer.</summary>
    public static Task<RevisionEvidence> LoadBetweenAsync(CatalogueDb db, Guid first, Guid last, CancellationToken cancellation) => ReadAsync(
        db.Reports.Where(r => r.RevisionId.CompareTo(first) >= 0 && r.RevisionId.CompareTo(last) <= 0),
        db.Overrulings.Where(o => o.RevisionId.CompareTo(first) >= 0 && o.RevisionId.CompareTo(last) <= 0), cancellation);

    private static async Task<RevisionEvidence> ReadAsync(IQueryable<Report> of, IQueryable<Overruling> said, CancellationToken cancellation)
    {
        var evidence = new RevisionEvidence();
        var reports = await of.GroupBy(r => new { r.RevisionId, r.Process })
            .Select(g => new { g.Key.RevisionId, g.Key.Process, Total = g.Count(), Failed = g.Count(r => r.Outcome == ReportOutcome.Failed) }).ToListAsync(cancellation);
        foreach (var report in reports) evidence._shares[(report.RevisionId, report.Process)] = new(report.Failed, report.Total);
        var overrulings = await said.AsNoTracking().Where(o => o.WithdrawnAt == null).ToListAsync(cancellation);
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
