using Catalogue.Model.Costs;

namespace Catalogue.Web.Features.Shared;

/// <summary>Writes money, volumes, masses and durations of estimates for readers, no finer than they are known; inches' relatives beside them for those who asked.</summary>
/// <param name="Currency">A code of ISO 4217.</param>
public readonly record struct Amounts(string Currency, bool WithInches)
{
    private const string Nbsp = "\u00A0";
    private const double Mm3PerCubicInch = 25.4 * 25.4 * 25.4;
    private const double GramsPerOunce = 28.349523125;

    /// <summary><c>1.23 EUR</c>.</summary>
    public string Money(double amount) => Plain(amount) + Nbsp + Currency;

    /// <summary><c>1.23 EUR (0.86–1.60)</c>.</summary>
    public string Money(Estimate estimate) => $"{Money(estimate.Value)} ({Plain(estimate.Low)}–{Plain(estimate.High)})";

    /// <summary><c>41 cm³</c>, <c>41 cm³ (2.5 in³)</c>.</summary>
    public string Volume(double mm3)
    {
        var text = Digits(mm3 / 1000) + Nbsp + "cm³";
        return WithInches ? $"{text} ({(mm3 / Mm3PerCubicInch).ToString("0.##", Language.Current.Numbers)}{Nbsp}in³)" : text;
    }

    /// <summary><c>47 g</c>, <c>47 g (1.66 oz)</c>.</summary>
    public string Mass(double grams)
    {
        var text = Digits(grams) + Nbsp + "g";
        return WithInches ? $"{text} ({(grams / GramsPerOunce).ToString("0.##", Language.Current.Numbers)}{Nbsp}oz)" : text;
    }

    /// <summary><c>42 min</c>, <c>3 h 10 min</c>: to a minute below an hour and a half, then to ten, to half an hour from ten hours on.</summary>
    public static string Duration(double seconds)
    {
        var minutes = seconds / 60;
        if (minutes < 1) return T($"under 1\u00A0min");
        if (minutes < 90) return Math.Round(minutes).ToString("0", Language.Current.Numbers) + Nbsp + "min";
        var step = minutes < 600 ? 10 : 30;
        var rounded = (int)Math.Round(minutes / step) * step;
        var hours = (rounded / 60).ToString(Language.Current.Numbers) + Nbsp + "h";
        return rounded % 60 == 0 ? hours : string.Create(Language.Current.Numbers, $"{hours} {rounded % 60}{Nbsp}min");
    }

    /// <summary><c>3 h 10 min (2 h to 4 h)</c>.</summary>
    public static string Duration(Estimate estimate) => T($"{Duration(estimate.Value)} ({Duration(estimate.Low)} to {Duration(estimate.High)})");

    private static string Plain(double amount) => amount.ToString(amount < 100 ? "0.00" : "0", Language.Current.Numbers);

    private static string Digits(double value) => value.ToString(value < 10 ? "0.0#" : value < 100 ? "0.#" : "0", Language.Current.Numbers);
}
