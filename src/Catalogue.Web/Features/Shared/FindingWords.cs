using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>The numbers of a finding in words: what was measured, what the limit is, where that comes from.</summary>
internal static class FindingWords
{
    public static string Numbers(Finding finding, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var said = new List<string>(3);
        if (finding.Measured is { } measured) said.Add(T($"measured {Amount(measured, finding.Unit, lengths)}"));
        if (finding.Limit is { } limit) said.Add(T($"limit {Amount(limit, finding.Unit, lengths)}"));
        if (finding.Source is { IsEmpty: false } source) said.Add(T($"by {source}"));
        return string.Join("; ", said);
    }

    private static string Amount(double value, string? unit, Lengths lengths) => unit switch
    {
        "mm" => lengths.Of(value),
        null or "" => value.ToString("0.##", Language.Current.Numbers),
        _ => value.ToString("0.##", Language.Current.Numbers) + "\u00A0" + Known(unit),
    };
}
