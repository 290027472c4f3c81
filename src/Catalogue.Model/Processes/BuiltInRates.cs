namespace Catalogue.Model.Processes;

/// <summary>The numbers that a new catalogue estimates material, price and time by. Defaults: the host may change every one and its origin.</summary>
/// <remarks>
/// All common practice, with spreads wide enough for it. Prices are round ones in euro, each the rigid material's times what <see cref="Material.RelativePrice"/>
/// says: a host who changes the currency changes them too.
/// </remarks>
public static class BuiltInRates
{
    private const string Practice = "common practice";
    private const double ResinPerLitre = 30;
    private const double FilamentPerKilogram = 20;

    /// <summary>Of a built-in process; none for a code that is not one.</summary>
    public static IEnumerable<ProcessRate> For(string code) => code switch
    {
        "MEX-rigid" => MaterialExtrusion(FilamentPerKilogram, Practice, 50),
        "MEX-flexible" => MaterialExtrusion(1.5 * FilamentPerKilogram, "one and a half times the rigid one (common practice)", 25),
        "VPP-rigid" => Photopolymer(ResinPerLitre, Practice),
        "VPP-tough" => Photopolymer(1.5 * ResinPerLitre, "one and a half times the rigid one (common practice)"),
        "VPP-flexible" => Photopolymer(2 * ResinPerLitre, "twice the rigid one (common practice)"),
        "PBF-rigid" => PowderBed(),
        _ => [],
    };

    private static List<ProcessRate> MaterialExtrusion(double price, string priceOrigin, double speed) =>
    [
        new(RateKey.Price, price, "per kg", 25, priceOrigin),
        new(RateKey.Waste, 10, "%", 60, "purging, brims, failed prints (common practice)"),
        new(RateKey.SupportFill, 15, "%", 50, Practice),
        new(RateKey.Skin, 1.2, "mm", 25, "three lines or six layers (common practice)"),
        new(RateKey.Infill, 20, "%", 50, Practice),
        new(RateKey.LayerHeight, 0.2, "mm", 0, Practice),
        new(RateKey.LineWidth, 0.45, "mm", 10, "a little more than the 0.4 mm nozzle (common practice)"),
        new(RateKey.Speed, speed, "mm/s", 40, speed < 50 ? "half of the rigid one’s (common practice)" : "mean over walls and filling (common practice)"),
        new(RateKey.Travel, 30, "%", 50, Practice),
        new(RateKey.LayerChange, 1, "s", 50, Practice),
    ];

    private static List<ProcessRate> Photopolymer(double price, string priceOrigin) =>
    [
        new(RateKey.Price, price, "per litre", 25, priceOrigin),
        new(RateKey.Waste, 15, "%", 60, "left on the part and in the vat, filtered, failed prints (common practice)"),
        new(RateKey.SupportFill, 8, "%", 50, "struts of 1 mm about every 3 mm (common practice)"),
        new(RateKey.Lift, 5, "mm", 40, Practice),
        new(RateKey.LayerHeight, 0.05, "mm", 0, Practice),
        new(RateKey.CycleTime, 8, "s", 40, "2 to 3 s of light, the rest is lifting (common practice)"),
        new(RateKey.BaseLayers, 6, "layers", 30, Practice),
        new(RateKey.BaseCycleTime, 35, "s", 30, Practice),
    ];

    private static List<ProcessRate> PowderBed() =>
    [
        new(RateKey.Price, 60, "per kg", 30, Practice),
        new(RateKey.Waste, 100, "%", 50, "powder that ages beside the parts and is not used again (common practice)"),
        new(RateKey.LayerHeight, 0.1, "mm", 0, "review PMC9247992, table 1"),
        new(RateKey.CycleTime, 12, "s", 40, Practice),
    ];
}
