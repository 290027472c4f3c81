using System.Collections.Concurrent;
using System.Text.Json;
using Catalogue.Data.Queries;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Judging;

/// <summary>One revision that is judged ahead, with the inspection it rests on.</summary>
internal sealed record JudgedRevision(Guid Id, Guid Inspection);

/// <summary>The verdicts of some revisions that a change makes other ones, from stored measurements. No mesh is read.</summary>
internal static class VerdictsAhead
{
    /// <summary>Inspections whose whole measurements are held at once: some ten kilobytes each.</summary>
    private const int AtOnce = 250;

    /// <summary>By the rules of this program, everything from the beginning. What was found before is only compared, never read: it may have another shape.</summary>
    /// <param name="revisions">In the order of their ids; cheapest with none left out in between, because everything between the first and the last is read.</param>
    /// <param name="processes">All of them, with the limits to come.</param>
    public static async Task<IReadOnlyCollection<NextVerdictRow>> OfRulesAsync(
        CatalogueDb db, IReadOnlyList<JudgedRevision> revisions, IReadOnlyList<Process> processes, CancellationToken cancellation)
    {
        var by = processes.ToDictionary(p => p.Code);
        var rows = new ConcurrentBag<NextVerdictRow>();
        foreach (var some in revisions.Chunk(AtOnce))
        {
            var (first, last) = (some[0].Id, some[^1].Id);
            var kept = (await db.Verdicts.AsNoTracking().Where(v => v.RevisionId.CompareTo(first) >= 0 && v.RevisionId.CompareTo(last) <= 0)
                .Select(v => new { v.RevisionId, v.Process, v.Verdict, v.FindingsJson }).ToListAsync(cancellation)).ToLookup(v => v.RevisionId);
            var meshes = await (
                from i in db.Inspections
                where db.Revisions.Any(r => r.InspectionId == i.Id && r.Id.CompareTo(first) >= 0 && r.Id.CompareTo(last) <= 0)
                select new { i.Id, i.State, i.FactsJson, i.ErrorMessage }).AsNoTracking().ToDictionaryAsync(i => i.Id, cancellation);
            var evidence = await RevisionEvidence.LoadBetweenAsync(db, first, last, cancellation);
            Parallel.ForEach(some.GroupBy(r => r.Inspection), group =>
            {
                if (!meshes.TryGetValue(group.Key, out var mesh)) return;
                var rejected = mesh.State == InspectionState.Rejected;
                if (!rejected && mesh.FactsJson.Length == 0) return; // Not inspected yet: it is judged when it is.
                var facts = rejected ? null : MeshInspection.FactsOf(mesh.FactsJson);
                foreach (var verdict in group.SelectMany(r => kept[r.Id]))
                {
                    if (!by.TryGetValue(verdict.Process, out var process)) continue;
                    var judged = facts is null ? RevisionJudge.Unreadable(mesh.ErrorMessage) : RevisionJudge.Judge(facts, process);
                    var after = evidence.Weigh(judged, verdict.RevisionId, verdict.Process);
                    var json = JsonSerializer.Serialize(after.Findings);
                    if (after.Verdict != verdict.Verdict || json != verdict.FindingsJson) rows.Add(new(verdict.RevisionId, verdict.Process, after.Verdict, json));
                }
            });
        }

        return rows;
    }

    /// <summary>By changed limits: only the checks that ask them are drawn again.</summary>
    /// <param name="revisions">In the order of their ids; cheapest with none left out in between, because everything between the first and the last is read.</param>
    /// <param name="changing">The processes that have changed limits.</param>
    public static async Task<IReadOnlyCollection<NextVerdictRow>> OfLimitsAsync(
        CatalogueDb db, IReadOnlyList<JudgedRevision> revisions, IReadOnlyList<Process> changing, CancellationToken cancellation)
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
}
