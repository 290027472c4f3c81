using Catalogue.Model.Printers;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Costs;

/// <summary>What one print of a part takes: material, its price, and the printer's time, each with its range and with the formula and its values.</summary>
/// <param name="MaterialMm3">All that is bought for it: the piece, its supports, and what is wasted.</param>
/// <param name="Price">In the host's currency; null when the host names no price.</param>
/// <param name="Seconds">Of the printer alone: no heating, washing, curing or cooling.</param>
public sealed record PrintCost(Estimate MaterialMm3, Estimate Grams, Estimate? Price, Estimate Seconds)
{
    /// <summary>How the numbers were worked out, a line each.</summary>
    public required IReadOnlyList<Sentence> Arithmetic { get; init; }

    /// <summary>What one print of a shape takes. Pure; microseconds.</summary>
    /// <returns>Null where the process has no rates to work it out by.</returns>
    public static PrintCost? Of(PrintShape shape, Process process, PrinterPace pace)
    {
        ArgumentNullException.ThrowIfNull(shape);
        ArgumentNullException.ThrowIfNull(process);
        ArgumentNullException.ThrowIfNull(pace);
        var rates = RateValues.Of(process, pace);
        if (!rates.Has(RateKey.LayerHeight)) return null;
        var perLitre = PerLitre(process);
        var material = rates.Spread(r => Material(shape, r));
        var price = rates[RateKey.Price] > 0 ? rates.Spread(r => Money(shape, r, perLitre)) : (Estimate?)null;
        var seconds = rates.Spread(r => Time(shape, r));
        return new(material, rates.Spread(r => Material(shape, r) * r[RateValues.Density] / 1000), price, seconds)
        {
            Arithmetic = [MaterialWords(shape, rates, material.Value), .. PriceWords(rates, material.Value, price?.Value, perLitre), TimeWords(shape, rates, seconds.Value)],
        };
    }

    /// <summary>The price of the material alone, without its spread; null where the host names none.</summary>
    public static double? MaterialPrice(PrintShape shape, Process process)
    {
        ArgumentNullException.ThrowIfNull(shape);
        ArgumentNullException.ThrowIfNull(process);
        var rates = RateValues.Of(process, PrinterPace.Usual);
        return rates[RateKey.Price] > 0 ? Money(shape, rates, PerLitre(process)) : null;
    }

    /// <summary>The same, or, where no price is known, what <see cref="Process.Material"/> says of it beside the rigid material: for comparing printers.</summary>
    public static double ToCompare(PrintShape shape, Process process)
    {
        ArgumentNullException.ThrowIfNull(shape);
        ArgumentNullException.ThrowIfNull(process);
        if (MaterialPrice(shape, process) is { } price) return price;
        var rates = RateValues.Of(process, PrinterPace.Usual);
        return Material(shape, rates) / 1000 * rates[RateValues.Density] * process.Material.RelativePrice;
    }

    /// <summary>How many layers of that height.</summary>
    public static double Layers(double heightMm, double layerMm) => layerMm > 0 ? Math.Ceiling((heightMm / layerMm) - 1e-6) : 0;

    private static bool PerLitre(Process process) => process.Rates.FirstOrDefault(r => r.Key == RateKey.Price)?.Unit == "per litre";

    /// <summary>The piece itself: solid, or a skin and a filling.</summary>
    private static double Piece(PrintShape shape, RateValues rates)
    {
        if (!rates.Has(RateKey.Skin)) return shape.VolumeMm3;
        var skin = SkinOf(shape, rates);
        return skin + ((shape.VolumeMm3 - skin) * rates[RateKey.Infill] / 100);
    }

    /// <summary>All of a thin piece is skin.</summary>
    private static double SkinOf(PrintShape shape, RateValues rates) => Math.Min(shape.VolumeMm3, shape.AreaMm2 * rates[RateKey.Skin]);

    private static double Printed(PrintShape shape, RateValues rates) => Piece(shape, rates) + (shape.SupportMm3 * rates[RateKey.SupportFill] / 100);

    private static double Material(PrintShape shape, RateValues rates) => Printed(shape, rates) * (1 + (rates[RateKey.Waste] / 100));

    private static double Money(PrintShape shape, RateValues rates, bool perLitre) =>
        Material(shape, rates) / 1_000_000 * (perLitre ? 1 : rates[RateValues.Density]) * rates[RateKey.Price];

    private static double Flow(RateValues rates) =>
        rates.Has(RateValues.Flow) ? rates[RateValues.Flow] : rates[RateKey.LayerHeight] * rates[RateKey.LineWidth] * rates[RateKey.Speed];

    internal static double Time(PrintShape shape, RateValues rates)
    {
        var layers = Layers(shape.HeightMm + rates[RateKey.Lift], rates[RateKey.LayerHeight]);
        if (rates.Has(RateKey.Speed)) return (Printed(shape, rates) / Flow(rates) * (1 + (rates[RateKey.Travel] / 100))) + (layers * rates[RateKey.LayerChange]);
        var first = Math.Min(layers, rates[RateKey.BaseLayers]);
        return (first * rates[RateKey.BaseCycleTime]) + ((layers - first) * rates[RateKey.CycleTime]);
    }

    private static Sentence MaterialWords(PrintShape shape, RateValues rates, double result) =>
        $"Material: ({Needed(shape, rates)}) × (1 + {rates[RateKey.Waste]:0.#} % waste) = {Cm3(result)}";

    /// <summary>What comes out of the printer: the piece, and its supports where there are any.</summary>
    private static Sentence Needed(PrintShape shape, RateValues rates)
    {
        var piece = PieceWords(shape, rates);
        return rates.Has(RateKey.SupportFill) && shape.SupportMm3 >= 0.5
            ? $"{piece} + {Cm3(shape.SupportMm3)} under overhangs × {rates[RateKey.SupportFill]:0.#} %"
            : piece;
    }

    private static Sentence PieceWords(PrintShape shape, RateValues rates)
    {
        if (!rates.Has(RateKey.Skin)) return Cm3(shape.VolumeMm3);
        var skin = SkinOf(shape, rates);
        return skin >= shape.VolumeMm3 - 1e-9
            ? S($"{Cm3(shape.VolumeMm3)}, solid, because a skin of {rates[RateKey.Skin]:0.##} mm under {shape.AreaMm2 / 100:0.#} cm² leaves no inside")
            : $"{shape.AreaMm2 / 100:0.#} cm² × {rates[RateKey.Skin]:0.##} mm of skin + {Cm3(shape.VolumeMm3 - skin)} inside × {rates[RateKey.Infill]:0.#} %";
    }

    private static IEnumerable<Sentence> PriceWords(RateValues rates, double materialMm3, double? result, bool perLitre)
    {
        if (result is not { } price) yield break;
        yield return perLitre
            ? S($"Price: {Cm3(materialMm3)} × {rates[RateKey.Price]:0.##} per litre = {price:0.00}")
            : $"Price: {Cm3(materialMm3)} × {rates[RateValues.Density]:0.###} g/cm³ × {rates[RateKey.Price]:0.##} per kg = {price:0.00}";
    }

    private static Sentence TimeWords(PrintShape shape, RateValues rates, double seconds)
    {
        var layers = Layers(shape.HeightMm + rates[RateKey.Lift], rates[RateKey.LayerHeight]);
        var count = LayerWords(shape, rates, layers);
        if (rates.Has(RateKey.Speed))
            return $"Time: {Cm3(Printed(shape, rates))} ÷ {FlowWords(rates)} × (1 + {rates[RateKey.Travel]:0.#} % travel) + {count} × {rates[RateKey.LayerChange]:0.#} s = {Duration(seconds)}";
        var first = Math.Min(layers, rates[RateKey.BaseLayers]);
        return first > 0
            ? S($"Time: {count}; {first:0} × {rates[RateKey.BaseCycleTime]:0.#} s + {layers - first:0} × {rates[RateKey.CycleTime]:0.#} s = {Duration(seconds)}")
            : $"Time: {count} × {rates[RateKey.CycleTime]:0.#} s = {Duration(seconds)}";
    }

    private static Sentence LayerWords(PrintShape shape, RateValues rates, double layers) => rates[RateKey.Lift] > 0
        ? S($"({shape.HeightMm:0.#} mm high + {rates[RateKey.Lift]:0.#} mm of supports) ÷ {rates[RateKey.LayerHeight]:0.###} mm = {layers:0} layers")
        : $"{shape.HeightMm:0.#} mm high ÷ {rates[RateKey.LayerHeight]:0.###} mm = {layers:0} layers";

    private static Sentence FlowWords(RateValues rates) => rates.Has(RateValues.Flow)
        ? S($"{Flow(rates):0.##} mm³/s")
        : $"({rates[RateKey.LayerHeight]:0.###} mm × {rates[RateKey.LineWidth]:0.##} mm × {rates[RateKey.Speed]:0.#} mm/s)";

    private static Sentence Cm3(double mm3) => $"{mm3 / 1000:0.0##} cm³";

    private static Sentence Duration(double seconds) => seconds < 3600
        ? S($"{seconds / 60:0} min")
        : $"{Math.Floor(Math.Round(seconds / 60) / 60):0} h {Math.Round(seconds / 60) % 60:0} min";
}
