using System.Globalization;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Model.Scaling;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Scaling;

/// <summary>Scales and rods in words for people.</summary>
internal static class ScaleWords
{
    /// <summary>Scales that figures are built in (common practice), to jump to.</summary>
    private static readonly double[] Usual = [6, 9, 10, 12, 16, 18, 24, 32];

    /// <summary>As in addresses and fields.</summary>
    public static string Number(double percent) => percent.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>“83.3 %”, to a tenth.</summary>
    public static string Percent(double percent) => percent.ToString("0.#", Language.Current.Numbers) + "\u00A0%";

    /// <summary>“1:15”.</summary>
    public static string Ratio(double denominator) => "1:" + denominator.ToString("0.##", Language.Current.Numbers);

    /// <summary>Percentages to try: usual scales where the figure says its own, else round numbers.</summary>
    public static IEnumerable<(string Name, double Percent)> ToTry(Figure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return figure.ScaleDenominator is { } drawn
            ? Usual.Select(u => (Ratio(u), Math.Round(100 * drawn / u, 2))).Where(t => t.Item2 is >= PrintScale.LeastPercent and <= PrintScale.MostPercent and not 100)
            : new double[] { 50, 75, 90, 110, 125, 150, 200 }.Select(p => (Percent(p), p));
    }

    /// <summary>What to know of a rod at a scale.</summary>
    public static Sentence Of(RescaledRod rod, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(rod);
        if (rod.IsExact) return $"Take {lengths.Fine(rod.RodMm)} rod, which shops keep: exactly what the scale makes of it.";
        Sentence made = $"The scale makes {lengths.Fine(Math.Round(rod.IdealMm, 2))} of it, which shops do not keep.";
        Sentence take = rod.Passage is { } passage
            ? $"Take {lengths.Fine(rod.RodMm)} rod: {Hole(passage)}."
            : S($"Take {lengths.Fine(rod.RodMm)} rod, the nearest, and try it in the hole before you cut.");
        return made + take + Matches(rod);
    }

    /// <summary>“a hole of 1.3 mm − 0.3…0.1 = 1…1.2 mm as printed, so a 1.2 mm rod may need …”.</summary>
    public static Sentence Hole(RodPassage passage)
    {
        ArgumentNullException.ThrowIfNull(passage);
        return passage.WallHolds || passage.WallAfterMm is not { } left
            ? S($"a hole of {passage.Arithmetic} as printed, so {passage.Advice}")
            : $"a hole of {passage.Arithmetic} as printed, so {passage.Advice}; only {left:0.0#} mm of wall stay beside it";
    }

    private static Sentence Matches(RescaledRod rod) => new[] { rod.Below, rod.Above }.OfType<RodMatch>().Distinct().Select(Match).ToList() switch
    {
        [var one] => $"A stock rod fits as drawn at {one}.",
        [var below, var above] => $"A stock rod fits as drawn at {below} and at {above}.",
        _ => Sentence.Empty,
    };

    private static string Match(RodMatch match) => $"{Percent(match.Percent)} ({match.RodMm.ToString("0.##", Language.Current.Numbers)} mm)";
}
