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

    public static string Number(double percent) => percent.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>“83.3 %”, to a tenth.</summary>
    public static string Percent(double percent) => percent.ToString("0.#", CultureInfo.InvariantCulture) + "\u00A0%";

    /// <summary>“1:15”.</summary>
    public static string Ratio(double denominator) => string.Create(CultureInfo.InvariantCulture, $"1:{denominator:0.##}");

    /// <summary>Percentages to try: usual scales where the figure says its own, else round numbers.</summary>
    public static IEnumerable<(string Name, double Percent)> ToTry(Figure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return figure.ScaleDenominator is { } drawn
            ? Usual.Select(u => (Ratio(u), Math.Round(100 * drawn / u, 2))).Where(t => t.Item2 is >= PrintScale.LeastPercent and <= PrintScale.MostPercent and not 100)
            : new double[] { 50, 75, 90, 110, 125, 150, 200 }.Select(p => (Percent(p), p));
    }

    /// <summary>What to know of a rod at a scale.</summary>
    public static string Of(RescaledRod rod, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(rod);
        var text = rod.IsExact
            ? $"Take {lengths.Fine(rod.RodMm)} rod, which shops keep: exactly what the scale makes of it."
            : $"The scale makes {lengths.Fine(Math.Round(rod.IdealMm, 2))} of it, which shops do not keep. Take {lengths.Fine(rod.RodMm)} rod"
                + (rod.Passage is { } passage ? $": {Hole(passage)}." : ", the nearest, and try it in the hole before you cut.");
        return text + Matches(rod);
    }

    /// <summary>“1.3 mm − 0.3…0.1 = 1…1.2 mm, so a 1.2 mm rod may need …”.</summary>
    public static string Hole(RodPassage passage)
    {
        ArgumentNullException.ThrowIfNull(passage);
        var wall = passage.WallHolds || passage.WallAfterMm is not { } left
            ? ""
            : string.Create(CultureInfo.InvariantCulture, $"; only {left:0.0#} mm of wall stay beside it");
        return $"a hole of {passage.Arithmetic} as printed, so {passage.Advice}{wall}";
    }

    private static string Matches(RescaledRod rod)
    {
        if (rod.IsExact) return "";
        var near = new[] { rod.Below, rod.Above }.OfType<RodMatch>().Distinct()
            .Select(m => string.Create(CultureInfo.InvariantCulture, $"{Percent(m.Percent)} ({m.RodMm:0.##} mm)")).ToList();
        return near.Count == 0 ? "" : $" A stock rod fits as drawn at {string.Join(" and at ", near)}.";
    }
}
