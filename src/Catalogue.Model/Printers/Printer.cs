using Catalogue.Geometry.Fit;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Printers;

/// <summary>What a visitor prints on: a process and the room there is. Lives in the visitor's browser and in every link.</summary>
/// <param name="Process">A process code such as <c>VPP-rigid</c>; null = not said.</param>
/// <param name="Volume">The build volume with its margin; null = not said.</param>
public sealed record Printer(string? Process, BuildVolume? Volume)
{
    public static Printer Unknown { get; } = new(null, null);

    /// <summary>The largest margin that makes sense to keep free on every side, in mm.</summary>
    public const double LargestMarginMm = 50;

    /// <summary>What the visitor said of how their printer works; nothing by default.</summary>
    public PrinterPace Pace { get; init; } = PrinterPace.Usual;

    public bool IsUnknown => Process is null && Volume is null;

    /// <summary>The same printer with another process; how it works is kept where both are of one category, such as two resins in one vat.</summary>
    public Printer On(string process) => this with { Process = process, Pace = PaceOn(process) };

    /// <summary>How it works on a process of its own category; nothing is known of another.</summary>
    public PrinterPace PaceOn(string process) =>
        Process is { } own && ProcessCode.Category(own) == ProcessCode.Category(process) ? Pace : PrinterPace.Usual;

    /// <summary>Reads the words of a link: <c>process</c>, and <c>volume</c> (W×D×H) or <c>round</c> (Ø×H), and <c>margin</c> in mm. Empty words count as not said.</summary>
    /// <exception cref="RuleBrokenException">A word cannot be understood; the message shows how to write it.</exception>
    public static Printer Parse(string? process, string? volume, string? round, double? margin)
    {
        if (!string.IsNullOrWhiteSpace(process) && !ProcessCode.IsValid(process))
            throw new RuleBrokenException("process-invalid", $"“{process}” is not a process code like “VPP-rigid”.");
        if (margin is { } m && !(m is >= 0 and <= LargestMarginMm))
            throw new RuleBrokenException("margin-invalid", $"A margin is 0 to {LargestMarginMm} mm, kept free on every side.");
        return new(string.IsNullOrWhiteSpace(process) ? null : process, Room(volume, round)?.WithMargin(margin ?? 0));
    }

    private static BuildVolume? Room(string? volume, string? round)
    {
        if (!string.IsNullOrWhiteSpace(volume))
        {
            return BuildVolume.TryParse(volume, out var box) && !box.IsRound
                ? box
                : throw new RuleBrokenException("volume-invalid", $"“{volume}” is not a build volume. Write width x depth x height in millimetres, for example 64x114x152.");
        }

        if (string.IsNullOrWhiteSpace(round)) return null;
        return BuildVolume.TryParse(round, out var plate) && plate.IsRound
            ? plate
            : throw new RuleBrokenException("volume-invalid", $"“{round}” is not a round build volume. Write diameter x height in millimetres, for example 200x300.");
    }
}
