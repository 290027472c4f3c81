using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>A published figure as the range needs it: words to search, parts with their judged revisions. Immutable.</summary>
public sealed record IndexedFigure
{
    public required Guid Id { get; init; }
    public required string Slug { get; init; }
    public required string Title { get; init; }
    public required string Summary { get; init; }
    public required double HeightMm { get; init; }
    public required double? ScaleDenominator { get; init; }
    public required string Licence { get; init; }
    public required int EditionNumber { get; init; }
    public required DateTime PublishedAt { get; init; }

    /// <summary>Counts the figure's changes; an entry of the index is as fresh as this.</summary>
    public required int Version { get; init; }

    /// <summary>Title, summary, part names and hardware, lower-case.</summary>
    public required string SearchText { get; init; }

    public required IReadOnlyList<IndexedPart> Parts { get; init; }

    /// <summary>How its parts are connected.</summary>
    public required IReadOnlyList<IndexedJoint> Joints { get; init; }
}

/// <summary>A joint between two parts with its judgement per process it is used on.</summary>
public sealed record IndexedJoint(Guid Id, Guid FirstPartId, Guid SecondPartId, Guid? StrainedPartId, IReadOnlyDictionary<string, Judgement> Judgements);

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

    /// <summary>Null when the mesh was last inspected before profiles of this version were kept: then its hull answers.</summary>
    public FitProfile? FitProfile { get; init; }

    /// <summary>The processes the designer made it for.</summary>
    public required IReadOnlyList<string> MadeFor { get; init; }

    /// <summary>The kept judgement per process code.</summary>
    public required IReadOnlyDictionary<string, Judgement> Judgements { get; init; }

    public Judgement On(string process) => Judgements.GetValueOrDefault(process) ?? Judgement.Unchecked;
}
