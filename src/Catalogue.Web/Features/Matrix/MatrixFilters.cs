using System.Globalization;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Fit;
using Catalogue.Model;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Matrix;

/// <summary>Which rows of the matrix are shown, and in which order: <c>q</c>, <c>show</c>, <c>verdict</c> with <c>on</c>, <c>sort</c>, <c>page</c>. The same words for page, JSON and CSV.</summary>
internal sealed record MatrixFilters
{
    public const string ByTitle = "title";
    public const string ByHeight = "height";
    public const string Newest = "newest";
    private const string Gaps = "gaps";
    private const int MostWords = 200;
    private static readonly string[] Verdicts = ["suits", "care", "unsuited", "unchecked"];

    public string Words { get; private init; } = "";

    /// <summary>Only figures that do not keep the range's promise.</summary>
    public bool OnlyGaps { get; private init; }

    /// <summary>Only figures that have this verdict, on <see cref="On"/>; null = any.</summary>
    public Verdict? Verdict { get; private init; }

    /// <summary>The process that <see cref="Verdict"/> is asked of; empty = on at least one of those shown.</summary>
    public string On { get; private init; } = "";

    /// <summary>A word, or the code of a process whose worst verdicts come first.</summary>
    public string Sort { get; private init; } = ByTitle;

    /// <summary>Of the rows, from 1.</summary>
    public int Page { get; private init; } = 1;

    public bool IsAny => Words.Length > 0 || OnlyGaps || Verdict is not null;

    /// <exception cref="RuleBrokenException"><c>filter-invalid</c>: a word is none of those known; the message lists them.</exception>
    public static MatrixFilters Read(IQueryCollection query, IReadOnlyCollection<string> processes)
    {
        ArgumentNullException.ThrowIfNull(query);
        var (words, show, sort) = (query["q"].ToString().Trim(), query["show"].ToString(), query["sort"].ToString());
        if (show is not ("" or "all" or Gaps)) throw new RuleBrokenException("filter-invalid", $"“{show}” cannot be shown. Show all or gaps.");
        string[] orders = [ByTitle, ByHeight, Newest, .. processes];
        if (sort.Length > 0 && !orders.Contains(sort))
            throw new RuleBrokenException("filter-invalid", $"The matrix cannot be sorted by “{sort}”. Sort by {string.Join(", ", orders)}.");
        var (verdict, on) = (query["verdict"].ToString(), query["on"].ToString());
        if (verdict.Length > 0 && !Verdicts.Contains(verdict)) throw new RuleBrokenException("filter-invalid", $"“{verdict}” is no verdict. Ask for {string.Join(", ", Verdicts)}.");
        if (on.Length > 0 && !processes.Contains(on)) throw new RuleBrokenException("filter-invalid", $"The matrix has no process “{on}”. It has {string.Join(", ", processes)}.");
        var page = query["page"].ToString();
        if (!int.TryParse(page.Length == 0 ? "1" : page, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number < 1)
            throw new RuleBrokenException("page-invalid", $"“{page}” is not a number for “page”: it counts from 1.");
        return new()
        {
            Page = number,
            Words = words.Length <= MostWords ? words : words[..MostWords],
            OnlyGaps = show == Gaps,
            Verdict = VerdictCodes.TryParse(verdict, out var asked) ? asked : null,
            On = on,
            Sort = sort.Length > 0 ? sort : ByTitle,
        };
    }

    /// <summary>These filters as a question about the range.</summary>
    public MatrixQuery For(BuildVolume volume, string? process, RangePromise promise)
    {
        ArgumentNullException.ThrowIfNull(promise);
        return new()
        {
            Volume = volume,
            Processes = process is null ? [] : [process],
            Promised = promise.Processes,
            Words = Words,
            OnlyGaps = OnlyGaps,
            Verdict = Verdict,
            VerdictOn = On.Length > 0 ? On : null,
            Order = Sort switch { ByHeight => RangeOrder.Height, Newest => RangeOrder.Newest, _ => RangeOrder.Title },
            WorstOn = Sort is ByTitle or ByHeight or Newest ? null : Sort,
            Page = Page,
        };
    }

    /// <summary>The words of these filters as a query, without a question mark; empty when nothing is filtered or sorted.</summary>
    /// <param name="page">Of the rows, from 1.</param>
    public string Query(string sort, int page = 1)
    {
        var words = new List<string>();
        if (Words.Length > 0) words.Add("q=" + Uri.EscapeDataString(Words));
        if (OnlyGaps) words.Add("show=" + Gaps);
        if (Verdict is { } verdict) words.Add("verdict=" + verdict.Code());
        if (On.Length > 0) words.Add("on=" + On);
        if (sort != ByTitle) words.Add("sort=" + sort);
        if (page > 1) words.Add(string.Create(CultureInfo.InvariantCulture, $"page={page}"));
        return string.Join('&', words);
    }
}
