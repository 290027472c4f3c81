using Catalogue.Model.Figures;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Cautions;

/// <summary>A usual caution of printing and building: what can go wrong, what to do, and where that is known from.</summary>
/// <param name="Code">Stable, for programs and links: <c>resin-skin</c>, <c>rod-cutting</c>, …</param>
public sealed record Caution(string Code, Sentence Title, Sentence Words, Sentence Source)
{
    private static readonly Sentence Practice = $"common practice";

    public static readonly Caution ResinSkin = new("resin-skin", $"Uncured resin",
        $"Uncured resin irritates skin and eyes and can start an allergy that stays. Wear nitrile gloves and eye protection, air the room, and keep it off skin and out of the drain until it is cured.",
        $"Regulation (EC) 1272/2008: H315, H317, H319, H411");

    public static readonly Caution Solvent = new("solvent", $"Washing solvent",
        $"Washing alcohol burns easily and its vapour makes drowsy. No flame, spark or heater near it; keep the lid on and a window open. Let resin in used solvent cure and settle; never pour it away.",
        $"Regulation (EC) 1272/2008: H225, H319, H336; flash point of isopropanol 11.7 °C (NIOSH)");

    public static readonly Caution UvLight = new("uv-light", $"Curing light",
        $"Curing lamps give off ultraviolet light. Cure with the lid closed and do not look into the light.", Practice);

    public static readonly Caution FilamentFumes = new("filament-fumes", $"Fumes and fine particles",
        $"Melting filament gives off ultrafine particles, more of them with ABS than with PLA. Air the room while it prints and do not sit beside it.",
        $"PMC8350970: on average 65\u00A0482 per cm³ with PLA, 300\u00A0980 with ABS");

    public static readonly Caution PowderDust = new("powder-dust", $"Fine powder",
        $"Powder left on a part is fine enough to breathe in. Brush and rinse it outdoors or with a mask, and do not blow it off with your mouth.", Practice);

    public static readonly Caution RodCutting = new("rod-cutting", $"Cutting rod",
        $"A cut-off end of rod flies. Wear eye protection, hold both ends, and deburr them: a fresh cut is sharp.", Practice);

    public static readonly Caution ResinDrilling = new("resin-drilling", $"Drilling resin",
        $"Rigid resin is brittle: drill it slowly, by hand, in steps of size, with eye protection, and do not breathe the dust.", Practice);

    public static readonly Caution SmallParts = new("small-parts", $"Small parts",
        $"Parts of this figure go into the small-parts gauge: a child under three can choke on them. Keep the pieces and the figure out of reach.",
        $"16 CFR 1501.4 (the cylinder); EN 71-1 and ISO 8124-1 use the same gauge");

    public static readonly Caution Batteries = new("batteries", $"Button and coin cells",
        $"A swallowed button or coin cell burns within hours and can kill. Its compartment has to need a tool, or two movements at once, to open. Keep spare cells out of reach.",
        $"16 CFR 1263");

    public static readonly Caution Magnets = new("magnets", $"Magnets",
        $"Two swallowed magnets pull together through the gut. Glue magnets in for good and keep spare ones away from children.", Practice);

    public static readonly Caution Adhesives = new("adhesives", $"Glue and paint",
        $"Glue, varnish and spray paint give off vapour. Use them with a window open, read the label, and keep quick glue away from eyes and fingers.", Practice);

    public static IReadOnlyList<Caution> All { get; } =
    [
        ResinSkin, Solvent, UvLight, FilamentFumes, PowderDust, RodCutting, ResinDrilling, SmallParts, Batteries, Magnets, Adhesives,
    ];

    /// <summary>The cautions that apply to a figure built in this way, in the order one meets them.</summary>
    /// <param name="process">The process asked about; null = none yet, so nothing is said of printing.</param>
    /// <param name="hardware">What is not printed and applies to that process.</param>
    /// <param name="hasSmallParts">Whether any part that is built goes into the small-parts gauge.</param>
    public static IReadOnlyList<Caution> For(string? process, IEnumerable<HardwareNeed> hardware, bool hasSmallParts)
    {
        ArgumentNullException.ThrowIfNull(hardware);
        var needs = hardware.ToList();
        var category = process is null ? "" : ProcessCode.Category(process);
        bool Needs(params ReadOnlySpan<HardwareKind> kinds)
        {
            foreach (var need in needs)
                if (kinds.Contains(need.Kind)) return true;
            return false;
        }

        var found = new List<Caution>();
        if (category == "VPP") found.AddRange([ResinSkin, Solvent, UvLight]);
        if (category == "MEX") found.Add(FilamentFumes);
        if (category == "PBF") found.Add(PowderDust);
        if (Needs(HardwareKind.Rod)) found.Add(RodCutting);
        if (category == "VPP" && Needs(HardwareKind.Rod, HardwareKind.Screw)) found.Add(ResinDrilling);
        if (hasSmallParts) found.Add(SmallParts);
        if (needs.Exists(RunsOnCells)) found.Add(Batteries);
        if (Needs(HardwareKind.Magnet)) found.Add(Magnets);
        if (Needs(HardwareKind.Adhesive, HardwareKind.Paint)) found.Add(Adhesives);
        return found;
    }

    /// <summary>Lights, and whatever its own words say holds a cell or a battery; a spring motor does not.</summary>
    private static bool RunsOnCells(HardwareNeed need) => need.Kind == HardwareKind.Light
        || Names(need, "battery") || Names(need, "batteries") || Names(need, "button cell") || Names(need, "coin cell");

    private static bool Names(HardwareNeed need, string word) =>
        need.Name.Contains(word, StringComparison.OrdinalIgnoreCase) || need.Size.Contains(word, StringComparison.OrdinalIgnoreCase)
        || need.Caution.Contains(word, StringComparison.OrdinalIgnoreCase);
}
