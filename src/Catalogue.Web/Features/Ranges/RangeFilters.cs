using System.Globalization;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Ranges;

/// <summary>What a reader asks of the range besides their printer: <c>q</c>, <c>verdict</c>, <c>sort</c>, <c>page</c>, <c>size</c>. The same words for page and API.</summary>
internal sealed record RangeFilters
{
    private const int MostWords = 200;
    private const int UsualSize = 24;

    private static readonly Dictionary<string, RangeOrder> Orders = new()
    {
        ["title"] = RangeOrder.Title,
        ["verdict"] = RangeOrder.Verdict,
        ["newest"] = RangeOrder.Newest,
        ["height"] = RangeOrder.Height,
    };

    public string Words { get; init; } = "";
    public IReadOnlySet<Verdict> Verdicts { get; init; } = new HashSet<Verdict>();

    /// <summary>Null = as it suits: by verdict for a printer, else by title.</summary>
    public RangeOrder? Order { get; init; }

    public int Page { get; init; } = 1;
    public int Size { get; init; } = UsualSize;

    /// <exception cref="RuleBrokenException">A word is none of those known; the message lists them.</exception>
    public static RangeFilters Read(IQueryCollection query)
    {
        ArgumentNullException.ThrowIfNull(query);
        var words = query["q"].ToString().Trim();
        return new()
        {
            Words = words.Length <= MostWords ? words : words[..MostWords],
            Verdicts = query["verdict"].SelectMany(v => (v ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
                .Select(ParseVerdict).ToHashSet(),
            Order = query["sort"].ToString() is { Length: > 0 } sort ? ParseOrder(sort) : null,
            Page = Number(query, "page", 1, int.MaxValue, 1),
            Size = Number(query, "size", 1, RangeQuery.LargestPage, UsualSize),
        };
    }

    public RangeQuery For(Printer printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return new()
        {
            Words = Words,
            Printer = printer,
            Verdicts = Verdicts,
            Order = Order ?? (printer.IsUnknown ? RangeOrder.Title : RangeOrder.Verdict),
            Page = Page,
            Size = Size,
        };
    }

    /// <summary>The address of the range with these filters.</summary>
    public string Path()
    {
        var parts = new List<string>();
        if (Words.Length > 0) parts.Add("q=" + Uri.EscapeDataString(Words));
        parts.AddRange(Verdicts.Order().Select(v => "verdict=" + v.Code()));
        if (Order is { } order) parts.Add("sort=" + CodeOf(order));
        if (Page > 1) parts.Add(string.Create(CultureInfo.InvariantCulture, $"page={Page}"));
        if (Size != UsualSize) parts.Add(string.Create(CultureInfo.InvariantCulture, $"size={Size}"));
        return parts.Count == 0 ? "/" : "/?" + string.Join('&', parts);
    }

    public static string CodeOf(RangeOrder order) => Orders.First(o => o.Value == order).Key;

    private static Verdict ParseVerdict(string code) => VerdictCodes.TryParse(code, out var verdict)
        ? verdict
        : throw new RuleBrokenException("verdict-invalid", $"“{code}” is not a verdict. Ask for suits, care, unsuited or unchecked.");

    private static RangeOrder ParseOrder(string code) => Orders.TryGetValue(code, out var order)
        ? order
        : throw new RuleBrokenException("sort-invalid", $"“{code}” is not an order. Ask for {string.Join(", ", Orders.Keys)}.");

    private static int Number(IQueryCollection query, string name, int least, int most, int otherwise)
    {
        var text = query[name].ToString();
        if (text.Length == 0) return otherwise;
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least
            ? Math.Min(number, most)
            : throw new RuleBrokenException(name + "-invalid", $"“{text}” is not a number for “{name}”: it counts from {least}.");
    }
}
