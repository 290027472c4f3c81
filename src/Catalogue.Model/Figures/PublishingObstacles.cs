using Catalogue.Model.Inspections;

namespace Catalogue.Model.Figures;

/// <summary>What publishing looks at: a part that is not removed, with the latest upload of each of its variants.</summary>
public sealed record PartState(string Slug, string Name, PartRole Role, string? Choice, IReadOnlyList<VariantState> Variants)
{
    internal static PartState Of(Part part) => new(part.Slug, part.Name, part.Role, part.Choice?.Name,
    [
        .. part.Variants.Where(v => !v.IsRemoved).Select(v => new VariantState(v.Name, v.Latest is { } latest
            ? new(latest.Number, latest.Inspection.State, latest.Inspection.OpenEdges, latest.Inspection.ErrorMessage)
            : null)),
    ]);

    public bool HasMesh => Variants.Any(v => v.Latest is not null);
}

public sealed record VariantState(string Name, RevisionState? Latest);

/// <summary>The upload that would be published, and how its inspection went.</summary>
public sealed record RevisionState(int Number, InspectionState Inspection, int OpenEdges, Sentence Error);

/// <summary>What stands in the way of publishing a figure: one rule for the entity that publishes and for the pages that show it beforehand.</summary>
public static class PublishingObstacles
{
    public static IReadOnlyList<Obstacle> Of(string title, IReadOnlyList<PartState> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        if (!parts.Any(p => p.HasMesh))
            return [new("part-without-revision", $"“{title}” has no uploaded part yet. Upload a mesh first.", null)];
        return
        [
            .. parts.Where(p => p.Role == PartRole.Required && !p.HasMesh).Select(p => new Obstacle("part-without-revision",
                $"The required part “{p.Name}” has no uploaded mesh. Upload one, or make the part optional.", p.Slug)),
            .. parts.Where(p => p.Role == PartRole.ChoiceMember).GroupBy(p => p.Choice).Where(g => !g.Any(p => p.HasMesh)).Select(g =>
                new Obstacle("choice-without-revision", $"No member of the choice “{g.Key}” has an uploaded mesh. Upload one for at least one member.", g.First().Slug)),
            .. parts.SelectMany(p => p.Variants.Select(v => OfRevision(p, v)).OfType<Obstacle>()),
        ];
    }

    private static Obstacle? OfRevision(PartState part, VariantState variant)
    {
        if (variant.Latest is not { } latest) return null;
        Sentence which = $"“{part.Name}” ({variant.Name}, revision {latest.Number})";
        return latest.Inspection switch
        {
            InspectionState.Done when latest.OpenEdges > 0 => new("mesh-open",
                $"The mesh of {which} has {latest.OpenEdges} open edges. Close the holes and upload it again.", part.Slug),
            InspectionState.Done => null,
            InspectionState.Rejected => new("mesh-rejected", $"{which} could not be read: {latest.Error} Upload a corrected file or discard the revision.", part.Slug),
            InspectionState.Failed => new("inspection-failed", $"The inspection of {which} broke off: {latest.Error} Ask for it to be inspected again.", part.Slug),
            _ => new("inspection-pending", $"{which} is still being inspected. Try again when the inspection is done.", part.Slug),
        };
    }
}
