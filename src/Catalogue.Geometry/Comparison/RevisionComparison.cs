using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Comparison;

/// <summary>One of two revisions to compare: the mesh and what is known of it.</summary>
public sealed record ComparedRevision(TriangleMesh Mesh, TriangleTree Tree, MeshMeasures Measures, MeshHealth Health)
{
    /// <summary>Finds out everything that is needed. O(n log n).</summary>
    public static ComparedRevision Of(TriangleMesh mesh, CancellationToken cancel = default) =>
        new(mesh, TriangleTree.Build(mesh, cancel), MeshMeasures.Of(mesh, cancel), MeshHealth.Of(mesh, cancel));
}

/// <summary>What changed from one revision to the next. Meshes are compared where they lie: a part that was moved or turned deviates by as much.</summary>
/// <param name="BeforeToAfter">How far the old surface is from the new one: large where something was taken away or moved.</param>
/// <param name="AfterToBefore">How far the new surface is from the old one: large where something was added or moved.</param>
/// <param name="Size">Change of the box's edges along x, y, z, mm.</param>
/// <param name="VolumeMm3">New volume less the old.</param>
/// <param name="AreaMm2">New area less the old.</param>
/// <param name="Before">Counts that describe the old revision's connectedness.</param>
/// <param name="After">The same of the new one.</param>
public sealed record RevisionComparison(
    SurfaceDeviation BeforeToAfter, SurfaceDeviation AfterToBefore, Vec3 Size, double VolumeMm3, double AreaMm2, Topology Before, Topology After)
{
    /// <summary>The larger of both ways, the Hausdorff distance: right within the larger <see cref="SurfaceDeviation.ErrorBound"/>.</summary>
    public double LargestDeviation => Math.Max(BeforeToAfter.Largest, AfterToBefore.Largest);

    public bool TopologyChanged => Before != After;

    /// <summary>Compares two revisions; see <see cref="SurfaceDeviation.Of"/> for method and cost.</summary>
    /// <param name="before">The earlier one.</param>
    /// <param name="after">The later one.</param>
    /// <param name="errorBound">How exact the largest deviation is to be, mm.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="ArgumentException">A mesh has no triangles.</exception>
    public static RevisionComparison Between(ComparedRevision before, ComparedRevision after, double errorBound = 0.01, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        return new(
            SurfaceDeviation.Of(before.Tree, after.Tree, errorBound, cancel),
            SurfaceDeviation.Of(after.Tree, before.Tree, errorBound, cancel),
            after.Mesh.Bounds.Size - before.Mesh.Bounds.Size,
            after.Measures.VolumeMm3 - before.Measures.VolumeMm3,
            after.Measures.AreaMm2 - before.Measures.AreaMm2,
            Topology.Of(before.Health),
            Topology.Of(after.Health));
    }
}

/// <summary>How a surface hangs together.</summary>
/// <param name="Shells">Connected pieces of surface.</param>
/// <param name="Voids">Those that are holes inside material.</param>
/// <param name="Handles">Holes that go through, over all closed shells: (2 − Euler characteristic) / 2 of each.</param>
/// <param name="Closed">No open edges.</param>
public readonly record struct Topology(int Shells, int Voids, int Handles, bool Closed)
{
    public static Topology Of(MeshHealth health)
    {
        ArgumentNullException.ThrowIfNull(health);
        return new(health.Shells.Count, health.Voids, health.Shells.Where(s => s.Closed).Sum(s => (2 - s.EulerCharacteristic) / 2), health.Closed);
    }
}
