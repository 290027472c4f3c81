using Catalogue.Data.Judging;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>Judges revisions on every process from stored measurements and keeps the verdicts.</summary>
public static class RevisionVerdicts
{
    /// <summary>
    /// Adds or replaces the verdicts of the revisions given; the caller saves. Revisions not inspected yet get none. While verdicts are being brought to other rules, those of the whole figure.
    /// </summary>
    public static async Task JudgeAsync(CatalogueDb db, IReadOnlyCollection<Revision> revisions, DateTime now, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(revisions);
        db.JudgedBy = await db.Ranges.Select(r => r.JudgementRevision).SingleAsync(cancellation); // Before the limits: what changes in between is noticed when this is saved.
        if (await RulesChange.ConcernsAsync(db, cancellation)) revisions = await RulesChange.WholeFiguresAsync(db, revisions, cancellation);
        var processes = await db.Processes.AsNoTracking().Include(p => p.Limits).ToListAsync(cancellation);
        var ids = revisions.Select(r => r.Id).ToList();
        var evidence = await RevisionEvidence.LoadAsync(db, ids, cancellation);
        var kept = await db.Verdicts.Where(v => ids.Contains(v.RevisionId)).ToDictionaryAsync(v => (v.RevisionId, v.Process), cancellation);
        foreach (var revision in revisions.Where(r => r.Inspection.State is InspectionState.Done or InspectionState.Rejected))
        {
            foreach (var process in processes)
            {
                var judgement = evidence.Weigh(Judge(revision.Inspection, process), revision.Id, process.Code);
                if (kept.TryGetValue((revision.Id, process.Code), out var verdict)) verdict.Replace(judgement, now);
                else db.Verdicts.Add(new RevisionVerdict(revision.Id, process.Code, judgement, now));
            }
        }
    }

    /// <summary>The same, and saves. Again from the beginning when other limits come into effect in between.</summary>
    public static async Task JudgeAndSaveAsync(CatalogueDb db, IReadOnlyCollection<Revision> revisions, DateTime now, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        for (var attempt = 1; ; attempt++)
        {
            await JudgeAsync(db, revisions, now, cancellation);
            try
            {
                await db.SaveChangesAsync(cancellation);
                return;
            }
            catch (LimitsChangedException) when (attempt < 3)
            {
                foreach (var entry in db.ChangeTracker.Entries<RevisionVerdict>().ToList()) entry.State = EntityState.Detached;
            }
        }
    }

    /// <summary>Judges the revisions of a finished inspection that have no verdicts yet, and saves. Two may do it at once.</summary>
    public static async Task JudgeMissingAsync(CatalogueDb db, Guid inspection, DateTime now, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        for (var attempt = 1; ; attempt++)
        {
            var missing = await db.Revisions.Include(r => r.Inspection)
                .Where(r => r.InspectionId == inspection && !db.Verdicts.Any(v => v.RevisionId == r.Id)).ToListAsync(cancellation);
            if (missing.Count == 0) return;
            await JudgeAsync(db, missing, now, cancellation);
            try
            {
                await db.SaveChangesAsync(cancellation);
                return;
            }
            catch (DbUpdateException) when (attempt < 3)
            {
                foreach (var entry in db.ChangeTracker.Entries<RevisionVerdict>().ToList()) entry.State = EntityState.Detached;
            }
        }
    }

    /// <summary>
    /// Weighs a revision on a process anew after a report or an overruling was saved, and lets readers see it. To be called within the transaction that saved
    /// the evidence.
    /// </summary>
    public static async Task WeighAgainAsync(CatalogueDb db, Guid revision, string process, DateTime now, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        db.JudgedBy = await db.Ranges.Select(r => r.JudgementRevision).SingleAsync(cancellation);
        if (await RulesChange.ConcernsAsync(db, cancellation))
        {
            await JudgeAsync(db, await db.Revisions.Include(r => r.Inspection).Where(r => r.Id == revision).ToListAsync(cancellation), now, cancellation);
            await db.SaveChangesAsync(cancellation);
            return;
        }

        var inspection = await db.Revisions.AsNoTracking().Where(r => r.Id == revision).Select(r => r.Inspection).SingleAsync(cancellation);
        var by = await db.Processes.AsNoTracking().Include(p => p.Limits).SingleOrDefaultAsync(p => p.Code == process, cancellation);
        if (by is null || inspection.State is not (InspectionState.Done or InspectionState.Rejected)) return;
        var evidence = await RevisionEvidence.LoadAsync(db, [revision], cancellation);
        var judgement = evidence.Weigh(Judge(inspection, by), revision, process);
        var kept = await db.Verdicts.SingleOrDefaultAsync(v => v.RevisionId == revision && v.Process == process, cancellation);
        if (kept is null || !kept.Differs(judgement)) return;
        kept.Replace(judgement, now);
        await db.SaveChangesAsync(cancellation);
    }

    private static Judgement Judge(MeshInspection inspection, Process process)
    {
        if (inspection.State == InspectionState.Rejected) return RevisionJudge.Unreadable(inspection.ErrorMessage);
        return RevisionJudge.Judge(inspection.Facts, process);
    }
}
