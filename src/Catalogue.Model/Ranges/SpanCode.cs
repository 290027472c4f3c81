using System.Globalization;

namespace Catalogue.Model.Ranges;

/// <summary>Spans of a number as they stand in an address: <c>90-120</c> from one to below the other, <c>-60</c> below, <c>200-</c> from there on.</summary>
internal static class SpanCode
{
    public static string Of(double from, double to) => string.Create(CultureInfo.InvariantCulture, $"{(from > 0 ? from : "")}-{(double.IsFinite(to) ? to : "")}");

    /// <summary>Reads <see cref="Of"/>.</summary>
    public static bool TryParse(string? code, out double from, out double to)
    {
        (from, to) = (0, 0);
        return code is { Length: > 1 } && code.IndexOf('-', StringComparison.Ordinal) is >= 0 and var at
            && Number(code[..at], 0, out from) && Number(code[(at + 1)..], double.PositiveInfinity, out to) && from < to;
    }

    private static bool Number(string text, double otherwise, out double number)
    {
        number = otherwise;
        return text.Length == 0 || (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number) && double.IsFinite(number));
    }
}
