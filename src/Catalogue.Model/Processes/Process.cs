namespace Catalogue.Model.Processes;

/// <summary>How and in what a part is printed, with the limits its shapes are judged by. Data, editable by the host.</summary>
public sealed class Process
{
    private readonly List<ProcessLimit> _limits = [];
    private readonly List<ProcessRate> _rates = [];

    private Process()
    {
    }

    public Process(string code, string name, string description, int position, Material material, IEnumerable<ProcessLimit> limits, IEnumerable<ProcessRate>? rates = null)
    {
        ArgumentNullException.ThrowIfNull(limits);
        Code = ProcessCode.IsValid(code) ? code : throw new RuleBrokenException("process-invalid", $"“{code}” is not a process code like “VPP-rigid”.");
        Name = Text.Required(name, $"The process's name", 80);
        Description = Text.Optional(description, $"The description", 500);
        Position = position;
        Material = material;
        _limits.AddRange(limits);
        _rates.AddRange(rates ?? []);
    }

    public string Code { get; private set; } = "";
    public string Name { get; private set; } = "";
    public string Description { get; private set; } = "";

    /// <summary>The name within a sentence: “Resin, rigid” is spoken “rigid resin”.</summary>
    public string SpokenName => Name.Split(", ") is [var what, var manner] ? $"{manner} {what}".ToLowerInvariant() : Name;

    public int Position { get; private set; }
    public Material Material { get; private set; } = null!;
    public IReadOnlyList<ProcessLimit> Limits => _limits;

    /// <summary>What material, price and time are estimated by.</summary>
    public IReadOnlyList<ProcessRate> Rates => _rates;

    /// <summary>The limit of that key, or null where the process has none.</summary>
    public ProcessLimit? Limit(string key) => _limits.Find(l => l.Key == key);

    /// <summary>The rate of that key, or null where the process has none.</summary>
    public ProcessRate? Rate(string key) => _rates.Find(r => r.Key == key);

    /// <summary>Gives a process of an earlier catalogue the rates it does not have yet.</summary>
    public void Complete(IEnumerable<ProcessRate> rates)
    {
        ArgumentNullException.ThrowIfNull(rates);
        _rates.AddRange(rates.Where(r => Rate(r.Key) is null).ToList());
    }

    /// <summary>True while changes of its limits have not taken effect yet.</summary>
    public bool IsChanging => _limits.Exists(l => l.IsChanging);

    /// <summary>The process as it will be when the changes of its limits take effect. A copy, for judging ahead.</summary>
    public Process Next() => new(Code, Name, Description, Position, Material, _limits.Select(l => new ProcessLimit(l.Key, l.NextValue ?? l.Value, l.Unit, l.NextOrigin ?? l.Origin)), _rates);
}

/// <summary>One number a shape is judged by, with the words of where it comes from.</summary>
public sealed class ProcessLimit
{
    private ProcessLimit()
    {
    }

    public ProcessLimit(string key, double value, string unit, string origin)
    {
        Key = key;
        Unit = unit;
        Change(value, origin);
    }

    public string ProcessCode { get; private set; } = "";
    public string Key { get; private set; } = "";
    public double Value { get; private set; }
    public string Unit { get; private set; } = "";

    /// <summary>A published source, or “common practice”, or “from memory”, or “set by the host”.</summary>
    public string Origin { get; private set; } = "";

    /// <summary>What it becomes as soon as every revision is judged by it: until then the value before holds for everything. Null = it does not change.</summary>
    public double? NextValue { get; private set; }

    public string? NextOrigin { get; private set; }

    public bool IsChanging => NextOrigin is not null;

    /// <summary>Asks for another value. It takes effect for all revisions at once, when they are judged by it.</summary>
    public void AskFor(double value, string origin)
    {
        var next = new ProcessLimit(Key, value, Unit, origin);
        (NextValue, NextOrigin) = (next.Value, next.Origin);
    }

    public void Change(double value, string origin)
    {
        if (!double.IsFinite(value) || value < 0)
            throw new RuleBrokenException("limit-invalid", $"A limit is a number of 0 or more. Nothing was changed.");
        Value = value;
        Origin = Text.Required(origin, $"The origin of the limit", 200);
    }
}

/// <summary>What the process prints in. Ranges are kept as published: joints are judged by the middle of the elongation, fragile limbs by its lower end.</summary>
public sealed record Material(
    string Name, double DensityLow, double DensityHigh, double ModulusLowGPa, double ModulusHighGPa,
    double ElongationLowPercent, double ElongationHighPercent, double RelativePrice, string Origin);

/// <summary>The keys of limits, one spelling for code, data and pages.</summary>
public static class LimitKey
{
    public const string LayerHeightMin = "layer-height-min";
    public const string LayerHeightMax = "layer-height-max";
    public const string Accuracy = "accuracy";
    public const string OverhangAngle = "overhang-angle";
    public const string BridgeLength = "bridge-length";
    public const string LimbWidth = "limb-width";
    public const string WallSupported = "wall-supported";
    public const string WallFree = "wall-free";
    public const string DetailWidth = "detail-width";
    public const string DetailHeight = "detail-height";
    public const string HoleDiameter = "hole-diameter";
    public const string Clearance = "clearance";
    public const string DrainDiameter = "drain-diameter";
    public const string DrainCount = "drain-count";
    public const string InPlaneResolution = "in-plane-resolution";
}
