using System.Text.Json.Serialization;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Model.Comparison;

namespace Catalogue.Model.Repair;

/// <summary>The health of a mesh, before or after a repair.</summary>
public sealed record RepairState
{
    public required int Triangles { get; init; }
    public required int Shells { get; init; }
    public required bool Closed { get; init; }
    public required int BoundaryEdges { get; init; }
    public required int NonManifoldEdges { get; init; }

    /// <summary>Edges whose two triangles face opposite ways.</summary>
    public required int DisorientedEdges { get; init; }

    public required int DegenerateTriangles { get; init; }
    public required int DuplicateTriangles { get; init; }
    public required int InsideOutShells { get; init; }

    /// <summary>Pairs of triangles that meet where they should not.</summary>
    public required long SelfIntersections { get; init; }

    public required double[] SizeMm { get; init; }

    /// <summary>Absent while the surface is open and encloses none; negative while it is inside out.</summary>
    public double? VolumeMm3 { get; init; }

    public required double AreaMm2 { get; init; }

    public static RepairState Of(TriangleMesh mesh, TriangleTree tree, MeshHealth health, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(health);
        var measures = MeshMeasures.Of(mesh, cancel);
        return new()
        {
            Triangles = health.Triangles,
            Shells = health.Shells.Count,
            Closed = health.Closed,
            BoundaryEdges = health.BoundaryEdges,
            NonManifoldEdges = health.NonManifoldEdges,
            DisorientedEdges = health.DisorientedEdges,
            DegenerateTriangles = health.DegenerateTriangles,
            DuplicateTriangles = health.DuplicateTriangles,
            InsideOutShells = health.Shells.Count(s => s.Kind == ShellKind.InsideOut),
            SelfIntersections = Geometry.Health.SelfIntersections.Find(mesh, tree, 0, cancel: cancel).Count,
            SizeMm = MeshChange.Rounded(mesh.Bounds.Size),
            VolumeMm3 = health.Closed ? MeshChange.Rounded(measures.VolumeMm3) : null,
            AreaMm2 = MeshChange.Rounded(measures.AreaMm2),
        };
    }

    /// <summary>Nothing left to mend.</summary>
    [JsonIgnore]
    public bool IsSound => SelfIntersections == 0 && Flaws().All(f => f == 0);

    /// <summary>True when the surface runs through itself and the other did not.</summary>
    public bool CrossesUnlike(RepairState other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return SelfIntersections > 0 && other.SelfIntersections == 0;
    }

    /// <summary>Less of some flaw, more of none, and not running through itself unlike the other. A filled hole within surfaces that cross already may add a pair.</summary>
    public bool IsBetterThan(RepairState other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var pairs = Flaws().Zip(other.Flaws()).ToList();
        return pairs.TrueForAll(p => p.First <= p.Second) && pairs.Exists(p => p.First < p.Second) && !CrossesUnlike(other);
    }

    private IEnumerable<long> Flaws() =>
        [BoundaryEdges, NonManifoldEdges, DisorientedEdges, DegenerateTriangles, DuplicateTriangles, InsideOutShells];
}
