using Catalogue.Data.Storage;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Judging;

/// <summary>
/// Brings changed limits, or the rules of another version of the program, into effect: judges every revision by them ahead, beside what readers see, then switches limits and verdicts of the whole
/// range in one transaction. No reader sees a figure, or a range, half by the old ones and half by the new ones.
/// </summary>
/// <remarks>
/// No mesh is read: of a changed limit the measurements of the checks that it concerns (<see cref="VerdictsAhead.OfLimitsAsync"/>), of changed rules all of them
/// (<see cref="VerdictsAhead.OfRulesAsync"/>); written are only verdicts that become other ones. A batch is one transaction with the place it got to, so that after a crash it goes on there. Another
/// change that comes in between begins it anew. What is inspected meanwhile is judged by what is in effect and once more just before the switch; whoever saves such a verdict after it has to judge
/// again (<see cref="LimitsChangedException"/>). Run one at a time. A program with other rules than are asked for leaves it to one that has them.
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

    /// <summary>One step: a batch, or the switch after the last one. Null when nothing is waiting, or only for another program.</summary>
    internal async Task<int?> StepAsync(CancellationToken cancellation)
    {
        await using var db = database.Open();
        var state = await db.Rejudgements.SingleOrDefaultAsync(cancellation);
        if (state is not { IsGoingOn: true, Rules: Rules.Version }) return null;
        var processes = await db.Processes.AsNoTracking().Include(p => p.Limits).ToListAsync(cancellation);
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
            await SwitchAsync(db, state, processes, cancellation);
            return 0;
        }

        var rows = await JudgeAsync(db, state, revisions, processes, cancellation);
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await NextVerdictRows.AddAsync(db, database, rows, cancellation);
        state.Advance(revisions[^1].Id, revisions.Count);
        await db.SaveChangesAsync(cancellation);
        await transaction.CommitAsync(cancellation);
        return revisions.Count;
    }

    private static Task<IReadOnlyCollection<NextVerdictRow>> JudgeAsync(
        CatalogueDb db, Rejudgement state, IReadOnlyList<JudgedRevision> revisions, IReadOnlyList<Process> processes, CancellationToken cancellation) => state.RulesChanging
        ? VerdictsAhead.OfRulesAsync(db, revisions, [.. processes.Select(p => p.Next())], cancellation)
        : VerdictsAhead.OfLimitsAsync(db, revisions, [.. processes.Where(p => p.IsChanging)], cancellation);

    /// <summary>Limits and verdicts become the new ones, for everybody at once. Not when another change was asked for meanwhile.</summary>
    private async Task SwitchAsync(CatalogueDb db, Rejudgement state, List<Process> processes, CancellationToken cancellation)
    {
        // In this order, so that nobody waits for us while we wait for them: who asks for a change holds the first row, who changes a figure that figure and then the range.
        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        await db.Rejudgements.ExecuteUpdateAsync(set => set.SetProperty(r => r.Working, r => r.Working), cancellation);
        db.ChangeTracker.Clear();
        var now = await db.Rejudgements.SingleAsync(cancellation);
        if (now.Asked != state.Working || now.Working != state.Working) return;
        await CountFiguresUpAsync(db, cancellation);
        await db.CountRangeUpAsync(limits: true, cancellation);
        await JudgeLatecomersAsync(db, now, processes, cancellation);
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

    /// <summary>Revisions that were judged by what was in effect since this began: few, or many when another change came into effect just before.</summary>
    private async Task JudgeLatecomersAsync(CatalogueDb db, Rejudgement state, List<Process> processes, CancellationToken cancellation)
    {
        var (since, switched) = (state.StartedAt!.Value - Margin, state.SwitchedAt);
        var late = await (
            from r in db.Revisions
            where db.Verdicts.Any(v => v.RevisionId == r.Id && v.JudgedAt >= since && v.JudgedAt != switched)
            orderby r.Id
            select new JudgedRevision(r.Id, r.InspectionId)).ToListAsync(cancellation);
        foreach (var some in late.Chunk(Batch))
        {
            var ids = some.Select(r => r.Id).ToList();
            await db.NextVerdicts.Where(v => ids.Contains(v.RevisionId)).ExecuteDeleteAsync(cancellation);
            await NextVerdictRows.AddAsync(db, database, await JudgeAsync(db, state, some, processes, cancellation), cancellation);
        }

        if (late.Count > 0) await CountFiguresUpAsync(db, cancellation);
    }

    private static Task<int> CountFiguresUpAsync(CatalogueDb db, CancellationToken cancellation) => db.Database.ExecuteSqlRawAsync(
        """
        UPDATE figures SET judgements = judgements + 1 WHERE id IN
          (SELECT p.figure_id FROM next_verdicts n JOIN revisions r ON r.id = n.revision_id JOIN variants v ON v.id = r.variant_id JOIN parts p ON p.id = v.part_id)
        """, cancellation);

    private DateTime Now => time.GetUtcNow().UtcDateTime;
}
