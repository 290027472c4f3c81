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
                ? S($"{-answer.SpareMm:0.0} mm too long in every orientation for {Words(volume)}.")
                : $"About {-answer.SpareMm:0} mm too long in every orientation for {Words(volume)}.") with
            {
                Measured = Math.Round(answer.SpareMm, 3),
                Limit = 0,
                Unit = "mm",
                Source = Rules.FitTooLarge.Origin,
            };
        }

        if (answer.SpareMm < TightMm)
        {
            return Rules.FitTight.Found(Severity.Note, answer.NeedsTurning
                ? S($"Fits {Words(volume)} with only {answer.SpareMm:0.0} mm to spare, and only when turned out of its file’s axes; check your printer's real margins.")
                : $"Fits {Words(volume)} with only {answer.SpareMm:0.0} mm to spare; check your printer's real margins.") with
            {
                Measured = Math.Round(answer.SpareMm, 3),
                Limit = TightMm,
                Unit = "mm",
                Source = Rules.FitTight.Origin,
            };
        }

        return answer.NeedsTurning
            ? Rules.FitTurn.Found(Severity.Note, answer.IsExact
                ? S($"Fits {Words(volume)} only when turned out of its file’s axes: then {answer.SpareMm:0.0} mm to spare.")
                : $"Fits {Words(volume)} only when turned out of its file’s axes: then at least {answer.SpareMm:0.0} mm to spare.") with
            {
                Measured = Math.Round(answer.SpareMm, 3),
                Limit = 0,
                Unit = "mm",
                Source = Rules.FitTurn.Origin,
            }
            : null;
    }

    /// <summary>“64 × 114 × 152 mm”, “Ø 200 × 300 mm”, with the margin when there is one.</summary>
    public static Sentence Words(BuildVolume volume) => (volume.IsRound, volume.MarginMm > 0) switch
    {
        (true, false) => S($"Ø {volume.Width} × {volume.Height} mm"),
        (true, true) => $"Ø {volume.Width} × {volume.Height} mm less {volume.MarginMm} mm on every side",
        (false, false) => $"{volume.Width} × {volume.Depth} × {volume.Height} mm",
        (false, true) => $"{volume.Width} × {volume.Depth} × {volume.Height} mm less {volume.MarginMm} mm on every side",
    };
}
