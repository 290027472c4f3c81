namespace Catalogue.Model.Processes;

/// <summary>The processes a new catalogue starts with. Defaults: the host may change every number and its origin.</summary>
/// <remarks>
/// Category codes: ISO/ASTM 52900. Numbers: the review PMC9247992 (table 1), the experiment JAITA 2020 for the overhang angle,
/// materials from PMC10113796 (table 6) and PMC10406103 (table 2); the rest is common practice, and says so.
/// </remarks>
public static class BuiltInProcesses
{
    private const string Review = "review PMC9247992, table 1";
    private const string Practice = "common practice";
    private const string Overhang = "experiment JAITA 2020; angle of the surface from the vertical";

    public static IReadOnlyList<Process> Create() =>
    [
        new("MEX-rigid", "Filament, rigid",
            "Material extrusion of a stiff filament such as PLA. Dislikes thin pieces and overhangs; gives a little, so joints can pop together.", 1,
            new("PLA", 1.24, 1.24, 3, 4, 2, 9, 1, "PMC10113796, table 6; density from memory"), MaterialExtrusion(), BuiltInRates.For("MEX-rigid")),
        new("MEX-flexible", "Filament, flexible",
            "Material extrusion of a rubber-like filament such as TPU 95A. Bends without breaking; small details blur.", 2,
            new("TPU 95A", 1.20, 1.23, 0.02, 0.07, 400, 600, 1.5, "from memory"), MaterialExtrusion(), BuiltInRates.For("MEX-flexible")),
        new("VPP-rigid", "Resin, rigid",
            "Vat photopolymerization of a standard resin. Superb detail on small plates; the cured part is stiff and brittle, and hollows trap liquid.", 3,
            new("rigid resin", 1.10, 1.20, 2.9, 2.9, 2, 6, 1, "PMC10406103, table 2 (12.3 % in the test; brittle in practice, so 2–6 % is taken); density from memory"), Photopolymer(), BuiltInRates.For("VPP-rigid")),
        new("VPP-tough", "Resin, tough",
            "Vat photopolymerization of a tough resin. Nearly the detail of the rigid one, bends before it breaks.", 4,
            new("tough resin", 1.10, 1.18, 1.0, 1.0, 55, 55, 1.5, "PMC10406103, table 2; density from memory; price common practice"), Photopolymer(), BuiltInRates.For("VPP-tough")),
        new("VPP-flexible", "Resin, flexible",
            "Vat photopolymerization of a rubber-like resin. Saves thin limbs, at about double the price, and is trickier to print.", 5,
            new("flexible resin 80A", 1.10, 1.15, 0.0063, 0.0063, 120, 120, 2, "PMC10406103, table 2; density from memory; price common practice"), Photopolymer(), BuiltInRates.For("VPP-flexible")),
        new("PBF-rigid", "Powder, rigid",
            "Powder bed fusion of nylon. Needs no supports; usually ordered from a workshop.", 6,
            new("PA12 powder", 0.88, 0.96, 1.4, 1.8, 8, 25, 2, "PMC10113796; PMC10406103; price from memory"), PowderBed(), BuiltInRates.For("PBF-rigid")),
    ];

    private static List<ProcessLimit> MaterialExtrusion() =>
    [
        new(LimitKey.LayerHeightMin, 0.05, "mm", Review), new(LimitKey.LayerHeightMax, 0.4, "mm", Review),
        new(LimitKey.Accuracy, 0.5, "%", Review), new(LimitKey.OverhangAngle, 45, "°", Overhang),
        new(LimitKey.BridgeLength, 10, "mm", Practice), new(LimitKey.LimbWidth, 5, "mm", Practice),
        new(LimitKey.WallSupported, 0.8, "mm", Practice), new(LimitKey.WallFree, 0.8, "mm", Practice),
        new(LimitKey.DetailWidth, 0.6, "mm", Practice), new(LimitKey.DetailHeight, 1, "mm", Practice),
        new(LimitKey.HoleDiameter, 2, "mm", Practice), new(LimitKey.Clearance, 0.5, "mm", Practice),
        new(LimitKey.InPlaneResolution, 0.4, "mm", "nozzle line width; course notes (secondary)"),
    ];

    private static List<ProcessLimit> Photopolymer() =>
    [
        new(LimitKey.LayerHeightMin, 0.025, "mm", Review), new(LimitKey.LayerHeightMax, 0.1, "mm", Review),
        new(LimitKey.Accuracy, 0.5, "%", Review), new(LimitKey.WallSupported, 0.5, "mm", Practice),
        new(LimitKey.WallFree, 1, "mm", Practice), new(LimitKey.DetailWidth, 0.4, "mm", Practice),
        new(LimitKey.DetailHeight, 0.4, "mm", Practice), new(LimitKey.HoleDiameter, 0.5, "mm", Practice),
        new(LimitKey.Clearance, 0.5, "mm", Practice), new(LimitKey.DrainDiameter, 4, "mm", Practice),
        new(LimitKey.DrainCount, 2, "", Practice), new(LimitKey.InPlaneResolution, 0.05, "mm", "masked 22–50 µm; course notes (secondary)"),
    ];

    private static List<ProcessLimit> PowderBed() =>
    [
        new(LimitKey.LayerHeightMin, 0.1, "mm", Review), new(LimitKey.LayerHeightMax, 0.1, "mm", Review),
        new(LimitKey.Accuracy, 0.3, "%", Review), new(LimitKey.WallSupported, 0.7, "mm", Practice),
        new(LimitKey.WallFree, 0.7, "mm", Practice), new(LimitKey.DetailWidth, 1, "mm", Practice),
        new(LimitKey.DetailHeight, 1, "mm", Practice), new(LimitKey.HoleDiameter, 1.5, "mm", Practice),
        new(LimitKey.Clearance, 0.3, "mm", Practice), new(LimitKey.DrainDiameter, 5, "mm", Practice),
    ];
}
