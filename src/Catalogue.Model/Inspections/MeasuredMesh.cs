using Catalogue.Geometry.Details;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Repair;

namespace Catalogue.Model.Inspections;

/// <summary>What the checks of the kernel found on one mesh: see <see cref="MeshChecks"/>.</summary>
internal sealed record MeasuredMesh(
    Vec3 Size, MeshHealth Health, SelfIntersections Crossings, MeshMeasures Measures, ConvexHull Hull, SmallestBox Box, bool SmallPart,
    FitResult? Fit)
{
    /// <summary>Null where it is not clear what is inside.</summary>
    public WallMeasures? Walls { get; init; }

    /// <summary>Null where it is not clear what is inside.</summary>
    public GapMeasures? Gaps { get; init; }

    /// <summary>In the file's own pose; null where it is not clear what is inside.</summary>
    public OverhangMeasures? Overhangs { get; init; }

    /// <summary>Null where it is not clear what is inside.</summary>
    public PinHoles? Holes { get; init; }

    /// <summary>Null where it is not clear what is inside.</summary>
    public LimbMeasures? Limbs { get; init; }

    /// <summary>What a gentle repair could change; null where there is nothing to mend or nothing that can be.</summary>
    public RepairSummary? Repair { get; init; }

    /// <summary>In the file's own pose; null where it is not clear what is inside.</summary>
    public TrappedLiquid? Liquid { get; init; }

    /// <summary>Null where it is not clear what is inside.</summary>
    public DetailMeasures? Details { get; init; }

    /// <summary>Ways to lay the part in the build volume; null when none is named or it is not clear what is inside.</summary>
    public OrientationAdvice? Orientations { get; init; }

    /// <summary>As <c>FitProfile.ToBytes</c> writes it; empty when it was not asked for.</summary>
    public byte[] FitProfile { get; init; } = [];

    public MeshFacts Facts(bool unitStated, IReadOnlyList<Sentence> warnings) => new()
    {
        Triangles = Health.Triangles,
        Shells = Health.Shells.Count,
        Closed = Health.Closed,
        Manifold = Health.Manifold,
        Oriented = Health.Oriented,
        OpenEdges = Health.BoundaryEdges,
        NonManifoldEdges = Health.NonManifoldEdges,
        DegenerateTriangles = Health.DegenerateTriangles,
        DuplicateTriangles = Health.DuplicateTriangles,
        SelfIntersections = (int)Math.Min(Crossings.Count, int.MaxValue),
        CrossingAt = Crossings.Places.Select(p => (Vec3?)p.At).FirstOrDefault(),
        InsideOutShells = Health.Shells.Count(s => s.Kind == ShellKind.InsideOut),
        Voids = Health.Voids,
        Size = Size,
        VolumeMm3 = Measures.VolumeMm3,
        AreaMm2 = Measures.AreaMm2,
        TroubleAt = Health.BoundaryPlaces.Concat(Health.NonManifoldEdgePlaces).Cast<Vec3?>().FirstOrDefault(),
        SmallPart = SmallPart,
        Walls = Walls,
        Gaps = Gaps,
        Overhangs = Overhangs,
        Holes = Holes,
        Limbs = Limbs,
        Repair = Repair,
        Liquid = Liquid,
        Details = Details,
        UnitStated = unitStated,
        Warnings = warnings,
        Hull = Hull.ToBytes(),
        FitProfile = FitProfile,
    };

    public MeshReport MeshReport() => Inspections.MeshReport.Of(Health) with { SelfIntersections = (int)Math.Min(Crossings.Count, int.MaxValue) };
}
