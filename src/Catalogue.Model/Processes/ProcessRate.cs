namespace Catalogue.Model.Processes;

/// <summary>One number that material, price and time are estimated by, how far it may be off, and where it comes from. Data, editable by the host; no verdict rests on it.</summary>
public sealed class ProcessRate
{
    private ProcessRate()
    {
    }

    public ProcessRate(string key, double value, string unit, double spreadPercent, string origin)
    {
        Key = key;
        Unit = unit;
        Change(value, spreadPercent, origin);
    }

    public string ProcessCode { get; private set; } = "";
    public string Key { get; private set; } = "";
    public double Value { get; private set; }
    public string Unit { get; private set; } = "";

    /// <summary>The number is usually within so many per cent of <see cref="Value"/>, up or down.</summary>
    public double SpreadPercent { get; private set; }

    /// <summary>A published source, or “common practice”, or “set by the host”.</summary>
    public string Origin { get; private set; } = "";

    public void Change(double value, double spreadPercent, string origin)
    {
        if (value is not (>= 0 and <= 1_000_000))
            throw new RuleBrokenException("rate-invalid", $"The number is 0 or more, up to a million. Nothing was changed.");
        if (value == 0 && RateKey.MustBePositive(Key))
            throw new RuleBrokenException("rate-invalid", $"Here 0 makes no sense: no print would ever end, or begin. Nothing was changed; give a number above 0.");
        if (spreadPercent is not (>= 0 and <= 100))
            throw new RuleBrokenException("spread-invalid", $"How far it may be off is said in 0 to 100 per cent of the number. Nothing was changed.");
        var words = Text.Required(origin, $"Where the number comes from", 200);
        (Value, SpreadPercent, Origin) = (value, spreadPercent, words);
    }
}

/// <summary>The keys of rates, one spelling for code, data and pages.</summary>
public static class RateKey
{
    /// <summary>Per litre or per kilogram, as its unit says, in the host's currency; 0 = not known.</summary>
    public const string Price = "price";

    /// <summary>What is bought and does not end up in a piece, as a share of what does: purged, spilled, washed off, failed.</summary>
    public const string Waste = "waste";

    /// <summary>How much of the room under an overhang supports fill.</summary>
    public const string SupportFill = "support-fill";

    public const string LayerHeight = "layer-height";

    /// <summary>One layer from start to start: exposure and lift, or spreading and melting.</summary>
    public const string CycleTime = "cycle-time";

    /// <summary>The first layers, which hold the part to the platform, take longer.</summary>
    public const string BaseLayers = "base-layers";

    public const string BaseCycleTime = "base-cycle-time";

    /// <summary>How far supports hold the part away from the platform.</summary>
    public const string Lift = "lift";

    /// <summary>Thickness of what is printed solid under every surface.</summary>
    public const string Skin = "skin";

    /// <summary>How much of the room inside the skin is filled.</summary>
    public const string Infill = "infill";

    public const string LineWidth = "line-width";
    public const string Speed = "speed";

    /// <summary>What moving without printing adds to the time.</summary>
    public const string Travel = "travel";

    public const string LayerChange = "layer-change";

    internal static bool MustBePositive(string key) => key is LayerHeight or LineWidth or Speed;
}
