using System.Globalization;

namespace Catalogue.Geometry.Formats;

/// <summary>Decimal numbers in text files, always with a point, whatever the machine's culture.</summary>
internal static class DecimalNumber
{
    private static readonly double[] PowersOfTen =
    [
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
    ];

    /// <summary>The value of the whole word, correctly rounded; infinite when it is too large for a double. False when the word is not a number.</summary>
    /// <remarks>
    /// Up to 15 digits and a power of ten up to 22 need one exactly rounded operation (Clinger, "How to read floating
    /// point numbers accurately", PLDI 1990); the rest goes to the framework.
    /// </remarks>
    public static bool TryParse(ReadOnlySpan<byte> word, out double value)
    {
        var at = 0;
        var negative = false;
        if (word.Length > 0 && word[0] is (byte)'-' or (byte)'+') negative = word[at++] == (byte)'-';
        ulong digits = 0;
        var (significant, exponent, seen) = (0, 0, false);
        for (; at < word.Length && (uint)(word[at] - '0') <= 9; at++)
        {
            seen = true;
            if (digits == 0 && word[at] == '0') continue;
            if (++significant > 15) return Slow(word, out value);
            digits = (digits * 10) + (uint)(word[at] - '0');
        }

        if (at < word.Length && word[at] == (byte)'.')
        {
            for (at++; at < word.Length && (uint)(word[at] - '0') <= 9; at++)
            {
                seen = true;
                exponent--;
                if (digits == 0 && word[at] == '0') continue;
                if (++significant > 15) return Slow(word, out value);
                digits = (digits * 10) + (uint)(word[at] - '0');
            }
        }

        if (seen && at < word.Length && word[at] is (byte)'e' or (byte)'E')
        {
            at++;
            var down = false;
            if (at < word.Length && word[at] is (byte)'-' or (byte)'+') down = word[at++] == (byte)'-';
            var (written, first) = (0, at);
            for (; at < word.Length && (uint)(word[at] - '0') <= 9; at++)
            {
                written = (written * 10) + (word[at] - '0');
                if (written > 999) return Slow(word, out value);
            }

            if (at == first) seen = false;
            exponent += down ? -written : written;
        }

        if (!seen || at != word.Length)
        {
            value = 0;
            return false;
        }

        if (Math.Abs(exponent) > 22)
        {
            if (digits != 0) return Slow(word, out value);
            exponent = 0;
        }

        value = exponent < 0 ? digits / PowersOfTen[-exponent] : digits * PowersOfTen[exponent];
        if (negative) value = -value;
        return true;
    }

    private static bool Slow(ReadOnlySpan<byte> word, out double value) =>
        double.TryParse(word, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture, out value);
}
