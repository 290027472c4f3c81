using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Matrix;

/// <summary>Which rows of the matrix are shown, and in which order: <c>q</c>, <c>show</c>, <c>sort</c>. The same words for page, JSON and CSV.</summary>
internal sealed record MatrixFilters
{
    public const string ByTitle = "title";
    public const string ByHeight = "height";
    public const string Newest = "newest";
    private const string Gaps = "gaps";
    private const int MostWords = 200;

    public string Words { get; private init; } = "";

    /// <summary>Only figures that do not keep the range's promise.</summary>
    public bool OnlyGaps { get; private init; }

    /// <summary>A word, or the code of a process whose worst verdicts come first.</summary>
    public string Sort { get; private init; } = ByTitle;

    public bool IsAny => Words.Length > 0 || OnlyGaps;

    /// <exception cref="RuleBrokenException"><c>filter-invalid</c>: a word is none of those known; the message lists them.</exception>
    public static MatrixFilters Read(IQueryCollection query, IEnumerable<string> processes)
    {
        ArgumentNullException.ThrowIfNull(query);
        var (words, show, sort) = (query["q"].ToString().Trim(), query["show"].ToString(), query["sort"].ToString());
        if (show is not ("" or "all" or Gaps)) throw new RuleBrokenException("filter-invalid", $"“{show}” cannot be shown. Show all or gaps.");
        string[] orders = [ByTitle, ByHeight, Newest, .. processes];
        if (sort.Length > 0 && !orders.Contains(sort))
            throw new RuleBrokenException("filter-invalid", $"The matrix cannot be sorted by “{sort}”. Sort by {string.Join(", ", orders)}.");
        return new() { Words = words.Length <= MostWords ? words : words[..MostWords], OnlyGaps = show == Gaps, Sort = sort.Length > 0 ? sort : ByTitle };
    }

    /// <summary>The rows to show. Whatever is sorted by, figures of the same rank stay in the order of their titles.</summary>
    public IReadOnlyList<MatrixRow> Of(RangeMatrix matrix, RangePromise promise)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(promise);
        var words = Words.ToLowerInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var rows = matrix.Rows.Where(r => Array.TrueForAll(words, w => r.Figure.SearchText.Contains(w, StringComparison.Ordinal)))
            .Where(r => !OnlyGaps || !Keeps(r, promise));
        return
        [
            .. Sort switch
            {
                ByTitle => rows,
                ByHeight => rows.OrderBy(r => r.Figure.HeightMm),
                Newest => rows.OrderByDescending(r => r.Figure.PublishedAt),
                _ => rows.OrderByDescending(r => r.Cells.FirstOrDefault(c => c.Process == Sort)?.Verdict.Verdict ?? Verdict.Suits),
            },
        ];
    }

    /// <summary>True when a figure suits, with or without care, on every promised process.</summary>
    public static bool Keeps(MatrixRow row, RangePromise promise) =>
        promise.Processes.All(p => row.Cells.Any(c => c.Process == p && c.Verdict.Verdict is Verdict.Suits or Verdict.Care));
}
