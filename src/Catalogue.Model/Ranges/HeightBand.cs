namespace Catalogue.Model.Ranges;

/// <summary>Heights from one to below another, in mm: <c>90-120</c>, <c>-60</c> below 60, <c>200-</c> from 200 on.</summary>
public readonly record struct HeightBand(double FromMm, double ToMm)
{
    /// <summary>What readers are offered: a hand is some 180 mm, a finger 70.</summary>
    public static readonly IReadOnlyList<HeightBand> Usual = [new(0, 60), new(60, 90), new(90, 120), new(120, 150), new(150, 200), new(200, double.PositiveInfinity)];

    public bool Holds(double heightMm) => heightMm >= FromMm && heightMm < ToMm;

    /// <summary>As it stands in an address.</summary>
    public string Code => SpanCode.Of(FromMm, ToMm);

    /// <summary>Reads <see cref="Code"/>.</summary>
    public static bool TryParse(string? code, out HeightBand band)
    {
        var isSpan = SpanCode.TryParse(code, out var from, out var to);
        band = isSpan ? new(from, to) : default;
        return isSpan;
    }
}
