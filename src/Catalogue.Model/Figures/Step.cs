using Catalogue.Model.Processes;

namespace Catalogue.Model.Figures;

/// <summary>One step of putting a figure together.</summary>
public sealed class Step
{
    private readonly List<Part> _parts = [];
    private readonly List<HardwareNeed> _hardware = [];

    private Step()
    {
    }

    internal Step(Figure figure, StepSpec spec, int position, IReadOnlyCollection<Part> parts, IReadOnlyCollection<HardwareNeed> hardware)
    {
        Id = Guid.CreateVersion7();
        FigureId = figure.Id;
        Position = position;
        Describe(spec, parts, hardware);
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public int Position { get; internal set; }
    public string Title { get; private set; } = "";

    /// <summary>Markdown.</summary>
    public string Body { get; private set; } = "";

    /// <summary>The processes it applies to; empty = all.</summary>
    public string[] Processes { get; private set; } = [];

    /// <summary>The member of a choice it applies to; null = whichever is built.</summary>
    public Guid? ChoicePartId { get; private set; }

    public IReadOnlyList<Part> Parts => _parts;
    public IReadOnlyList<HardwareNeed> Hardware => _hardware;

    internal void Describe(StepSpec spec, IReadOnlyCollection<Part> parts, IReadOnlyCollection<HardwareNeed> hardware)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (spec.OnlyWithChoiceMember is { } member && (member.FigureId != FigureId || member.Role != PartRole.ChoiceMember))
            throw new RuleBrokenException("choice-foreign", $"“{member.Name}” is not a member of a choice of this figure. Nothing was changed.");
        Title = Text.Required(spec.Title, $"The step's title", 120);
        Body = Text.Required(spec.Body, $"The step's text", 4_000);
        Processes = ProcessCode.Checked(spec.Processes);
        ChoicePartId = spec.OnlyWithChoiceMember?.Id;
        _parts.RemoveAll(p => !parts.Contains(p));
        _parts.AddRange(parts.Except(_parts).ToList());
        _hardware.RemoveAll(h => !hardware.Contains(h));
        _hardware.AddRange(hardware.Except(_hardware).ToList());
    }
}

/// <summary>The words of a step and what it applies to.</summary>
public sealed record StepSpec(string Title, string Body)
{
    public IReadOnlyCollection<string> Processes { get; init; } = [];
    public Part? OnlyWithChoiceMember { get; init; }
}
