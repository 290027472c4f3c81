
namespace Catalogue.Model.Printers;

/// <summary>How a visitor's own printer works, where they said so: it replaces the process's usual numbers in estimates of time, and raises what fine relief is judged by.</summary>
/// <param name="LayerMm">Layer height.</param>
/// <param name="CycleSeconds">One layer from start to start, of resin or powder.</param>
/// <param name="FlowMm3PerSecond">What comes out of the nozzle while it prints.</param>
public sealed record PrinterPace(double? LayerMm, double? CycleSeconds, double? FlowMm3PerSecond)
{
    public const double LeastLayerMm = 0.005;
    public const double MostLayerMm = 2;
    public const double LeastCycleSeconds = 0.1;
    public const double MostCycleSeconds = 600;
    public const double LeastFlow = 0.1;
    public const double MostFlow = 500;

    public const double LeastLineMm = 0.005;
    public const double MostLineMm = 3;

    /// <summary>The width of what it draws: a nozzle's line, a pixel of the mask, a laser's spot.</summary>
    public double? LineMm { get; init; }

    /// <summary>Nothing said.</summary>
    public static PrinterPace Usual { get; } = new(null, null, null);

    /// <exception cref="RuleBrokenException"><c>layer-invalid</c>, <c>cycle-invalid</c>, <c>flow-invalid</c>, <c>line-invalid</c>.</exception>
    public static PrinterPace Checked(double? layer, double? cycle, double? flow, double? line = null)
    {
        if (layer is not (null or (>= LeastLayerMm and <= MostLayerMm)))
            throw new RuleBrokenException("layer-invalid", $"A layer is {LeastLayerMm} to {MostLayerMm} mm high, for example 0.05.");
        if (cycle is not (null or (>= LeastCycleSeconds and <= MostCycleSeconds)))
            throw new RuleBrokenException("cycle-invalid", $"A layer takes {LeastCycleSeconds} to {MostCycleSeconds} seconds, for example 8.");
        if (flow is not (null or (>= LeastFlow and <= MostFlow)))
            throw new RuleBrokenException("flow-invalid", $"A nozzle lets {LeastFlow} to {MostFlow} mm³ out in a second, for example 5.");
        if (line is not (null or (>= LeastLineMm and <= MostLineMm)))
            throw new RuleBrokenException("line-invalid", $"A line or pixel is {LeastLineMm} to {MostLineMm} mm wide, for example 0.4.");
        return new(layer, cycle, flow) { LineMm = line };
    }
}
