using System.Globalization;

namespace Catalogue.Model.Ranges;

/// <summary>Heights from one to below another, in mm: <c>90-120</c>, <c>-60</c> below 60, <c>200-</c> from 200 on.</summary>
public readonly record struct HeightBand(double FromMm, double ToMm)
{
    /// <summary>What readers are offered: a hand is some 180 mm, a finger 70.</summary>
    public static readonly IReadOnlyList<HeightBand> Usual = [new(0, 60), new(60, 90), new(90, 120), new(120, 150), new(150, 200), new(200, double.PositiveInfinity)];

    public bool Holds(double heightMm) => heightMm >= FromMm && heightMm < ToMm;

    /// <summary>As it stands in an address.</summary>
    public string Code => string.Create(CultureInfo.InvariantCulture, $"{(FromMm > 0 ? FromMm : "")}-{(double.IsFinite(ToMm) ? ToMm : "")}");

    /// <summary>Reads <see cref="Code"/>.</summary>
    public static bool TryParse(string? code, out HeightBand band)
    {
        band = default;
        if (code is null || code.IndexOf('-', StringComparison.Ordinal) is var at && at < 0) return false;
        if (!Millimetres(code[..at], 0, out var from) || !Millimetres(code[(at + 1)..], double.PositiveInfinity, out var to) || from >= to || code.Length == 1) return false;
        band = new(from, to);
        return true;
    }

    private static bool Millimetres(string text, double otherwise, out double mm)
    {
        mm = otherwise;
        return text.Length == 0 || (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out mm) && double.IsFinite(mm));
    }
}
