using Catalogue.Geometry.Fit;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>Which figures suit a printer, and why: the questions that pages and API share.</summary>
public sealed class RangeSearch(RangeIndex index, FitAnswers fits)
{
    public ValueTask<RangeSnapshot> SnapshotAsync(CancellationToken cancellation) => index.CurrentAsync(cancellation);

    public async Task<RangePage> FindAsync(RangeQuery query, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(query);
        var snapshot = await index.CurrentAsync(cancellation);
        var words = (query.Words ?? "").ToLowerInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var found = snapshot.Figures.Where(f => Array.TrueForAll(words, w => f.SearchText.Contains(w, StringComparison.Ordinal)));
        var items = new List<RangeItem>();
        var counts = new Dictionary<Verdict, int>();
        foreach (var figure in found)
        {
            var (process, verdict) = await BestAsync(snapshot, figure, query.Printer, cancellation);
            if (verdict is not null) counts[verdict.Verdict] = counts.GetValueOrDefault(verdict.Verdict) + 1;
            if (verdict is null || query.Verdicts.Count == 0 || query.Verdicts.Contains(verdict.Verdict)) items.Add(new(figure, process, verdict));
        }

        var size = Math.Clamp(query.Size, 1, RangeQuery.LargestPage);
        var page = Math.Max(1, query.Page);
        return new([.. Ordered(items, query.Order).Skip((int)Math.Min((page - 1L) * size, int.MaxValue)).Take(size)], items.Count, page, size) { Counts = counts };
    }

    /// <summary>The range on the processes named (or all), for a volume (or any).</summary>
    public async Task<RangeMatrix> MatrixAsync(BuildVolume? volume, IReadOnlyCollection<string>? processes, CancellationToken cancellation)
    {
        var snapshot = await index.CurrentAsync(cancellation);
        var columns = snapshot.Processes.Where(p => processes is null || processes.Count == 0 || processes.Contains(p.Code)).ToList();
        var rows = new List<MatrixRow>();
        foreach (var figure in snapshot.Figures)
        {
            var cells = new List<MatrixCell>();
            foreach (var process in columns) cells.Add(new(process.Code, await JudgeAsync(snapshot, figure, process.Code, volume, cancellation)));
            rows.Add(new(figure, cells));
        }

        return new([.. columns.Select(p => p.Code)], rows);
    }

    /// <summary>A figure's verdict on a process, in a volume when one is given.</summary>
    public async Task<FigureVerdict> JudgeAsync(
        RangeSnapshot snapshot, IndexedFigure figure, string process, BuildVolume? volume, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(figure);
        var cases = new List<PartCase>(figure.Parts.Count);
        foreach (var part in figure.Parts)
        {
            var candidates = new List<Candidate>();
            foreach (var variant in part.Variants.Where(v => v.MadeFor.Contains(process)))
                candidates.Add(new(variant.Id, variant.RevisionId, variant.Slug, await JudgeAsync(variant, process, volume, cancellation)));
            cases.Add(new(part.Id, part.Slug, part.Name, part.Role, part.ChoiceId, part.ChoiceName, candidates)
            {
                IsDefaultMember = part.IsDefaultMember,
                OtherVariants = part.Variants.Count - candidates.Count,
            });
        }

        var joints = figure.Joints.Where(j => j.Judgements.ContainsKey(process))
            .Select(j => new JointCase(j.Id, j.FirstPartId, j.SecondPartId, j.Judgements[process])).ToList();
        return FigureJudge.Judge(cases, snapshot.Process(process)?.SpokenName ?? process, joints);
    }

    /// <summary>How a variant goes into a volume; null while its mesh is not measured.</summary>
    /// <param name="exact">True = the best spare there is, from the hull; else a lower bound will do where the answer is clear.</param>
    public ValueTask<FitAnswer?> FitAsync(IndexedVariant variant, BuildVolume volume, bool exact, CancellationToken cancellation) =>
        exact ? fits.ExactAsync(variant, volume, cancellation) : fits.OfAsync(variant, volume, cancellation);

    private async ValueTask<Judgement> JudgeAsync(IndexedVariant variant, string process, BuildVolume? volume, CancellationToken cancellation)
    {
        var judgement = variant.On(process);
        if (volume is not { } room) return judgement;
        return await fits.OfAsync(variant, room, cancellation) is { } fit ? judgement.With(FitFindings.Of(fit, room)) : judgement;
    }

    private async Task<(string? Process, FigureVerdict? Verdict)> BestAsync(
        RangeSnapshot snapshot, IndexedFigure figure, Printer printer, CancellationToken cancellation)
    {
        if (printer.Process is { } process) return (process, await JudgeAsync(snapshot, figure, process, printer.Volume, cancellation));
        if (printer.Volume is null) return (null, null);
        (string? Process, FigureVerdict? Verdict) best = (null, null);
        foreach (var candidate in snapshot.Processes)
        {
            var verdict = await JudgeAsync(snapshot, figure, candidate.Code, printer.Volume, cancellation);
            if (best.Verdict is null || verdict.Verdict < best.Verdict.Verdict) best = (candidate.Code, verdict);
            if (verdict.Verdict == Verdict.Suits) break;
        }

        return best;
    }

    private static IEnumerable<RangeItem> Ordered(List<RangeItem> items, RangeOrder order) => order switch
    {
        RangeOrder.Verdict => items.OrderBy(i => i.Verdict?.Verdict ?? Verdict.Unchecked),
        RangeOrder.Newest => items.OrderByDescending(i => i.Figure.PublishedAt),
        RangeOrder.Height => items.OrderBy(i => i.Figure.HeightMm),
        _ => items,
    };
}
