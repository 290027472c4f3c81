using Catalogue.Geometry.Fit;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Printers;

/// <summary>A usual size of printer to begin from, by size class and never by make, for visitors who do not have the numbers at hand. The host's own.</summary>
public sealed class PrinterPreset
{
    public const int Most = 40;

    private PrinterPreset()
    {
    }

    public PrinterPreset(PresetText text, int position)
    {
        Id = Guid.CreateVersion7();
        Position = position;
        Describe(text);
    }

    public Guid Id { get; private set; }
    public int Position { get; private set; }

    /// <summary>“Small resin”.</summary>
    public string Name { get; private set; } = "";

    /// <summary>What that is like, in words: “a hand's breadth”.</summary>
    public string Hint { get; private set; } = "";

    /// <summary>The process it is usually used for; empty = whichever.</summary>
    public string Process { get; private set; } = "";

    public bool IsRound { get; private set; }

    /// <summary>Of a round plate its diameter.</summary>
    public double WidthMm { get; private set; }

    /// <summary>Of a round plate its diameter too.</summary>
    public double DepthMm { get; private set; }

    public double HeightMm { get; private set; }
    public double MarginMm { get; private set; }

    public BuildVolume Volume => (IsRound ? BuildVolume.Round(WidthMm, HeightMm) : BuildVolume.Rectangular(WidthMm, DepthMm, HeightMm)).WithMargin(MarginMm);

    public Printer Printer => new(Process.Length > 0 ? Process : null, Volume);

    /// <exception cref="RuleBrokenException"><c>volume-invalid</c>, <c>margin-invalid</c>, <c>process-invalid</c>, <c>text-missing</c>, <c>text-too-long</c>.</exception>
    public void Describe(PresetText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!BuildVolume.TryParse(text.Volume, out var volume))
            throw new RuleBrokenException("volume-invalid", $"“{text.Volume}” is not a build volume. Write width x depth x height in millimetres, such as 64x114x152, or diameter x height of a round plate. Nothing was changed.");
        if (text.MarginMm is not (>= 0 and <= Printer.LargestMarginMm) || 2 * text.MarginMm >= Math.Min(volume.Width, Math.Min(volume.Depth, volume.Height)))
            throw new RuleBrokenException("margin-invalid", $"The margin leaves no room, or is not a number of 0 or more. Nothing was changed.");
        if (!string.IsNullOrEmpty(text.Process) && !ProcessCode.IsValid(text.Process))
            throw new RuleBrokenException("process-invalid", $"“{text.Process}” is not a process code like “VPP-rigid”. Nothing was changed.");
        Name = Text.Required(text.Name, $"The name of the size", 60);
        Hint = Text.Optional(text.Hint, $"The words for it", 120);
        Process = text.Process ?? "";
        (IsRound, WidthMm, DepthMm, HeightMm, MarginMm) = (volume.IsRound, volume.Width, volume.Depth, volume.Height, text.MarginMm);
    }

    public void Move(int position) => Position = position;

    /// <summary>Round numbers by size class (common practice), none a product's.</summary>
    public static IReadOnlyList<PrinterPreset> BuiltIn() =>
    [
        new(new("Small resin", "65x115x150", 2) { Hint = "one figure at a time", Process = "VPP-rigid" }, 1),
        new(new("Medium resin", "150x85x170", 2) { Hint = "a hand's breadth", Process = "VPP-rigid" }, 2),
        new(new("Large resin", "210x120x220", 2) { Hint = "a sheet of A5", Process = "VPP-rigid" }, 3),
        new(new("Small filament", "120x120x120", 2) { Hint = "a saucer", Process = "MEX-rigid" }, 4),
        new(new("Medium filament", "220x220x240", 2) { Hint = "a dinner plate", Process = "MEX-rigid" }, 5),
        new(new("Large filament", "300x300x340", 2) { Hint = "a floor tile", Process = "MEX-rigid" }, 6),
        new(new("Round plate", "180x280", 2) { Hint = "three arms, one plate", Process = "MEX-rigid" }, 7),
        new(new("Powder", "160x160x300", 2) { Hint = "ordered from a workshop", Process = "PBF-rigid" }, 8),
    ];
}

/// <summary>What the host says of a usual size.</summary>
/// <param name="Volume">Three lengths in mm, or two of a round plate: 64x114x152, 200x300.</param>
public sealed record PresetText(string? Name, string? Volume, double MarginMm)
{
    public string? Hint { get; init; }
    public string? Process { get; init; }
}
