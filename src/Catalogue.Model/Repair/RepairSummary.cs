using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Repair;

namespace Catalogue.Model.Repair;

/// <summary>What a gentle repair could change in a flawed mesh, in short: stored with the inspection, so that nobody is offered a repair that changes nothing.</summary>
/// <param name="Changes">One for each kind of change, in the order they are made; never empty.</param>
/// <param name="Closed">True when the surface would be closed after it.</param>
public sealed record RepairSummary(IReadOnlyList<RepairStepReport> Changes, bool Closed)
{
    private const int Places = 1;

    /// <summary>Null for a sound mesh, and where nothing can be mended gently. Sound meshes cost nothing; see <see cref="MeshRepair"/> for the others.</summary>
    public static RepairSummary? Of(TriangleMesh mesh, MeshHealth health, CancellationToken cancel = default)
    {
        if (!HasCause(health)) return null;
        var repair = MeshRepair.Propose(mesh, null, cancel);
        return repair.Changes.Count == 0 ? null : new([.. repair.Changes.Select(c => RepairStepReport.Of(c, Places))], repair.After.Closed);
    }

    /// <summary>True when the mesh has a flaw of a kind that a repair mends, whether or not it can mend this one.</summary>
    public static bool HasCause(MeshHealth health)
    {
        ArgumentNullException.ThrowIfNull(health);
        return health.BoundaryEdges > 0 || health.DegenerateTriangles > 0 || health.DuplicateTriangles > 0 || !health.Oriented
            || health.Shells.Any(s => s.Kind == ShellKind.InsideOut);
    }
}
