using System.Globalization;
using Catalogue.Geometry.Fit;

namespace Catalogue.Model.Verdicts;

/// <summary>From a fit answer to a finding.</summary>
public static class FitFindings
{
    /// <summary>Spare below this is told to the reader, because printers and their margins differ by as much (common practice).</summary>
    public const double TightMm = 0.5;

    public static Finding? Of(FitAnswer answer, BuildVolume volume)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (!answer.Fits)
        {
            return Rules.FitTooLarge.Found(Severity.Stop, answer.IsExact
                ? Text($"{-answer.SpareMm:0.0} mm too long in every orientation for {Words(volume)}.")
                : Text($"About {-answer.SpareMm:0} mm too long in every orientation for {Words(volume)}.")) with
            {
                Measured = Math.Round(answer.SpareMm, 3),
                Limit = 0,
                Unit = "mm",
                Source = "the printer's build volume",
            };
        }

        if (answer.SpareMm < TightMm)
        {
            return Rules.FitTight.Found(Severity.Note, Text($"Fits {Words(volume)} with only {answer.SpareMm:0.0} mm to spare{(answer.NeedsTurning ? ", and only when turned out of its file’s axes" : "")}; check your printer's real margins.")) with
            {
                Measured = Math.Round(answer.SpareMm, 3),
                Limit = TightMm,
                Unit = "mm",
                Source = "common practice",
            };
        }

        return answer.NeedsTurning
            ? Rules.FitTurn.Found(Severity.Note, Text($"Fits {Words(volume)} only when turned out of its file’s axes: then {(answer.IsExact ? "" : "at least ")}{answer.SpareMm:0.0} mm to spare.")) with
            {
                Measured = Math.Round(answer.SpareMm, 3),
                Limit = 0,
                Unit = "mm",
                Source = "the printer's build volume",
            }
            : null;
    }

    /// <summary>“64 × 114 × 152 mm”, “Ø 200 × 300 mm”, with the margin when there is one.</summary>
    public static string Words(BuildVolume volume) =>
        (volume.IsRound ? Text($"Ø {volume.Width} × {volume.Height} mm") : Text($"{volume.Width} × {volume.Depth} × {volume.Height} mm"))
        + (volume.MarginMm > 0 ? Text($" less {volume.MarginMm} mm on every side") : "");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
