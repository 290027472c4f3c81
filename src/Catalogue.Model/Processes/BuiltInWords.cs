namespace Catalogue.Model.Processes;

/// <summary>
/// The words of built-in data: names of processes and materials, where numbers come from, units. They lie in the database, where the host may write other ones, and are translated where they are
/// still ours (<see cref="Speech.Known"/>, <see cref="Sentence.FromWords"/>); said here once more so that they have their translations.
/// </summary>
public static class BuiltInWords
{
    public static IReadOnlyList<Sentence> Processes { get; } =
    [
        $"Filament, rigid", $"rigid filament",
        $"Filament, flexible", $"flexible filament",
        $"Resin, rigid", $"rigid resin",
        $"Resin, tough", $"tough resin",
        $"Resin, flexible", $"flexible resin",
        $"Powder, rigid", $"rigid powder",
        $"Material extrusion of a stiff filament such as PLA. Dislikes thin pieces and overhangs; gives a little, so joints can pop together.",
        $"Material extrusion of a rubber-like filament such as TPU 95A. Bends without breaking; small details blur.",
        $"Vat photopolymerization of a standard resin. Superb detail on small plates; the cured part is stiff and brittle, and hollows trap liquid.",
        $"Vat photopolymerization of a tough resin. Nearly the detail of the rigid one, bends before it breaks.",
        $"Vat photopolymerization of a rubber-like resin. Saves thin limbs, at about double the price, and is trickier to print.",
        $"Powder bed fusion of nylon. Needs no supports; usually ordered from a workshop.",
    ];

    public static IReadOnlyList<Sentence> Materials { get; } = [$"PLA", $"TPU 95A", $"flexible resin 80A", $"PA12 powder"];

    /// <summary>Where limits, materials and rates come from.</summary>
    public static IReadOnlyList<Sentence> Origins { get; } =
    [
        $"from memory",
        $"set by the host",
        $"experiment JAITA 2020; angle of the surface from the vertical",
        $"nozzle line width; course notes (secondary)",
        $"masked 22–50 µm; course notes (secondary)",
        $"PMC10113796, table 6; density from memory",
        $"PMC10406103, table 2 (12.3 % in the test; brittle in practice, so 2–6 % is taken); density from memory",
        $"PMC10406103, table 2; density from memory; price common practice",
        $"PMC10113796; PMC10406103; price from memory",
        $"one and a half times the rigid one (common practice)",
        $"twice the rigid one (common practice)",
        $"purging, brims, failed prints (common practice)",
        $"three lines or six layers (common practice)",
        $"a little more than the 0.4 mm nozzle (common practice)",
        $"half of the rigid one’s (common practice)",
        $"mean over walls and filling (common practice)",
        $"left on the part and in the vat, filtered, failed prints (common practice)",
        $"struts of 1 mm about every 3 mm (common practice)",
        $"2 to 3 s of light, the rest is lifting (common practice)",
        $"powder that ages beside the parts and is not used again (common practice)",
    ];

    /// <summary>Of limits, rates and findings; those without letters or of the metric system need no words.</summary>
    public static IReadOnlyList<Sentence> Units { get; } =
        [$"per kg", $"per litre", $"layers", $"edges", $"pairs", $"shells", $"triangles", $"openings", $"place", $"places"];

    /// <summary>Usual sizes of printers.</summary>
    public static IReadOnlyList<Sentence> Printers { get; } =
    [
        $"Small resin", $"one figure at a time",
        $"Medium resin", $"a hand's breadth",
        $"Large resin", $"a sheet of A5",
        $"Small filament", $"a saucer",
        $"Medium filament", $"a dinner plate",
        $"Large filament", $"a floor tile",
        $"Round plate", $"three arms, one plate",
        $"Powder", $"ordered from a workshop",
    ];
}
