using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;

namespace Catalogue.Model.Comparison;

/// <summary>Which revision a revision is compared with.</summary>
public static class RevisionHistory
{
    /// <summary>
    /// The nearest earlier revision of the same variant that counts: not discarded, and a mesh as far as is known. Null for the first one, and for
    /// a revision that was discarded or is no mesh itself.
    /// </summary>
    /// <param name="revision">One of <paramref name="revisions"/>, with its inspection.</param>
    /// <param name="revisions">Those of one variant that the reader may see: all for its designers, the published ones for everybody else.</param>
    public static Revision? Before(Revision revision, IEnumerable<Revision> revisions)
    {
        ArgumentNullException.ThrowIfNull(revision);
        ArgumentNullException.ThrowIfNull(revisions);
        return Counts(revision) ? revisions.Where(r => r.Number < revision.Number && Counts(r)).MaxBy(r => r.Number) : null;
    }

    private static bool Counts(Revision revision) =>
        !revision.IsDiscarded && revision.Inspection.State is not (InspectionState.Rejected or InspectionState.Failed);
}

/// <summary>What changed in a revision since the one before it.</summary>
/// <param name="Since">The number of the earlier revision.</param>
/// <param name="SameMesh">True when both are the same file, read in the same unit: then nothing changed and nothing is compared.</param>
/// <param name="Comparison">Null while nobody has asked for it yet.</param>
public sealed record RevisionChange(int Since, bool SameMesh, MeshComparison? Comparison)
{
    public MeshChange? Change => Comparison?.Change;

    /// <summary>True while the comparison is still to come.</summary>
    public bool IsPending => !SameMesh && Comparison is not { IsFinished: true };

    /// <summary>Null when there is nothing to compare with, or one of the two is not inspected yet.</summary>
    /// <param name="comparisons">Those that are there, by the ids of the two inspections.</param>
    public static RevisionChange? Of(
        Revision revision, IEnumerable<Revision> revisions, IReadOnlyDictionary<(Guid Before, Guid After), MeshComparison> comparisons)
    {
        ArgumentNullException.ThrowIfNull(comparisons);
        if (RevisionHistory.Before(revision, revisions) is not { } before) return null;
        if (before.InspectionId == revision.InspectionId) return new(before.Number, true, null);
        return before.Inspection.State == InspectionState.Done && revision.Inspection.State == InspectionState.Done
            ? new(before.Number, false, comparisons.GetValueOrDefault((before.InspectionId, revision.InspectionId)))
            : null;
    }
}
