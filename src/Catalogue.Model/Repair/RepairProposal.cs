using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Repair;
using Catalogue.Geometry.Spatial;
using Catalogue.Model.Comparison;

namespace Catalogue.Model.Repair;

/// <summary>What a gentle repair would change in a mesh file: the changes, the state before and after, and how far the surface moves. Pure; nothing is written.</summary>
public sealed record RepairProposal
{
    /// <summary>Where the first changes of a kind are; the rest are counted.</summary>
    private const int Places = 8;

    /// <summary>How exact the largest deviation is, mm: a tenth of the widest crack that is stitched.</summary>
    private const double ErrorBoundMm = 0.002;

    /// <summary>One for each kind of change, in the order they are made.</summary>
    public required IReadOnlyList<RepairStepReport> Changes { get; init; }

    public required RepairState Before { get; init; }
    public required RepairState After { get; init; }

    /// <summary>How far the repaired surface is from the one that was uploaded, both ways.</summary>
    public required MeshChange Change { get; init; }

    /// <summary>The file's own format: the repaired mesh is written in the same, where it can be.</summary>
    public required MeshFormat Format { get; init; }

    /// <summary>The repaired mesh, mm.</summary>
    public required TriangleMesh Mesh { get; init; }

    /// <summary>Works out a repair of a whole file.</summary>
    /// <remarks>
    /// The kernel refuses a change that makes holes or edges worse; here self-intersections are looked at as well, because a filled hole may
    /// run through another surface. Where the surface did not before, holes are then left open; when that does not help either, nothing is
    /// proposed. Where it did already, a few pairs more or less are only told. A few passes over the mesh, O(n log n); memory a few times that of the mesh. Deterministic: the same file gives the same proposal.
    /// </remarks>
    /// <param name="content">A mesh file, from its beginning.</param>
    /// <param name="unit">The unit its numbers are in; null = as the file says.</param>
    /// <exception cref="RuleBrokenException"><c>file-several-items</c>, <c>nothing-to-repair</c>, <c>repair-no-better</c>.</exception>
    /// <exception cref="MeshFormatException">The file is no mesh.</exception>
    public static RepairProposal Of(Stream content, long? length, LengthUnit? unit, CancellationToken cancel = default)
    {
        var file = MeshFileReader.Read(content, length, new MeshReadOptions { Unit = unit }, cancel);
        if (file.Items.Count > 1)
        {
            throw new RuleBrokenException("file-several-items", $"The file holds {file.Items.Count} separate things to build, and a repair would make one of them. Nothing was changed; upload one file per part.");
        }

        return Of(file.Items[0].Mesh, file.Format, cancel);
    }

    private static RepairProposal Of(TriangleMesh original, MeshFormat format, CancellationToken cancel)
    {
        var repair = MeshRepair.Propose(original, null, cancel);
        if (!RepairSummary.HasCause(repair.Before))
        {
            throw new RuleBrokenException("nothing-to-repair",
                $"The mesh has none of the flaws a gentle repair mends: no open edges, no triangles without area or there twice, nothing inside out. Nothing was changed.");
        }

        var tree = TriangleTree.Build(original, cancel);
        var before = RepairState.Of(original, tree, repair.Before, cancel);
        var (after, afterTree) = StateAfter(repair, cancel);
        if (after.CrossesUnlike(before) && repair.Changes.Any(c => c.Kind == RepairKind.FilledHoles))
        {
            repair = MeshRepair.Propose(original, RepairOptions.Default with { HoleMm = 0 }, cancel);
            (after, afterTree) = StateAfter(repair, cancel);
        }

        if (!after.IsBetterThan(before)) throw NoBetter(before, after);
        return new()
        {
            Changes = [.. repair.Changes.Select(c => RepairStepReport.Of(c, Places))],
            Before = before,
            After = after,
            Change = MeshChange.Of(RevisionComparison.Between(
                new(original, tree, MeshMeasures.Of(original, cancel), repair.Before),
                new(repair.Mesh, afterTree, MeshMeasures.Of(repair.Mesh, cancel), repair.After), ErrorBoundMm, cancel)),
            Format = format,
            Mesh = repair.Mesh,
        };
    }

    private static (RepairState State, TriangleTree Tree) StateAfter(MeshRepair repair, CancellationToken cancel)
    {
        var tree = TriangleTree.Build(repair.Mesh, cancel);
        return (RepairState.Of(repair.Mesh, tree, repair.After, cancel), tree);
    }

    private static RuleBrokenException NoBetter(RepairState before, RepairState after) => new("repair-no-better", after.CrossesUnlike(before)
        ? S($"A gentle repair would make the surface run through itself where it does not now. Nothing was changed; mend the mesh where it was modelled and upload it again.")
        : $"The mesh has flaws, but none that a gentle repair can mend: holes that are large or not flat, or places where surfaces meet in a way that could be meant otherwise. Nothing was changed; mend the mesh where it was modelled and upload it again.");

    /// <summary>Why the repaired revision is there, for its note, in the language of who asks: what was repaired, from which revision, how far the surface moved.</summary>
    public string Note(int revision)
    {
        var within = Math.Ceiling((Change.BeforeToAfter.LargestMm + Change.BeforeToAfter.ErrorBoundMm) * 1000) / 1000;
        return T($"Repaired from revision {revision}: {RepairWords.Listed([.. Changes.Select(c => c.Message)])}. Every point of the uploaded surface is within {within:0.###} mm of the repaired one.");
    }
}
