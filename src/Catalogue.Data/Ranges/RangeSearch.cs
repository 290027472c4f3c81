using Catalogue.Data.Storage;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>Which figures suit a printer, and why: the questions that pages and API share.</summary>
/// <remarks>
/// Every figure is judged in the index; only those shown are read from the database with what their verdicts rest on. A figure whose verdict hangs on a part
/// within a millimetre or two of the limit is settled on its profile or hull when it is shown; what else is open counts as such (<see cref="RangePage.Open"/>).
/// </remarks>
public sealed class RangeSearch(RangeIndex index, FitAnswers fits, DatabaseChoice database)
{
    /// <summary>How long figures that are not shown are settled, when it depends on their verdicts which ones are listed, or when there are few.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(250);

    /// <summary>Up to so many figures are settled for the sake of the counts alone.</summary>
    public const int Few = 300;

    private const double Ample = FitFindings.TightMm;

    public ValueTask<RangeSnapshot> SnapshotAsync(CancellationToken cancellation) => index.CurrentAsync(cancellation);

    public async Task<RangePage> FindAsync(RangeQuery query, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(query);
        var snapshot = await index.CurrentAsync(cancellation);
        var (size, page) = (Math.Clamp(query.Size, 1, RangeQuery.LargestPage), Math.Max(1, query.Page));
        var words = WordSearch.Over(snapshot.Figures, snapshot.Vocabulary, query.Words);
        var costs = words.IsAsked ? Enumerable.Range(0, snapshot.Figures.Count).Where(words.Finds).Select(words.CostOf).ToArray() : null;
        var figures = words.IsAsked ? snapshot.Figures.Where((_, f) => words.Finds(f)).ToList() : snapshot.Figures;
        var hours = PrintHours.Of(snapshot, query.Printer);
        if (hours is not null && words.IsAsked) hours = [.. hours.Where((_, f) => words.Finds(f))];
        if (query.Printer.IsUnknown)
        {
            var all = new RangeSelection(snapshot, query, figures, null, null);
            var shelf = all.Listed.ToList();
            return new([.. PageOf(Ordered(shelf, query.Order, figures, costs), page, size).Select(f => new RangeItem(figures[f], null, null))], shelf.Count, page, size)
            {
                Facets = all.Facets(0),
                Taken = words.Taken,
            };
        }

        var (sweep, firstProcess) = Sweep(snapshot, figures, query.Printer);
        var selection = new RangeSelection(snapshot, query, figures, sweep, hours);
        var candidates = Enumerable.Range(0, figures.Count).Where(f => selection.Passes(f, RangeFilter.Verdict)).ToList();
        await sweep.SettleAsync(candidates, PatienceFor(candidates.Count, query.Verdicts.Count > 0), onlyBest: true, cancellation);
        selection.LookAtVerdicts();
        var listed = selection.Listed.ToList();
        var shown = PageOf(Ordered(listed, query.Order, figures, costs, sweep, hours), page, size);
        await sweep.SettleAsync(shown, TimeSpan.MaxValue, onlyBest: true, cancellation);

        var counts = candidates.Select(sweep.Best).Where(s => s.IsSettled).GroupBy(s => s.Best).ToDictionary(g => g.Key, g => g.Count());
        return new(await ItemsAsync(snapshot, sweep, shown, query.Printer, hours, cancellation), listed.Count, page, size)
        {
            Counts = counts,
            Open = candidates.Count - counts.Values.Sum(),
            IsTotalExact = query.Verdicts.Count == 0 || candidates.Count == counts.Values.Sum(),
            Facets = selection.Facets(firstProcess),
            Taken = words.Taken,
        };
    }

    /// <summary>What each filter of a question does to it, for when nothing is found. Looks at the whole range.</summary>
    public async Task<IReadOnlyList<FilterShare>> SharesAsync(RangeQuery query, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(query);
        var snapshot = await index.CurrentAsync(cancellation);
        var sweep = query.Printer.IsUnknown || query.Verdicts.Count == 0 ? null : Sweep(snapshot, snapshot.Figures, query.Printer).Sweep;
        if (sweep is not null) await sweep.SettleAsync(Enumerable.Range(0, snapshot.Figures.Count), Patience, onlyBest: true, cancellation);
        return new RangeSelection(snapshot, query, snapshot.Figures, sweep, PrintHours.Of(snapshot, query.Printer), WordSearch.Over(snapshot.Figures, snapshot.Vocabulary, query.Words)).Shares();
    }

    /// <summary>Some figures judged on one printer, with reasons; those withdrawn meanwhile are left out.</summary>
    private async Task<List<RangeItem>> ItemsAsync(RangeSnapshot snapshot, RangeSweep sweep, List<int> shown, Printer printer, float[]? hours, CancellationToken cancellation)
    {
        var codes = shown.ConvertAll(f => printer.Process ?? snapshot.Processes[sweep.BestColumn(f)].Code);
        var judged = await JudgedFigures.ReadAsync(database, snapshot, shown.ConvertAll(f => sweep.Figures[f]), printer.Process, withNotes: false, cancellation);
        await PrepareAsync(shown.Zip(codes).Select(f => (judged.Now(sweep.Figures[f.First].Id), f.Second)), printer.Volume, cancellation);
        var items = new List<RangeItem>(shown.Count);
        foreach (var (f, code) in shown.Zip(codes))
        {
            if (judged.Now(sweep.Figures[f].Id) is not { } figure) continue;
            var verdict = await JudgeAsync(judged, figure, code, printer.Volume, cancellation);
            var process = verdict.Verdict <= Verdict.Care ? judged.Processes.FirstOrDefault(p => p.Code == code) : null;
            items.Add(new(figure, code, verdict)
            {
                MaterialPrice = process is null ? null : FigureCosts.MaterialOf(figure, verdict, process),
                PrintHours = process is not null && hours is not null && float.IsFinite(hours[f]) ? hours[f] : null,
            });
        }

        return items;
    }

    /// <summary>A page of the range on several processes, for a volume or any.</summary>
    public async Task<RangeMatrix> MatrixAsync(MatrixQuery query, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(query);
        var snapshot = await index.CurrentAsync(cancellation);
        var columns = snapshot.Processes.Where(p => query.Processes.Count == 0 || query.Processes.Contains(p.Code)).Select(p => p.Code).ToList();
        var sweep = new RangeSweep(snapshot.Figures, [.. columns.Select(snapshot.PlaceOf)], query.Volume, fits, database);
        var all = Enumerable.Range(0, snapshot.Figures.Count).ToList();
        await sweep.SettleAsync(all, PatienceFor(all.Count, query.OnlyGaps || query.Verdict is not null || query.WorstOn is not null), onlyBest: false, cancellation);
        var having = WordSearch.Over(snapshot.Figures, snapshot.Vocabulary, query.Words);
        var promised = query.Promised.Select(p => columns.IndexOf(p)).ToList();
        List<int> asked = query.VerdictOn is { } on ? [columns.IndexOf(on)] : [.. Enumerable.Range(0, columns.Count)];
        var listed = all.Where(f => having.Finds(f) && (!query.OnlyGaps || Keeps(sweep, f, promised) != true)
            && (query.Verdict is not { } verdict || asked.Exists(c => c >= 0 && sweep.On(f, c) is { IsSettled: true } span && span.Best == verdict))).ToList();
        IEnumerable<int> ordered = query.WorstOn is { } code && columns.IndexOf(code) is >= 0 and var column
            ? listed.OrderByDescending(f => sweep.On(f, column).Worst)
            : Ordered(listed, query.Order, sweep.Figures);
        var shown = query.Size is { } size ? PageOf(ordered, Math.Max(1, query.Page), size) : [.. ordered];
        await sweep.SettleAsync(shown, TimeSpan.MaxValue, onlyBest: false, cancellation);
        return new(columns, await RowsAsync(snapshot, sweep, columns, shown, query.Volume, cancellation), listed.Count)
        {
            InRange = all.Count,
            Open = all.Count(f => !sweep.IsSettled(f)),
            Kept = all.Count(f => Keeps(sweep, f, promised) == true),
            Counts = [.. Enumerable.Range(0, columns.Count).Select(c => all.Select(f => sweep.On(f, c)).Where(s => s.IsSettled).GroupBy(s => s.Best).ToDictionary(g => g.Key, g => g.Count()))],
        };
    }

    private async Task<List<MatrixRow>> RowsAsync(
        RangeSnapshot snapshot, RangeSweep sweep, List<string> columns, List<int> shown, BuildVolume? volume, CancellationToken cancellation)
    {
        var rows = new List<MatrixRow>(shown.Count);
        foreach (var batch in shown.Chunk(RangeQuery.LargestPage))
        {
            var judged = await JudgedFigures.ReadAsync(database, snapshot, [.. batch.Select(f => sweep.Figures[f])], columns.Count == 1 ? columns[0] : null, withNotes: false, cancellation);
            var figures = batch.Select(f => judged.Now(sweep.Figures[f].Id)).OfType<IndexedFigure>().ToList();
            await PrepareAsync(figures.SelectMany(f => columns.Select(c => ((IndexedFigure?)f, c))), volume, cancellation);
            foreach (var figure in figures)
            {
                var cells = new List<MatrixCell>(columns.Count);
                foreach (var column in columns) cells.Add(new(column, await JudgeAsync(judged, figure, column, volume, cancellation)));
                rows.Add(new(figure, cells));
            }
        }

        return rows;
    }

    /// <summary>The verdicts of figures on every process in their order, without reasons and whatever the volume.</summary>
    public static IReadOnlyList<Verdict> OnEvery(RangeSnapshot snapshot, IndexedFigure figure)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(figure);
        return [.. Enumerable.Range(0, snapshot.Processes.Count).Select(p => figure.Sketch.AtAnySize(p))];
    }

    /// <summary>One figure with all that its verdicts rest on; null when it is not published any more.</summary>
    internal async Task<(JudgedFigures Judged, IndexedFigure Figure)?> ReadAsync(RangeSnapshot snapshot, IndexedFigure figure, CancellationToken cancellation)
    {
        var judged = await JudgedFigures.ReadAsync(database, snapshot, [figure], null, withNotes: true, cancellation);
        return judged.Now(figure.Id) is { } now ? (judged, now) : null;
    }

    /// <summary>A figure's verdict on a process, in a volume when one is given.</summary>
    /// <param name="judged">Where its findings are.</param>
    internal async Task<FigureVerdict> JudgeAsync(
        JudgedFigures judged, IndexedFigure figure, string process, BuildVolume? volume, CancellationToken cancellation)
    {
        var cases = new List<PartCase>(figure.Parts.Count);
        foreach (var part in figure.Parts)
        {
            var candidates = new List<Candidate>();
            foreach (var variant in part.Variants.Where(v => v.MadeFor.Contains(process)))
            {
                var judgement = judged.On(figure, variant, process);
                if (volume is { } room) judgement = judgement.With(await FitFindingAsync(figure, variant, room, cancellation));
                candidates.Add(new(variant.Id, variant.RevisionId, variant.Slug, judgement));
            }

            cases.Add(new(part.Id, part.Slug, part.Name, part.Role, part.ChoiceId, part.ChoiceName, candidates)
            {
                IsDefaultMember = part.IsDefaultMember,
                OtherVariants = part.Variants.Count - candidates.Count,
            });
        }

        var material = judged.Processes.FirstOrDefault(p => p.Code == process);
        var joints = material is null ? [] : figure.Joints.Where(j => j.On(process) is not null)
            .Select(j => new JointCase(j.Id, j.FirstPartId, j.SecondPartId, j.Judge(material))).ToList();
        return FigureJudge.Judge(cases, material?.SpokenName ?? process, joints);
    }

    /// <summary>How a variant goes into a volume; null while its mesh is not measured.</summary>
    /// <param name="exact">True = the best spare there is, from the hull; else a lower bound will do where the answer is clear.</param>
    public ValueTask<FitAnswer?> FitAsync(IndexedVariant variant, BuildVolume volume, bool exact, CancellationToken cancellation) =>
        exact ? fits.ExactAsync(variant, volume, cancellation) : fits.OfAsync(variant, volume, cancellation);

    /// <summary>A variant's fit profile; null while it is not measured, or when it was before profiles of this version were kept.</summary>
    internal ValueTask<FitProfile?> ProfileAsync(IndexedVariant variant, CancellationToken cancellation) => fits.ProfileAsync(variant, cancellation);

    internal Task<MixedAnswer?> MixedAsync(RangeSnapshot snapshot, IndexedFigure figure, IEnumerable<Printer> printers, JudgedFigures judged, CancellationToken cancellation) =>
        MixedAnswer.OfAsync(snapshot, figure, printers, p => JudgeAsync(judged, figure, p.Process!, p.Volume, cancellation));

    /// <summary>How figures that do not suit a printer are built with others besides, in their order; null where that does not help either.</summary>
    public async Task<IReadOnlyList<MixedAnswer?>> MixedAsync(
        RangeSnapshot snapshot, IReadOnlyList<IndexedFigure> figures, IReadOnlyList<Printer> printers, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(figures);
        if (figures.Count == 0) return [];
        var judged = await JudgedFigures.ReadAsync(database, snapshot, figures, null, withNotes: false, cancellation);
        var answers = new List<MixedAnswer?>(figures.Count);
        foreach (var figure in figures) answers.Add(judged.Now(figure.Id) is { } now ? await MixedAsync(snapshot, now, printers, judged, cancellation) : null);
        return answers;
    }

    private static TimeSpan PatienceFor(int figures, bool needed) => needed || figures <= Few ? Patience : TimeSpan.Zero;

    /// <summary>The verdicts on the processes asked about, and the column where those on every process begin.</summary>
    private (RangeSweep Sweep, int FirstProcess) Sweep(RangeSnapshot snapshot, IReadOnlyList<IndexedFigure> figures, Printer printer)
    {
        int[] every = [.. Enumerable.Range(0, snapshot.Processes.Count)];
        return printer.Process is { } code
            ? (new(figures, [snapshot.PlaceOf(code)], printer.Volume, fits, database, every), 1)
            : (new(figures, every, printer.Volume, fits, database), 0);
    }

    /// <summary>Reads the profiles that <see cref="FitFindingAsync"/> is going to ask for.</summary>
    private Task PrepareAsync(IEnumerable<(IndexedFigure? Figure, string Process)> figures, BuildVolume? volume, CancellationToken cancellation) => volume is { } room
        ? fits.PrepareAsync(figures.Where(f => f.Figure is not null).SelectMany(f => f.Figure!.Parts.SelectMany(p => p.Variants)
            .Where(v => v.MadeFor.Contains(f.Process) && !IsAmple(f.Figure, v, room))), cancellation)
        : Task.CompletedTask;

    private async ValueTask<Finding?> FitFindingAsync(IndexedFigure figure, IndexedVariant variant, BuildVolume room, CancellationToken cancellation) =>
        !IsAmple(figure, variant, room) && await fits.OfAsync(variant, room, cancellation) is { } fit ? FitFindings.Of(fit, room) : null;

    /// <summary>True when a part goes in as it lies and with so much to spare that nothing is said of it.</summary>
    private static bool IsAmple(IndexedFigure figure, IndexedVariant variant, BuildVolume room) =>
        figure.Sketch.Ask(variant.Place, new OutlineRoom(room).Less(Ample)) == OutlineFit.Fits && FitAnswer.FitsAlongItsAxes(variant.Size, room);

    /// <summary>Does a figure suit, with or without care, on every promised process? Null while that is open.</summary>
    private static bool? Keeps(RangeSweep sweep, int figure, List<int> promised)
    {
        var open = false;
        foreach (var column in promised)
        {
            if (column < 0 || sweep.On(figure, column).Best > Verdict.Care) return false;
            open |= sweep.On(figure, column).Worst > Verdict.Care;
        }

        return open ? null : true;
    }

    private static List<int> PageOf(IEnumerable<int> ordered, int page, int size) => [.. ordered.Skip((int)Math.Min((page - 1L) * size, int.MaxValue)).Take(size)];

    /// <param name="costs">How far each is from the words asked for; null without words.</param>
    /// <param name="sweep">Null where there are no verdicts to order by.</param>
    /// <param name="hours">Null where there are no times to order by.</param>
    private static IEnumerable<int> Ordered(List<int> figures, RangeOrder order, IReadOnlyList<IndexedFigure> all, int[]? costs = null, RangeSweep? sweep = null, float[]? hours = null) => order switch
    {
        RangeOrder.Newest => figures.OrderByDescending(f => all[f].PublishedAt),
        RangeOrder.Height => figures.OrderBy(f => all[f].HeightMm),
        RangeOrder.Time when hours is not null => figures.OrderBy(f => float.IsNaN(hours[f])).ThenBy(f => hours[f]),
        RangeOrder.Match => figures.OrderBy(f => costs?[f] ?? 0).ThenBy(f => sweep?.Best(f).Best ?? Verdict.Suits),
        RangeOrder.Verdict when sweep is not null => figures.OrderBy(f => sweep.Best(f).Best).ThenBy(f => !sweep.Best(f).IsSettled).ThenBy(f => costs?[f] ?? 0),
        _ => figures,
    };
}
