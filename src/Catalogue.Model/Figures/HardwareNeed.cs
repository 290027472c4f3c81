using Catalogue.Model.Processes;

namespace Catalogue.Model.Figures;

/// <summary>What is not printed.</summary>
public enum HardwareKind
{
    Rod,
    Screw,
    Magnet,
    Spring,
    Elastic,
    Motor,
    Light,
    Wheel,
    Adhesive,
    Paint,
    Tool,
    Other,
}

/// <summary>A piece of hardware a figure needs, for the parts it goes with (none named = the whole figure).</summary>
public sealed class HardwareNeed
{
    private readonly List<Part> _parts = [];

    private HardwareNeed()
    {
    }

    internal HardwareNeed(Figure figure, HardwareSpec spec, int position, IReadOnlyCollection<Part> parts)
    {
        Id = Guid.CreateVersion7();
        FigureId = figure.Id;
        Position = position;
        Describe(spec, parts);
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public int Position { get; private set; }
    public HardwareKind Kind { get; private set; }
    public string Name { get; private set; } = "";
    public string Size { get; private set; } = "";
    public int Quantity { get; private set; }
    public double? CutLengthMm { get; private set; }
    public double? DiameterMm { get; private set; }
    public string Substitutes { get; private set; } = "";
    public string Caution { get; private set; } = "";
    public bool IsOptional { get; private set; }

    /// <summary>The processes it is needed on; empty = all.</summary>
    public string[] Processes { get; private set; } = [];

    public IReadOnlyList<Part> Parts => _parts;

    internal void Describe(HardwareSpec spec, IReadOnlyCollection<Part> parts)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (spec.Quantity is < 1 or > 10_000)
            throw new RuleBrokenException("quantity-invalid", $"Hardware comes in quantities of 1 to 10 000. Nothing was changed.");
        if (spec.DiameterMm is not (null or (> 0 and <= 1_000)))
            throw new RuleBrokenException("dimension-invalid", $"A diameter is above 0 and at most 1 000 mm. Nothing was changed.");
        if (spec.CutLengthMm is not (null or (> 0 and <= 10_000)))
            throw new RuleBrokenException("length-invalid", $"A cut length is above 0 and at most 10 000 mm. Nothing was changed.");
        Kind = spec.Kind;
        Name = Text.Required(spec.Name, $"The hardware's name", 120);
        Size = Text.Optional(spec.Size, $"The size", 120);
        Quantity = spec.Quantity;
        CutLengthMm = spec.CutLengthMm;
        DiameterMm = spec.DiameterMm;
        Substitutes = Text.Optional(spec.Substitutes, $"The substitutes", 500);
        Caution = Text.Optional(spec.Caution, $"The caution", 500);
        IsOptional = spec.IsOptional;
        Processes = ProcessCode.Checked(spec.Processes);
        _parts.RemoveAll(p => !parts.Contains(p));
        _parts.AddRange(parts.Except(_parts).ToList());
    }
}

/// <summary>The words and numbers of a piece of hardware.</summary>
public sealed record HardwareSpec(HardwareKind Kind, string Name, int Quantity)
{
    public string? Size { get; init; }
    public double? DiameterMm { get; init; }
    public double? CutLengthMm { get; init; }
    public string? Substitutes { get; init; }
    public string? Caution { get; init; }
    public bool IsOptional { get; init; }
    public IReadOnlyCollection<string> Processes { get; init; } = [];
}
