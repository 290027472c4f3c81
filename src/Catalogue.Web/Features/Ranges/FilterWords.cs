using Catalogue.Data.Ranges;
using Catalogue.Model.Figures;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Ranges;

/// <summary>One thing that the range is filtered by, and the range without it.</summary>
internal sealed record FilterChip(string Words, RangeFilters Without);

/// <summary>What one filter does, for when nothing is found.</summary>
internal sealed record FilterEffect(string Words, FilterShare Share, RangeFilters Without);

/// <summary>The filters of the range in words for people.</summary>
internal static class FilterWords
{
    public static string Of(HeightBand band, Lengths lengths) => (band.FromMm > 0, double.IsFinite(band.ToMm)) switch
    {
        (false, _) => $"under {lengths.Of(band.ToMm)}",
        (_, false) => $"{lengths.Of(band.FromMm)} and more",
        _ => $"{lengths.Of(band.FromMm)} to under {lengths.Of(band.ToMm)}",
    };

    public static string Of(HardwareKind? need) => need switch
    {
        null => "none at all",
        HardwareKind.Rod => "rods",
        HardwareKind.Screw => "screws",
        HardwareKind.Magnet => "magnets",
        HardwareKind.Spring => "springs",
        HardwareKind.Elastic => "elastic",
        HardwareKind.Motor => "motors",
        HardwareKind.Light => "lights",
        HardwareKind.Wheel => "wheels",
        HardwareKind.Adhesive => "adhesive",
        HardwareKind.Paint => "paint",
        HardwareKind.Tool => "tools",
        _ => "other things",
    };

    /// <summary>Every value that is filtered by, each with the range without it.</summary>
    public static IReadOnlyList<FilterChip> Chips(RangeFilters filters, bool verdicts, Lengths lengths)
    {
        var chips = new List<FilterChip>();
        if (filters.Words.Length > 0) chips.Add(new($"“{filters.Words}”", filters.Without(RangeFilter.Words)));
        chips.AddRange(filters.Heights.Select(h => new FilterChip($"height {Of(h, lengths)}", filters with { Heights = [.. filters.Heights.Where(o => o != h)], Page = 1 })));
        chips.AddRange(filters.Needs.Select(n => new FilterChip($"hardware: {Of(n)}", filters with { Needs = [.. filters.Needs.Where(o => o != n)], Page = 1 })));
        chips.AddRange(filters.Licences.Select(l => new FilterChip($"licence {l}", filters with { Licences = [.. filters.Licences.Where(o => o != l)], Page = 1 })));
        if (verdicts) chips.AddRange(filters.Verdicts.Order().Select(v => new FilterChip(v.Words(), filters with { Verdicts = filters.Verdicts.Where(o => o != v).ToHashSet(), Page = 1 })));
        return chips;
    }

    public static string Of(RangeFilter filter, RangeFilters filters, Lengths lengths) => filter switch
    {
        RangeFilter.Words => $"“{filters.Words}”",
        RangeFilter.Height => "Height " + Listed(filters.Heights.Select(h => Of(h, lengths))),
        RangeFilter.Needs => "Hardware: " + Listed(filters.Needs.Select(Of)),
        RangeFilter.Licence => "Licence " + Listed(filters.Licences),
        _ => "Verdict: " + Listed(filters.Verdicts.Order().Select(v => v.Words())),
    };

    /// <summary>“No figure has “ferrymna” just as written; “ferryman” was taken for it.”</summary>
    public static string Of(IReadOnlyList<WordTaken> taken) =>
        "No figure has these words just as written. Taken instead: " + string.Join("; ", taken.Select(t => $"for “{t.Word}” {Listed(t.For.Select(w => $"“{w}”"))}")) + ".";

    private static string Listed(IEnumerable<string> values) => string.Join(" or ", values);
}
