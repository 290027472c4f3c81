using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>A proposal to mend a mesh: what would change, where, and the mesh after it. Nothing is changed in the mesh given.</summary>
/// <remarks>
/// Only changes that no print shows: see <see cref="RepairKind"/>. What they cannot mend stays as it is and is told by <see cref="After"/>.
/// A kind of change is left out when it would make the mesh worse (more edges of three triangles, a closed surface opened).
/// Steps go from cracks over triangles and their winding to holes and shells, each on the result of the last; O(m) for bounded
/// valence, a few passes of <see cref="MeshHealth"/>. Deterministic; thread-safe. Filled holes are not tested against other surfaces: check
/// self-intersections after.
/// </remarks>
public sealed record MeshRepair
{
    private MeshRepair(TriangleMesh mesh, MeshHealth before, MeshHealth after, IReadOnlyList<RepairChange> changes) =>
        (Mesh, Before, After, Changes) = (mesh, before, after, changes);

    /// <summary>The mesh after all <see cref="Changes"/>, welded exactly; the one given when there is nothing to weld or change.</summary>
    public TriangleMesh Mesh { get; }

    /// <summary>Of the mesh given, welded exactly.</summary>
    public MeshHealth Before { get; }

    /// <summary>Of <see cref="Mesh"/>.</summary>
    public MeshHealth After { get; }

    /// <summary>One for each kind of change there was cause for, in the order made; none when there is nothing to mend or nothing that can be.</summary>
    public IReadOnlyList<RepairChange> Changes { get; }

    /// <param name="mesh">Any mesh; vertices at the same place count as one.</param>
    /// <param name="options">How far the repair may go; null = the defaults.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="ArgumentException">A limit is negative or not finite.</exception>
    public static MeshRepair Propose(TriangleMesh mesh, RepairOptions? options = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        options ??= RepairOptions.Default;
        options.Check();
        var now = ExactWeld.Of(mesh);
        if (now.VertexCount == mesh.VertexCount) now = mesh;
        var health = MeshHealth.Of(now, cancel);
        var before = health;
        var changes = new List<RepairChange>();
        Try(RepairKind.StitchedCracks, health.BoundaryEdges > 0 && options.CrackMm > 0, m => CrackStitch.Of(m, options.CrackMm));
        Try(RepairKind.DroppedDegenerateTriangles, health.DegenerateTriangles > 0, DegenerateTriangles.Dropped);
        Try(RepairKind.DroppedDuplicateTriangles, health.DuplicateTriangles > 0, DuplicateTriangles.Dropped);
        Try(RepairKind.TurnedTriangles, !health.Oriented, ConsistentWinding.Of);
        Try(RepairKind.FilledHoles, health.BoundaryEdges > 0 && options.HoleMm > 0, m => HoleFilling.Of(m, health, options));
        Try(RepairKind.TurnedShells, health.Shells.Any(s => s.Kind == ShellKind.InsideOut), m => TurnedShells(m, health));
        return new(now, before, health, changes);

        void Try(RepairKind kind, bool cause, Func<TriangleMesh, RepairStep> step)
        {
            if (!cause) return;
            cancel.ThrowIfCancellationRequested();
            var result = step(now);
            if (result.Count == 0) return;
            var after = MeshHealth.Of(result.Mesh, cancel);
            if (IsWorse(kind, health, after)) return;
            (now, health) = (result.Mesh, after);
            changes.Add(new(kind, result.Count, result.Places));
        }
    }

    private static bool IsWorse(RepairKind kind, MeshHealth before, MeshHealth after) =>
        after.NonManifoldEdges > before.NonManifoldEdges
        || (before.Closed && !after.Closed)
        || kind switch
        {
            RepairKind.StitchedCracks or RepairKind.FilledHoles => after.BoundaryEdges >= before.BoundaryEdges,
            RepairKind.DroppedDegenerateTriangles => after.DegenerateTriangles >= before.DegenerateTriangles,
            RepairKind.DroppedDuplicateTriangles => after.DuplicateTriangles >= before.DuplicateTriangles,
            RepairKind.TurnedTriangles => after.DisorientedEdges >= before.DisorientedEdges,
            _ => false,
        };

    private static RepairStep TurnedShells(TriangleMesh mesh, MeshHealth health)
    {
        var indices = mesh.Indices.ToArray();
        var shellOf = health.ShellOfTriangle.Span;
        for (var t = 0; t < shellOf.Length; t++)
        {
            if (shellOf[t] < 0 || health.Shells[shellOf[t]].Kind != ShellKind.InsideOut) continue;
            (indices[(3 * t) + 1], indices[(3 * t) + 2]) = (indices[(3 * t) + 2], indices[(3 * t) + 1]);
        }

        var turned = health.Shells.Where(s => s.Kind == ShellKind.InsideOut).ToList();
        return new(mesh.WithTriangles(indices), turned.Count, [.. turned.Take(MeshHealth.MostPlaces).Select(s => s.At)]);
    }
}
