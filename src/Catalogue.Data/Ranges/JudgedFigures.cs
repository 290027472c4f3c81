using Catalogue.Data.Storage;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>A few figures with the findings their verdicts rest on, both of the same moment: what pages show of them.</summary>
/// <remarks>
/// The index keeps verdicts; findings stay in the database. They are read together with the figures' counters, and a figure that has changed since
/// the index was read is read anew with them: so a page never shows verdicts of one moment with reasons of another.
/// </remarks>
internal sealed class JudgedFigures
{
    private readonly Dictionary<Guid, IndexedFigure> _figures;
    private readonly Dictionary<(Guid Revision, string Process), Judgement> _judgements;

    private JudgedFigures(Dictionary<Guid, IndexedFigure> figures, Dictionary<(Guid, string), Judgement> judgements, IReadOnlyList<Process> processes) =>
        (_figures, _judgements, Processes) = (figures, judgements, processes);

    /// <summary>With the limits that the figures were judged by.</summary>
    public IReadOnlyList<Process> Processes { get; }

    /// <summary>The figure as the findings are of; null when it is not published any more.</summary>
    public IndexedFigure? Now(Guid figure) => _figures.GetValueOrDefault(figure);

    /// <summary>The kept judgement of a variant on a process, whatever the volume.</summary>
    public Judgement On(IndexedFigure figure, IndexedVariant variant, string process)
    {
        if (_judgements.TryGetValue((variant.RevisionId, process), out var judgement)) return judgement;
        return VerdictOf(figure, variant, process) is Verdict.Suits ? Silent : Judgement.Unchecked;
    }

    private static readonly Judgement Silent = new(Verdict.Suits, []);

    private Verdict? VerdictOf(IndexedFigure figure, IndexedVariant variant, string process)
    {
        for (var i = 0; i < Processes.Count; i++)
            if (Processes[i].Code == process) return figure.Sketch.VerdictOf(variant.Place, i);
        return null;
    }

    /// <param name="process">Findings on this process only; null = on all of them.</param>
    /// <param name="withNotes">False leaves out what suits with nothing overruled: there are only notes, which lists do not show.</param>
    public static async Task<JudgedFigures> ReadAsync(
        DatabaseChoice database, RangeSnapshot snapshot, IReadOnlyCollection<IndexedFigure> figures, string? process, bool withNotes, CancellationToken cancellation)
    {
        await using var db = database.Open();
        await using var moment = await database.BeginReadingAsync(db, cancellation);
        var ids = figures.Select(f => f.Id).ToList();
        var fresh = await (
            from f in db.Figures
            from r in db.Ranges
            where ids.Contains(f.Id)
            select new { f.Id, f.Version, f.Judgements, r.JudgementRevision }).ToListAsync(cancellation);
        var (now, processes) = (figures.ToDictionary(f => f.Id), snapshot.Processes);
        var others = fresh.Exists(f => f.JudgementRevision != snapshot.JudgementRevision);
        if (others) processes = await db.Processes.AsNoTracking().Include(p => p.Limits).Include(p => p.Rates).AsSplitQuery().OrderBy(p => p.Position).ToListAsync(cancellation);
        var same = fresh.Where(f => !others && now[f.Id].Freshness == (f.Version, f.Judgements)).Select(f => f.Id).ToHashSet();
        List<Guid> changed = [.. ids.Where(id => !same.Contains(id))];
        if (changed.Count > 0)
        {
            foreach (var id in changed) now.Remove(id);
            foreach (var read in await new IndexReading(db, snapshot.Vocabulary, processes).ReadAsync(changed, cancellation)) now[read.Id] = read;
        }

        var revisions = now.Values.SelectMany(f => f.Parts).SelectMany(p => p.Variants).Where(v => process is null || v.MadeFor.Contains(process)).Select(v => v.RevisionId).ToList();
        var rows = db.Verdicts.AsNoTracking().Where(v => revisions.Contains(v.RevisionId));
        if (process is not null) rows = rows.Where(v => v.Process == process);
        if (!withNotes) rows = rows.Where(v => v.Verdict != Verdict.Suits || v.FindingsJson.Contains(RevisionVerdict.OverruledMark));
        var judgements = revisions.Count == 0 ? [] : await rows.ToDictionaryAsync(v => (v.RevisionId, v.Process), v => v.Judgement, cancellation);
        return new(now, judgements, processes);
    }
}
