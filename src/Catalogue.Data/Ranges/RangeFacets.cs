using Catalogue.Model.Figures;
using Catalogue.Model.Ranges;

namespace Catalogue.Data.Ranges;

/// <summary>How many figures have a value, of those that all other filters leave.</summary>
public readonly record struct FacetCount<T>(T Value, int Figures);

/// <summary>What figures can be narrowed down by, with counts. Each counts without its own filter, so that it tells what choosing another value brings.</summary>
/// <param name="Heights">The usual bands that have any, and those asked for.</param>
/// <param name="Times">On the printer's process, as the files lie; the usual bands that have any, and those asked for. None without a process.</param>
/// <param name="Needs">Null stands for no hardware at all. A figure that takes several kinds counts for each.</param>
/// <param name="Licences">The most frequent first.</param>
/// <param name="Tags">The most frequent first. A figure counts for each of its own.</param>
/// <param name="Processes">Per process what surely suits on it, with or without care, in the printer's volume where there is one.</param>
public sealed record RangeFacets(
    IReadOnlyList<FacetCount<HeightBand>> Heights, IReadOnlyList<FacetCount<TimeBand>> Times, IReadOnlyList<FacetCount<HardwareKind?>> Needs,
    IReadOnlyList<FacetCount<string>> Licences, IReadOnlyList<FacetCount<string>> Tags, IReadOnlyList<FacetCount<string>> Processes)
{
    public static readonly RangeFacets None = new([], [], [], [], [], []);
}

/// <summary>One of the filters of a question.</summary>
public enum RangeFilter
{
    Words,
    Height,
    Time,
    Needs,
    Licence,
    Tag,
    Verdict,
}

/// <summary>What one filter does to a question.</summary>
/// <param name="Alone">How many figures of the range it would leave by itself.</param>
/// <param name="Without">How many would be found without it.</param>
public readonly record struct FilterShare(RangeFilter Filter, int Alone, int Without);
