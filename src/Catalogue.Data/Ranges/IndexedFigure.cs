using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>A published figure as the range needs it: words to search, parts with their judged revisions. Immutable.</summary>
public sealed record IndexedFigure
{
    public required Guid Id { get; init; }
    public required string Slug { get; init; }
    public required string Title { get; init; }
    public required string Summary { get; init; }
    public string[] Tags { get; init; } = [];
    public required double HeightMm { get; init; }
    public required double? ScaleDenominator { get; init; }
    public required string Licence { get; init; }
    public required int EditionNumber { get; init; }
    public required DateTime PublishedAt { get; init; }

    /// <summary>Counts the figure's changes, and how often its verdicts were drawn: an entry of the index is as fresh as both.</summary>
    public required (int Version, int Judgements) Freshness { get; init; }

    public required IReadOnlyList<IndexedPart> Parts { get; init; }

    /// <summary>How its parts are connected.</summary>
    public required IReadOnlyList<IndexedJoint> Joints { get; init; }

    /// <summary>The same with its joints judged by other limits.</summary>
    internal IndexedFigure JudgedBy(IReadOnlyList<Process> processes)
    {
        if (Joints.Count == 0) return this;
        List<IndexedJoint> judged = [.. Joints.Select(j => j.JudgedBy(processes))];
        return this with { Joints = judged, Sketch = Sketch.With(Parts, judged, [.. processes.Select(p => p.Code)]) };
    }

    /// <summary>Title, summary, tags, part names and hardware, as numbers of the <see cref="Vocabulary"/>.</summary>
    internal int[] Words { get; init; } = [];

    /// <summary>Those of the title alone.</summary>
    internal int[] TitleWords { get; init; } = [];

    /// <summary>The hardware it cannot do without.</summary>
    internal NeededHardware Needs { get; init; } = NeededHardware.Nothing;

    /// <summary>What its verdicts come to.</summary>
    internal FigureSketch Sketch { get; init; } = null!;
}

/// <summary>A joint between two parts with its verdict per process it is used on. The findings are worked out again where they are shown.</summary>
public sealed record IndexedJoint(Guid Id, Guid FirstPartId, Guid SecondPartId, Guid? StrainedPartId, JointSpec Spec, IReadOnlyDictionary<string, Verdict> Verdicts)
{
    /// <summary>The verdict on a process; null where the parts are joined another way.</summary>
    public Verdict? On(string process) => Verdicts.TryGetValue(process, out var verdict) ? verdict : null;

    /// <summary>The verdict with what it rests on. Pure; microseconds.</summary>
    public Judgement Judge(Process process) => JointMechanics.Judge(Spec, process);

    /// <summary>Judged by processes and limits as they are now.</summary>
    public static IndexedJoint Of(Joint joint, IReadOnlyList<Process> processes)
    {
        ArgumentNullException.ThrowIfNull(joint);
        return new IndexedJoint(joint.Id, joint.FirstPartId, joint.SecondPartId, joint.StrainedPartId, joint.Spec, NoVerdicts).JudgedBy(processes);
    }

    private static readonly IReadOnlyDictionary<string, Verdict> NoVerdicts = new Dictionary<string, Verdict>();

    /// <summary>The same joint judged by other limits.</summary>
    public IndexedJoint JudgedBy(IReadOnlyList<Process> processes) => this with
    {
        Verdicts = processes.Where(p => Spec.Processes.Count == 0 || Spec.Processes.Contains(p.Code)).ToDictionary(p => p.Code, p => Judge(p).Verdict),
    };
}

/// <summary>A part of the current edition.</summary>
public sealed record IndexedPart(
    Guid Id, string Slug, string Name, int Quantity, PartRole Role, int Position, Guid? ChoiceId, string? ChoiceName, bool IsDefaultMember,
    IReadOnlyList<IndexedVariant> Variants)
{
    /// <summary>Where each copy sits in the assembled figure; empty = not said.</summary>
    public IReadOnlyList<Pose> Poses { get; init; } = [];
}

/// <summary>A variant of the current edition with the revision that is shown.</summary>
public sealed record IndexedVariant
{
    public required Guid Id { get; init; }
    public required string Slug { get; init; }
    public required string Name { get; init; }
    public required Guid RevisionId { get; init; }
    public required int Number { get; init; }
    public required Guid InspectionId { get; init; }

    /// <summary>The mesh file.</summary>
    public required string Sha256 { get; init; }

    /// <summary>The unit the designer stated; null = the file's own, or guessed.</summary>
    public LengthUnit? StatedUnit { get; init; }

    public required Vec3 Size { get; init; }
    public required double VolumeMm3 { get; init; }
    public required double AreaMm2 { get; init; }

    /// <summary>True when the mesh has been measured, so that its fit can be told.</summary>
    public required bool IsMeasured { get; init; }

    /// <summary>The processes the designer made it for.</summary>
    public required IReadOnlyList<string> MadeFor { get; init; }

    /// <summary>Its place among all variants of the figure, from 0: as its sketch numbers them.</summary>
    public required int Place { get; init; }
}
