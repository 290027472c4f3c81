using Catalogue.Geometry.Fit;

namespace Catalogue.Web.Features.Shared;

/// <summary>Writes lengths for readers: millimetres, and inches beside them for those who asked.</summary>
public readonly record struct Lengths(bool WithInches)
{
    private const double MillimetresPerInch = 25.4;

    /// <summary>Keeps a number and its unit on one line.</summary>
    private const string Nbsp = "\u00A0";

    /// <summary><c>12.5 mm</c> or <c>12.5 mm (0.49 in)</c>; at most one decimal of a millimetre.</summary>
    public string Of(double mm) => Written([mm], "");

    /// <summary><c>0.014 mm</c>, for deviations, 0 or more: three decimals of a millimetre, two from 1 mm on, four of an inch beside them; what is less is said to be.</summary>
    public string Fine(double mm)
    {
        const double Least = 0.001;
        if (mm is > 0 and < Least) return T($"under\u00A0{Least}\u00A0mm");
        var text = mm.ToString(mm < 1 ? "0.###" : "0.##", Language.Current.Numbers) + Nbsp + "mm";
        return WithInches ? $"{text} ({(mm / MillimetresPerInch).ToString("0.0000", Language.Current.Numbers)}{Nbsp}in)" : text;
    }

    /// <summary><c>64 × 114 × 152 mm</c>, for the lengths of a box or a plate.</summary>
    public string Box(params ReadOnlySpan<double> mm) => Written(mm, "");

    /// <summary><c>64 × 114 × 152 mm</c>, or <c>Ø 200 × 300 mm</c> for a round plate.</summary>
    public string Of(BuildVolume volume) => volume.IsRound
        ? Written([volume.Width, volume.Height], "Ø" + Nbsp)
        : Written([volume.Width, volume.Depth, volume.Height], "");

    private string Written(ReadOnlySpan<double> mm, string before)
    {
        var text = before + Joined(mm, static length => length.ToString("0.#;−0.#;0", Language.Current.Numbers)) + Nbsp + "mm";
        return WithInches ? $"{text} ({before}{Joined(mm, Inches)}{Nbsp}in)" : text;
    }

    /// <summary>Two decimals, as fine as a tenth of a millimetre is worth; three below half an inch, where rods and holes are.</summary>
    private static string Inches(double mm) =>
        (mm / MillimetresPerInch).ToString(Math.Abs(mm) < MillimetresPerInch / 2 ? "0.000" : "0.00", Language.Current.Numbers);

    private static string Joined(ReadOnlySpan<double> mm, Func<double, string> written)
    {
        var parts = new string[mm.Length];
        for (var i = 0; i < parts.Length; i++) parts[i] = written(mm[i]);
        return string.Join(Nbsp + "×" + Nbsp, parts);
    }
}
