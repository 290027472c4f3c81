using Catalogue.Model.Printers;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Costs;

/// <summary>The numbers that estimates are worked out from: the process's rates, what the visitor said of their printer, and the material's density.</summary>
/// <remarks>
/// The range of a result: each number is moved by its spread up and down with the others held, half of what that changes is squared, and the root of the
/// sum is taken. That is the combined uncertainty of independent inputs, worked out numerically (JCGM 100:2008, “GUM”, 5.1.2 and the second note to 5.1.3; from memory).
/// </remarks>
internal sealed class RateValues
{
    /// <summary>g/cm³, which is kg per litre.</summary>
    public const string Density = "density";

    /// <summary>mm³/s, where the visitor gave it.</summary>
    public const string Flow = "flow";

    /// <summary>What visitors say of their own printers may be off by this much, % (our own bound).</summary>
    private const double OwnSpreadPercent = 10;

    private readonly Dictionary<string, (double Value, double SpreadPercent)> _numbers;
    private (string Key, double Value)? _moved;

    private RateValues(Dictionary<string, (double, double)> numbers) => _numbers = numbers;

    public static RateValues Of(Process process, PrinterPace pace)
    {
        var material = process.Material;
        var numbers = process.Rates.ToDictionary(r => r.Key, r => (r.Value, r.SpreadPercent));
        var density = (material.DensityLow + material.DensityHigh) / 2;
        numbers[Density] = (density, density > 0 ? 100 * (material.DensityHigh - material.DensityLow) / 2 / density : 0);
        if (pace.LayerMm is { } layer) numbers[RateKey.LayerHeight] = (layer, 0);
        if (pace.CycleSeconds is { } cycle && numbers.ContainsKey(RateKey.CycleTime)) numbers[RateKey.CycleTime] = (cycle, OwnSpreadPercent);
        if (pace.FlowMm3PerSecond is { } flow && numbers.ContainsKey(RateKey.Speed)) numbers[Flow] = (flow, OwnSpreadPercent);
        return new(numbers);
    }

    public bool Has(string key) => _numbers.ContainsKey(key);

    /// <summary>The number of a key; 0 where the process has none.</summary>
    public double this[string key] => _moved is { } moved && moved.Key == key ? moved.Value : _numbers.GetValueOrDefault(key).Value;

    /// <summary>The result of a formula with its range; never below 0.</summary>
    public Estimate Spread(Func<RateValues, double> formula)
    {
        _moved = null;
        var value = formula(this);
        var squares = 0.0;
        foreach (var (key, (number, percent)) in _numbers)
        {
            if (percent == 0 || number == 0) continue;
            _moved = (key, number * (1 + (percent / 100)));
            var up = formula(this);
            _moved = (key, number * (1 - (percent / 100)));
            var half = (up - formula(this)) / 2;
            if (double.IsFinite(half)) squares += half * half;
        }

        _moved = null;
        var off = Math.Sqrt(squares);
        return new(value, Math.Max(0, value - off), value + off);
    }
}
