using Catalogue.Model.Printers;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Costs;

/// <summary>How long many shapes take on one printer: the time of <see cref="PrintCost"/> without its range and its words.</summary>
public sealed class PrintClock
{
    private readonly RateValues _rates;

    private PrintClock(RateValues rates, bool byLayers) => (_rates, ByLayers) = (rates, byLayers);

    /// <summary>True where prints on one plate take as long as the tallest of them; false for filament, which takes as long together as one by one.</summary>
    public bool ByLayers { get; }

    /// <summary>Null where the process has no rates to work it out by.</summary>
    public static PrintClock? Of(Process process, PrinterPace pace)
    {
        ArgumentNullException.ThrowIfNull(process);
        ArgumentNullException.ThrowIfNull(pace);
        var rates = RateValues.Of(process, pace);
        return rates.Has(RateKey.LayerHeight) ? new(rates, ProcessCode.Category(process.Code) != "MEX") : null;
    }

    /// <summary>Of the printer alone: no heating, washing, curing or cooling.</summary>
    public double Seconds(PrintShape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        return PrintCost.Time(shape, _rates);
    }
}
