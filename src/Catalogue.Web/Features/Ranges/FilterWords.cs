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
        (false, _) => T($"under {lengths.Of(band.ToMm)}"),
        (_, false) => T($"{lengths.Of(band.FromMm)} and more"),
        _ => T($"{lengths.Of(band.FromMm)} to under {lengths.Of(band.ToMm)}"),
    };

    public static string Of(TimeBand band) => (band.FromHours > 0, double.IsFinite(band.ToHours)) switch
    {
        (false, _) => T($"under {band.ToHours:0.##}\u00A0h"),
        (_, false) => T($"{band.FromHours:0.##}\u00A0h and more"),
        _ => T($"{band.FromHours:0.##}\u00A0h to under {band.ToHours:0.##}\u00A0h"),
    };

    public static string Of(HardwareKind? need) => need switch
    {
        null => T($"none at all"),
        HardwareKind.Rod => T($"rods"),
        HardwareKind.Screw => T($"screws"),
        HardwareKind.Magnet => T($"magnets"),
        HardwareKind.Spring => T($"springs"),
        HardwareKind.Elastic => T($"elastic"),
        HardwareKind.Motor => T($"motors"),
        HardwareKind.Light => T($"lights"),
        HardwareKind.Wheel => T($"wheels"),
        HardwareKind.Adhesive => T($"adhesive"),
        HardwareKind.Paint => T($"paint"),
        HardwareKind.Tool => T($"tools"),
        _ => T($"other things"),
    };

    /// <summary>Every value that is filtered by, each with the range without it.</summary>
    public static IReadOnlyList<FilterChip> Chips(RangeFilters filters, bool verdicts, bool times, Lengths lengths)
    {
        var chips = new List<FilterChip>();
        if (filters.Words.Length > 0) chips.Add(new(Language.Current.Quoted(filters.Words), filters.Without(RangeFilter.Words)));
        chips.AddRange(filters.Heights.Select(h => new FilterChip(T($"height {Of(h, lengths)}"), filters with { Heights = [.. filters.Heights.Where(o => o != h)], Page = 1 })));
        if (times) chips.AddRange(filters.Times.Select(t => new FilterChip(T($"printing {Of(t)}"), filters with { Times = [.. filters.Times.Where(o => o != t)], Page = 1 })));
        chips.AddRange(filters.Needs.Select(n => new FilterChip(T($"hardware: {Of(n)}"), filters with { Needs = [.. filters.Needs.Where(o => o != n)], Page = 1 })));
        chips.AddRange(filters.Licences.Select(l => new FilterChip(T($"licence {l}"), filters with { Licences = [.. filters.Licences.Where(o => o != l)], Page = 1 })));
        chips.AddRange(filters.Tags.Select(t => new FilterChip(T($"tag {t}"), filters with { Tags = [.. filters.Tags.Where(o => o != t)], Page = 1 })));
        if (verdicts) chips.AddRange(filters.Verdicts.Order().Select(v => new FilterChip(v.Words(), filters with { Verdicts = filters.Verdicts.Where(o => o != v).ToHashSet(), Page = 1 })));
        return chips;
    }

    public static string Of(RangeFilter filter, RangeFilters filters, Lengths lengths) => filter switch
    {
        RangeFilter.Words => Language.Current.Quoted(filters.Words),
        RangeFilter.Height => Wording.Begun(T($"height {Wording.Or(filters.Heights.Select(h => Of(h, lengths)))}")),
        RangeFilter.Time => Wording.Begun(T($"printing {Wording.Or(filters.Times.Select(Of))}")),
        RangeFilter.Needs => Wording.Begun(T($"hardware: {Wording.Or(filters.Needs.Select(Of))}")),
        RangeFilter.Licence => Wording.Begun(T($"licence {Wording.Or(filters.Licences)}")),
        RangeFilter.Tag => Wording.Begun(T($"tag {Wording.Or(filters.Tags)}")),
        _ => T($"Verdict: {Wording.Or(filters.Verdicts.Order().Select(v => v.Words()))}"),
    };

    /// <summary>“No figure has “ferrymna” just as written; “ferryman” was taken for it.”</summary>
    public static string Of(IReadOnlyList<WordTaken> taken)
    {
        var instead = taken.Select(t => T($"for “{t.Word}” {Wording.Or(t.For.Select(Language.Current.Quoted))}"));
        return T($"No figure has these words just as written. Taken instead: {string.Join("; ", instead)}.");
    }

    public static string Of(RangeOrder order) => order switch
    {
        RangeOrder.Match => T($"best answer first"),
        RangeOrder.Verdict => T($"what suits first"),
        RangeOrder.Newest => T($"newest first"),
        RangeOrder.Height => T($"smallest first"),
        RangeOrder.Time => T($"quickest print first"),
        _ => T($"by title"),
    };
}
