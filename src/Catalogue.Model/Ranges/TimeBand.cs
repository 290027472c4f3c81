namespace Catalogue.Model.Ranges;

/// <summary>Hours of printing from one to below another: <c>4-8</c>, <c>-2</c> below two, <c>32-</c> from 32 on.</summary>
public readonly record struct TimeBand(double FromHours, double ToHours)
{
    /// <summary>What readers are offered: an evening, a day, longer.</summary>
    public static readonly IReadOnlyList<TimeBand> Usual = [new(0, 2), new(2, 4), new(4, 8), new(8, 16), new(16, 32), new(32, double.PositiveInfinity)];

    /// <summary>A time that is not known is in none.</summary>
    public bool Holds(double hours) => hours >= FromHours && hours < ToHours;

    /// <summary>As it stands in an address.</summary>
    public string Code => SpanCode.Of(FromHours, ToHours);

    /// <summary>Reads <see cref="Code"/>.</summary>
    public static bool TryParse(string? code, out TimeBand band)
    {
        var isSpan = SpanCode.TryParse(code, out var from, out var to);
        band = isSpan ? new(from, to) : default;
        return isSpan;
    }
}
