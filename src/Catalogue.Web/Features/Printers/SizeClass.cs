using Catalogue.Geometry.Fit;

namespace Catalogue.Web.Features.Printers;

/// <summary>A usual size of build volume to begin from, for those who do not have the numbers at hand.</summary>
internal sealed record SizeClass(string Name, string Examples, BuildVolume Volume)
{
    /// <summary>Round numbers by size class, none a product's. Common practice.</summary>
    public static IReadOnlyList<SizeClass> All { get; } =
    [
        new("Small resin", "one figure at a time", BuildVolume.Rectangular(65, 115, 150)),
        new("Medium resin", "a hand's breadth", BuildVolume.Rectangular(150, 85, 170)),
        new("Large resin", "a sheet of A5", BuildVolume.Rectangular(210, 120, 220)),
        new("Small filament", "a saucer", BuildVolume.Rectangular(120, 120, 120)),
        new("Medium filament", "a dinner plate", BuildVolume.Rectangular(220, 220, 240)),
        new("Large filament", "a floor tile", BuildVolume.Rectangular(300, 300, 340)),
        new("Round plate", "three arms, one plate", BuildVolume.Round(180, 280)),
        new("Powder", "ordered from a workshop", BuildVolume.Rectangular(160, 160, 300)),
    ];
}
