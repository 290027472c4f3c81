using Catalogue.Data.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Matrix;

/// <summary>What a row of the matrix opens to for one verdict: the processes that share it, and the parts that decide, each with its gravest finding.</summary>
/// <param name="Cells">On which processes; the first stands for all.</param>
/// <param name="Parts">At most <see cref="MostParts"/>.</param>
/// <param name="More">Parts that decide beyond those.</param>
internal sealed record MatrixReasons(IReadOnlyList<MatrixCell> Cells, IReadOnlyList<Reason> Parts, int More)
{
    private const int MostParts = 4;

    public Verdict Verdict => Cells[0].Verdict.Verdict;

    public static IEnumerable<MatrixReasons> Of(MatrixRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.Cells.Where(c => c.Verdict.Verdict != Verdict.Suits || c.Verdict.Overruled.Any() || c.Verdict.Usual.Verdict != c.Verdict.Verdict)
            .Select(c => (Cell: c, Parts: Told(c.Verdict)))
            .GroupBy(c => (c.Cell.Verdict.Verdict, c.Cell.Verdict.Usual.Verdict, string.Join('\n', c.Parts.Select(p => p.Part + p.Finding.Message.English))))
            .Select(g => new MatrixReasons([.. g.Select(c => c.Cell)], [.. g.First().Parts.Take(MostParts)], Math.Max(0, g.First().Parts.Count - MostParts)));
    }

    /// <summary>The reasons that decide, accessories apart; none where it suits.</summary>
    public static IEnumerable<Reason> Deciding(FigureVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        return verdict.Verdict switch
        {
            Verdict.Unsuited => verdict.Reasons.Where(r => !r.Optional && r.Finding.Severity == Severity.Stop),
            Verdict.Care => verdict.Reasons.Where(r => !r.Optional && r.Finding.Weight == Severity.Care),
            Verdict.Unchecked => verdict.Reasons.Where(r => !r.Optional && r.Finding.LeavesOpen),
            _ => [],
        };
    }

    /// <summary>Those that decide, then what is overruled; the gravest finding of each part.</summary>
    private static List<Reason> Told(FigureVerdict verdict) => [.. Deciding(verdict).DistinctBy(r => r.Part), .. verdict.Overruled];
}
