using Catalogue.Model.Processes;

namespace Catalogue.Model.Figures;

/// <summary>How two parts are connected.</summary>
public enum JointKind
{
    PopInBall,
    PlugInSleeve,
    PinnedHinge,
    PressFit,
    Glued,
    Retracting,
}

/// <summary>A connection of two parts of one figure, with the dimensions its mechanics depend on.</summary>
public sealed class Joint
{
    private Joint()
    {
    }

    internal Joint(Figure figure, JointSpec spec, Part first, Part second)
    {
        Id = Guid.CreateVersion7();
        FigureId = figure.Id;
        Describe(spec, first, second);
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }

    /// <summary>The part that receives: with the socket, the sleeve, the hole or the seat.</summary>
    public Guid FirstPartId { get; private set; }

    /// <summary>The part that enters: with the ball, the plug or the peg, or the one that retracts.</summary>
    public Guid SecondPartId { get; private set; }

    /// <summary>The part whose material has to give; null where none has, or both.</summary>
    public Guid? StrainedPartId => Kind switch
    {
        JointKind.PopInBall or JointKind.PressFit => FirstPartId,
        JointKind.Retracting => SecondPartId,
        _ => null,
    };

    public JointKind Kind { get; private set; }
    public string Name { get; private set; } = "";

    /// <summary>The ball, the plug or the pin; of a retracting part its thickness where it bends.</summary>
    public double? InnerDiameterMm { get; private set; }

    /// <summary>The socket, the sleeve or the hole; of a retracting part twice the radius that it bends over.</summary>
    public double? OuterDiameterMm { get; private set; }

    /// <summary>The narrowest opening a ball has to pass.</summary>
    public double? MouthDiameterMm { get; private set; }

    public double? LengthMm { get; private set; }
    public string Note { get; private set; } = "";

    /// <summary>The processes on which the parts are joined this way; empty = all.</summary>
    public string[] Processes { get; private set; } = [];

    /// <summary>Kind and dimensions, as they were said.</summary>
    public JointSpec Spec => new(Kind, Name)
    {
        InnerDiameterMm = InnerDiameterMm,
        OuterDiameterMm = OuterDiameterMm,
        MouthDiameterMm = MouthDiameterMm,
        LengthMm = LengthMm,
        Note = Note,
        Processes = Processes,
    };

    /// <summary>True when the parts are joined this way on a process.</summary>
    public bool IsUsedOn(string process) => Processes.Length == 0 || Processes.Contains(process);

    internal void Describe(JointSpec spec, Part first, Part second)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (first == second)
            throw new RuleBrokenException("joint-of-one", $"A joint connects two different parts. Nothing was changed; choose another part.");
        foreach (var mm in new[] { spec.InnerDiameterMm, spec.OuterDiameterMm, spec.MouthDiameterMm, spec.LengthMm })
        {
            if (mm is not (null or (> 0 and <= 1000)))
                throw new RuleBrokenException("dimension-invalid", $"A joint's dimensions are above 0 and at most 1000 mm. Nothing was changed.");
        }

        FirstPartId = first.Id;
        SecondPartId = second.Id;
        Kind = spec.Kind;
        Name = Text.Required(spec.Name, $"The joint's name", 120);
        InnerDiameterMm = spec.InnerDiameterMm;
        OuterDiameterMm = spec.OuterDiameterMm;
        MouthDiameterMm = spec.MouthDiameterMm;
        LengthMm = spec.LengthMm;
        Note = Text.Optional(spec.Note, $"The joint's note", 500);
        Processes = ProcessCode.Checked(spec.Processes);
    }
}

/// <summary>The kind and dimensions of a joint, in mm.</summary>
public sealed record JointSpec(JointKind Kind, string Name)
{
    public double? InnerDiameterMm { get; init; }
    public double? OuterDiameterMm { get; init; }
    public double? MouthDiameterMm { get; init; }
    public double? LengthMm { get; init; }
    public string? Note { get; init; }
    public IReadOnlyCollection<string> Processes { get; init; } = [];
}
