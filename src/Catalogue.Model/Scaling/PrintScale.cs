using System.Globalization;

namespace Catalogue.Model.Scaling;

/// <summary>At how many per cent of its drawn size something is printed.</summary>
public readonly record struct PrintScale
{
    public const double LeastPercent = 25;
    public const double MostPercent = 400;

    private readonly double _percent;

    private PrintScale(double percent) => _percent = percent;

    /// <summary>As it was drawn.</summary>
    public static PrintScale Drawn { get; } = new(100);

    public double Percent => _percent == 0 ? 100 : _percent;

    /// <summary>What every length is multiplied by.</summary>
    public double Factor => Percent / 100;

    /// <exception cref="RuleBrokenException"><c>percent-invalid</c>.</exception>
    public static PrintScale Of(double percent) => percent is >= LeastPercent and <= MostPercent
        ? new(percent)
        : throw new RuleBrokenException("percent-invalid", $"A figure is rescaled to {LeastPercent} to {MostPercent} per cent of its drawn size, not to {percent:0.##}. Choose a number in between; 100 is as it was drawn.");

    /// <summary>Reads a number with a point or a comma; a per cent sign may stand behind it.</summary>
    /// <exception cref="RuleBrokenException"><c>percent-invalid</c>.</exception>
    public static PrintScale Parse(string? text)
    {
        var number = (text ?? "").Trim().TrimEnd('%').Trim().Replace(',', '.');
        return double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var percent)
            ? Of(percent)
            : throw new RuleBrokenException("percent-invalid", $"“{text}” is not a percentage. Write a number from {LeastPercent:0} to {MostPercent:0}, such as 80 or 112.5.");
    }

    /// <summary>N of the scale 1:N that a figure drawn at 1:<paramref name="denominator"/> has then: 1:12 at 80 % is 1:15.</summary>
    public double DenominatorOf(double denominator) => denominator / Factor;
}
