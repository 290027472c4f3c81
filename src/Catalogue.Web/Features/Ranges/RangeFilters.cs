using System.Globalization;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Printers;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Ranges;

/// <summary>
/// What a reader asks of the range besides their printer: <c>q</c>, <c>height</c>, <c>time</c>, <c>needs</c>, <c>licence</c>, <c>tag</c>, <c>verdict</c>, <c>sort</c>, <c>page</c>, <c>size</c>.
/// The same words for page and API; filters may come several times, or with commas.
/// </summary>
internal sealed record RangeFilters
{
    /// <summary>Stands for figures that need no hardware.</summary>
    public const string NoHardware = "none";

    private const int MostWords = 200;
    private const int MostValues = 20;
    private const int UsualSize = 24;

    private static readonly Dictionary<string, RangeOrder> Orders = new()
    {
        ["title"] = RangeOrder.Title,
        ["verdict"] = RangeOrder.Verdict,
        ["newest"] = RangeOrder.Newest,
        ["height"] = RangeOrder.Height,
        ["time"] = RangeOrder.Time,
        ["match"] = RangeOrder.Match,
    };

    public string Words { get; init; } = "";
    public IReadOnlyList<HeightBand> Heights { get; init; } = [];

    /// <summary>Asked only where a process is.</summary>
    public IReadOnlyList<TimeBand> Times { get; init; } = [];

    /// <summary>Null stands for none.</summary>
    public IReadOnlyList<HardwareKind?> Needs { get; init; } = [];

    public IReadOnlyList<string> Licences { get; init; } = [];
    public IReadOnlyList<string> Tags { get; init; } = [];
    public IReadOnlySet<Verdict> Verdicts { get; init; } = new HashSet<Verdict>();

    /// <summary>Null = as it suits: by words where there are some, then by verdict for a printer, else by title.</summary>
    public RangeOrder? Order { get; init; }

    public int Page { get; init; } = 1;
    public int Size { get; init; } = UsualSize;

    /// <summary>How many of height, time, hardware, licence and tag are filtered by.</summary>
    /// <param name="times">False without a process: then times ask nothing.</param>
    public int Narrowing(bool times) => Heights.Count + (times ? Times.Count : 0) + Needs.Count + Licences.Count + Tags.Count;

    /// <exception cref="RuleBrokenException">A word is none of those known; the message lists them.</exception>
    public static RangeFilters Read(IQueryCollection query)
    {
        ArgumentNullException.ThrowIfNull(query);
        var words = query["q"].ToString().Trim();
        return new()
        {
            Words = words.Length <= MostWords ? words : words[..MostWords],
            Heights = [.. Values(query, "height").Select(ParseHeight).Distinct()],
            Times = [.. Values(query, "time").Select(ParseTime).Distinct()],
            Needs = [.. Values(query, "needs").Select(ParseNeed).Distinct()],
            Licences = [.. Values(query, "licence").Distinct(StringComparer.Ordinal)],
            Tags = [.. Values(query, "tag").Select(Model.Figures.Tags.Plain).Distinct(StringComparer.Ordinal)],
            Verdicts = Values(query, "verdict").Select(ParseVerdict).ToHashSet(),
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
            Heights = Heights,
            Times = Times,
            Needs = Needs,
            Licences = Licences,
            Tags = Tags,
            Printer = printer,
            Verdicts = Verdicts,
            Order = Order ?? UsualOrder(printer),
            Page = Page,
            Size = Size,
        };
    }

    /// <summary>The order without one asked for.</summary>
    public RangeOrder UsualOrder(Printer printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return Words.Length > 0 ? RangeOrder.Match : printer.IsUnknown ? RangeOrder.Title : RangeOrder.Verdict;
    }

    /// <summary>The address of the range with these filters.</summary>
    public string Path()
    {
        var parts = new List<string>();
        if (Words.Length > 0) parts.Add("q=" + Uri.EscapeDataString(Words));
        parts.AddRange(Heights.Select(h => "height=" + h.Code));
        parts.AddRange(Times.Select(t => "time=" + t.Code));
        parts.AddRange(Needs.Select(n => "needs=" + CodeOf(n)));
        parts.AddRange(Licences.Select(l => "licence=" + Uri.EscapeDataString(l)));
        parts.AddRange(Tags.Select(t => "tag=" + Uri.EscapeDataString(t)));
        parts.AddRange(Verdicts.Order().Select(v => "verdict=" + v.Code()));
        if (Order is { } order) parts.Add("sort=" + CodeOf(order));
        if (Page > 1) parts.Add(string.Create(CultureInfo.InvariantCulture, $"page={Page}"));
        if (Size != UsualSize) parts.Add(string.Create(CultureInfo.InvariantCulture, $"size={Size}"));
        return parts.Count == 0 ? "/" : "/?" + string.Join('&', parts);
    }

    /// <summary>The same without one filter, from the first page.</summary>
    public RangeFilters Without(RangeFilter filter) => filter switch
    {
        RangeFilter.Words => this with { Words = "", Order = Order == RangeOrder.Match ? null : Order, Page = 1 },
        RangeFilter.Height => this with { Heights = [], Page = 1 },
        RangeFilter.Time => this with { Times = [], Page = 1 },
        RangeFilter.Needs => this with { Needs = [], Page = 1 },
        RangeFilter.Licence => this with { Licences = [], Page = 1 },
        RangeFilter.Tag => this with { Tags = [], Page = 1 },
        _ => this with { Verdicts = new HashSet<Verdict>(), Page = 1 },
    };

    public static string CodeOf(RangeOrder order) => Orders.First(o => o.Value == order).Key;

    public static string CodeOf(HardwareKind? need) => need is { } kind ? Model.Words.Of(kind) : NoHardware;

    private static IEnumerable<string> Values(IQueryCollection query, string name) =>
        query[name].SelectMany(v => (v ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).Take(MostValues);

    private static HeightBand ParseHeight(string code) => HeightBand.TryParse(code, out var band)
        ? band
        : throw new RuleBrokenException("height-invalid", $"“{code}” is no span of heights. Write it in mm, such as 90-120, -60 or 200-.");

    private static TimeBand ParseTime(string code) => TimeBand.TryParse(code, out var band)
        ? band
        : throw new RuleBrokenException("time-invalid", $"“{code}” is no span of times. Write it in hours, such as 4-8, -2 or 32-.");

    private static HardwareKind? ParseNeed(string code) => code == NoHardware ? null : Model.Words.TryParse<HardwareKind>(code, out var kind)
        ? kind
        : throw new RuleBrokenException("needs-invalid", $"“{code}” is no kind of hardware. Ask for {NoHardware}, {string.Join(", ", Model.Words.All<HardwareKind>())}.");

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
