using System.Collections.Concurrent;
using System.Text.Json;
using Catalogue.Data.Queries;
using Catalogue.Data.Storage;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Judging;

/// <summary>
/// Brings changed limits into effect: judges every revision by them ahead, beside what readers see, then switches limits and verdicts of the whole range in one transaction.
/// No reader sees a figure, or a range, half by the old limits and half by the new ones.
/// </summary>
/// <remarks>
/// Reads only the measurements of the checks that a limit concerns, no mesh; writes only verdicts that become other ones. A batch is one transaction with the place
/// it got to, so that after a crash it goes on there. Another change that comes in between begins it anew. What is inspected meanwhile is judged by the limits in
/// effect and once more just before the switch; whoever saves such a verdict after it has to judge again (<see cref="LimitsChangedException"/>). Run one at a time.
/// </remarks>
public sealed class Rejudger(DatabaseChoice database, TimeProvider time)
{
    /// <summary>Clocks of several machines differ; what was judged this long before the beginning is judged once more at the end.</summary>
    private static readonly TimeSpan Margin = TimeSpan.FromMinutes(5);

    /// <summary>Revisions that are judged and written at once.</summary>
    internal int Batch { get; init; } = 2_000;

    /// <summary>Judges and switches until no change is waiting; gives how many revisions it judged.</summary>
    public async Task<int> RunAsync(CancellationToken cancellation)
    {
        for (var judged = 0; ;)
        {
            if (await StepAsync(cancellation) is not { } count) return judged;
            judged += count;
        }
    }

    /// <summary>One step: a batch, or the switch after the last one. Null when nothing is waiting.</summary>
    internal async Task<int?> StepAsync(CancellationToken cancellation)
    {
        await using var db = database.Open();
        var state = await db.Rejudgements.SingleOrDefaultAsync(cancellation);
        if (state is not { IsGoingOn: true }) return null;
        var changing = (await db.Processes.AsNoTracking().Include(p => p.Limits).ToListAsync(cancellation)).Where(p => p.IsChanging).ToList();
        if (state.Working < state.Asked)
        {
            await using var beginning = await db.Database.BeginTransactionAsync(cancellation);
            await db.NextVerdicts.ExecuteDeleteAsync(cancellation);
            state.Begin(await db.Revisions.CountAsync(cancellation), Now);
            await db.SaveChangesAsync(cancellation);
            await beginning.CommitAsync(cancellation);
        }

        var last = state.LastRevision;
        var revisions = await db.Revisions.Where(r => r.Id.CompareTo(last) > 0).OrderBy(r => r.Id).Take(Batch).Select(r => new JudgedRevision(r.Id, r.InspectionId)).ToListAsync(cancellation);
        if (revisions.Count == 0)
        {
            await SwitchAsync(db, state, changing, cancellation);
            return 0;
        }

        var rows = await JudgeAsync(db, revisions, changing, cancellation);
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await NextVerdictRows.AddAsync(db, database, rows, cancellation);
        state.Advance(revisions[^1].Id, revisions.Count);
        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        return revisions.Count;
    }

    /// <summary>The verdicts of some revisions that the changes make other ones.</summary>
    private static async Task<IReadOnlyCollection<NextVerdictRow>> JudgeAsync(
        CatalogueDb db, List<JudgedRevision> revisions, List<Process> changing, CancellationToken cancellation)
    {
        var next = changing.ToDictionary(p => p.Code, p => p.Next());
        var checks = changing.ToDictionary(p => p.Code, p => p.Limits.Where(l => l.IsChanging).SelectMany(l => Check.Asking(l.Key)).Distinct().ToList());
        List<string> codes = [.. checks.Where(c => c.Value.Count > 0).Select(c => c.Key)];
        List<string> names = [.. checks.Values.SelectMany(c => c).Select(c => c.Name).Distinct()];
        if (codes.Count == 0) return [];

        var (first, last) = (revisions[0].Id, revisions[^1].Id);
        var kept = await db.Verdicts.AsNoTracking().Where(v => v.RevisionId.CompareTo(first) >= 0 && v.RevisionId.CompareTo(last) <= 0 && codes.Contains(v.Process))
            .Select(v => new { v.RevisionId, v.Process, v.Verdict, v.FindingsJson }).ToListAsync(cancellation);
        var inspections = revisions.ToDictionary(r => r.Id, r => r.Inspection);
        var facts = (await (
            from r in db.Revisions
            join f in db.CheckFacts on r.InspectionId equals f.InspectionId
            where r.Id.CompareTo(first) >= 0 && r.Id.CompareTo(last) <= 0 && names.Contains(f.Check)
            select new { f.InspectionId, f.Check, f.Packed }).ToListAsync(cancellation))
            .GroupBy(f => f.InspectionId).ToDictionary(g => g.Key, g => g.GroupBy(f => f.Check).ToDictionary(f => f.Key, f => f.First().Packed));
        List<Guid> whole = [.. kept.Where(v => inspections.ContainsKey(v.RevisionId)).Select(v => inspections[v.RevisionId]).Distinct().Where(i => !facts.TryGetValue(i, out var some) || some.Count < names.Count)];
        var wholes = whole.Count == 0 ? [] : await WholeFactsAsync(db, whole, cancellation);

        var evidence = await RevisionEvidence.LoadBetweenAsync(db, first, last, cancellation);
        var rows = new ConcurrentBag<NextVerdictRow>();
        Parallel.ForEach(kept.Where(v => inspections.ContainsKey(v.RevisionId)).GroupBy(v => inspections[v.RevisionId]), mesh =>
        {
            var read = new Dictionary<string, CheckedFacts>();
            CheckedFacts? Part(Check check)
            {
                if (read.TryGetValue(check.Name, out var part)) return part;
                if (wholes.TryGetValue(mesh.Key, out var all)) return read[check.Name] = all;
                return facts.TryGetValue(mesh.Key, out var parts) && parts.TryGetValue(check.Name, out var packed) ? read[check.Name] = InspectionFacts.Unpack(packed) : null;
            }

            foreach (var verdict in mesh)
            {
                var again = checks[verdict.Process].Select(c => (Check: c, Facts: Part(c))).Where(c => c.Facts is not null).Select(c => (c.Check, c.Facts!)).ToList();
                if (again.Count < checks[verdict.Process].Count) continue; // Rejected: there are no measurements to judge.
                var before = new Judgement(verdict.Verdict, JsonSerializer.Deserialize<List<Finding>>(verdict.FindingsJson) ?? []);
                var after = evidence.Weigh(RevisionJudge.JudgeAgain(before, again, next[verdict.Process]), verdict.RevisionId, verdict.Process);
                var json = JsonSerializer.Serialize(after.Findings);
                if (after.Verdict != verdict.Verdict || json != verdict.FindingsJson) rows.Add(new(verdict.RevisionId, verdict.Process, after.Verdict, json));
            }
        });
        return rows;
    }

    /// <summary>Measurements of inspections whose checks were kept together only, by an earlier version.</summary>
    private static async Task<Dictionary<Guid, CheckedFacts>> WholeFactsAsync(CatalogueDb db, List<Guid> inspections, CancellationToken cancellation)
    {
        var read = new Dictionary<Guid, CheckedFacts>();
        foreach (var batch in inspections.Chunk(200))
        {
            var rows = await db.Inspections.AsNoTracking().Where(i => batch.Contains(i.Id) && i.State == InspectionState.Done).Select(i => new { i.Id, i.FactsJson }).ToListAsync(cancellation);
            foreach (var row in rows) read[row.Id] = CheckedFacts.FromJson(System.Text.Encoding.UTF8.GetBytes(row.FactsJson));
        }

        return read;
    }

    /// <summary>Limits and verdicts become the new ones, for everybody at once. Not when another change was asked for meanwhile.</summary>
    private async Task SwitchAsync(CatalogueDb db, Rejudgement state, List<Process> changing, CancellationToken cancellation)
    {
        // In this order, so that nobody waits for us while we wait for them: who asks for a change holds the first row, who changes a figure that figure and then the range.
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await db.Rejudgements.ExecuteUpdateAsync(set => set.SetProperty(r => r.Working, r => r.Working), cancellation);
        db.ChangeTracker.Clear();
        var now = await db.Rejudgements.SingleAsync(cancellation);
        if (now.Asked != state.Working || now.Working != state.Working) return;
        await CountFiguresUpAsync(db, cancellation);
        await db.CountRangeUpAsync(limits: true, cancellation);
        await JudgeLatecomersAsync(db, now, changing, cancellation);
        var switchedAt = new DateTime(Now.Ticks / TimeSpan.TicksPerMillisecond * TimeSpan.TicksPerMillisecond, DateTimeKind.Utc);
        await db.Database.ExecuteSqlAsync(
            $"""
             UPDATE revision_verdicts SET verdict = n.verdict, findings_json = n.findings_json, judged_at = {switchedAt}
             FROM next_verdicts n WHERE revision_verdicts.revision_id = n.revision_id AND revision_verdicts.process = n.process
             """, cancellation);
        await db.NextVerdicts.ExecuteDeleteAsync(cancellation);
        await db.Database.ExecuteSqlRawAsync(
            "UPDATE process_limits SET value = next_value, origin = next_origin, next_value = NULL, next_origin = NULL WHERE next_origin IS NOT NULL", cancellation);
        now.End(switchedAt);
        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
    }

    /// <summary>Revisions that were judged by the limits in effect since this began: few.</summary>
    private async Task JudgeLatecomersAsync(CatalogueDb db, Rejudgement state, List<Process> changing, CancellationToken cancellation)
    {
        var (since, switched) = (state.StartedAt!.Value - Margin, state.SwitchedAt);
        var late = await (
            from r in db.Revisions
            where db.Verdicts.Any(v => v.RevisionId == r.Id && v.JudgedAt >= since && v.JudgedAt != switched)
            orderby r.Id
            select new JudgedRevision(r.Id, r.InspectionId)).ToListAsync(cancellation);
        foreach (var revision in late)
        {
            await db.NextVerdicts.Where(v => v.RevisionId == revision.Id).ExecuteDeleteAsync(cancellation);
            await NextVerdictRows.AddAsync(db, database, await JudgeAsync(db, [revision], changing, cancellation), cancellation);
        }

        if (late.Count > 0) await CountFiguresUpAsync(db, cancellation);
    }

    private static Task<int> CountFiguresUpAsync(CatalogueDb db, CancellationToken cancellation) => db.Database.ExecuteSqlRawAsync(
        """
        UPDATE figures SET judgements = judgements + 1 WHERE id IN
          (SELECT p.figure_id FROM next_verdicts n JOIN revisions r ON r.id = n.revision_id JOIN variants v ON v.id = r.variant_id JOIN parts p ON p.id = v.part_id)
        """, cancellation);

    private DateTime Now => time.GetUtcNow().UtcDateTime;

    private sealed record JudgedRevision(Guid Id, Guid Inspection);
}
