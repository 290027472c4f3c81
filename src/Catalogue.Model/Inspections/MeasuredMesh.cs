using Catalogue.Geometry.Details;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Gauges;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Processes;
using Catalogue.Model.Repair;

namespace Catalogue.Model.Inspections;

/// <summary>What the checks of the kernel found on one mesh, each asked once; the tree is built once and shared.</summary>
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

    /// <param name="request">Its volume is fitted into.</param>
    /// <param name="advise">True to look for orientations in that volume as well.</param>
    public static MeasuredMesh Of(TriangleMesh mesh, InspectionRequest request, bool advise, InspectionClock clock, CancellationToken cancellation)
    {
        clock.Begin("health", 20);
        var health = MeshHealth.Of(mesh, cancellation);
        if (RepairSummary.HasCause(health)) clock.Begin("repair", 30);
        var repair = RepairSummary.Of(mesh, health, cancellation);
        clock.Begin("tree", 40);
        var tree = TriangleTree.Build(mesh, cancellation);
        clock.Begin("selfIntersections", 50);
        var crossings = SelfIntersections.Find(mesh, tree, MeshHealth.MostPlaces, cancellation);
        clock.Begin("measures", 65);
        var measures = MeshMeasures.Of(mesh, cancellation);
        clock.Begin("fit", 70);
        var hull = ConvexHull.Of(mesh, cancellation);
        var box = SmallestBox.Of(hull, cancellation);
        var smallPart = SmallPartsGauge.TakesIn(hull, cancellation);
        FitResult? fit = request.Volume is { } room ? FitSearch.Fit(hull, room, cancellation) : null;
        var hasInside = health.HasInside;
        clock.Begin("thickness", 74);
        var walls = hasInside ? WallMeasures.Of(tree, null, cancellation) : null;
        clock.Begin("gaps", 78);
        var gaps = hasInside ? GapMeasures.Of(tree, null, cancellation) : null;
        clock.Begin("overhang", 80);
        var overhangs = hasInside ? OverhangMeasures.Of(tree, Rotation.Identity, cancellation) : null;
        clock.Begin("holes", 83);
        var holes = hasInside ? PinHoles.Find(mesh, tree, cancellation) : null;
        clock.Begin("limbs", 85);
        var limbs = hasInside ? LimbMeasures.Of(mesh, cancellation) : null;
        clock.Begin("liquid", 87);
        var liquid = hasInside ? TrappedLiquid.Of(mesh, tree, health, Rotation.Identity, cancellation) : null;
        clock.Begin("detail", 88);
        var details = hasInside ? DetailMeasures.Of(tree, cancellation) : null;
        OrientationAdvice? orientations = null;
        if (advise && hasInside && request.Volume is { } place)
        {
            clock.Begin("orientations", 90);
            var inVat = request.Processes.Any(p => ProcessCode.Category(p.Code) == "VPP");
            orientations = OrientationAdvice.For(tree, hull, place, fit, liquid: inVat, cancel: cancellation);
        }

        clock.End();
        return new(mesh.Bounds.Size, health, crossings, measures, hull, box, smallPart, fit)
        {
            Repair = repair,
            Walls = walls,
            Gaps = gaps,
            Overhangs = overhangs,
            Holes = holes,
            Limbs = limbs,
            Liquid = liquid,
            Details = details,
            Orientations = orientations,
        };
    }

    public MeshFacts Facts(bool unitStated, IReadOnlyList<string> warnings) => new()
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
    };

    public MeshReport MeshReport() => new()
    {
        Triangles = Health.Triangles,
        Vertices = Health.Vertices,
        Shells = Health.Shells.Count,
        Closed = Health.Closed,
        Manifold = Health.Manifold,
        Oriented = Health.Oriented,
        BoundaryEdges = Health.BoundaryEdges,
        NonManifoldEdges = Health.NonManifoldEdges,
        DegenerateTriangles = Health.DegenerateTriangles,
        DuplicateTriangles = Health.DuplicateTriangles,
        SelfIntersections = (int)Math.Min(Crossings.Count, int.MaxValue),
        EulerCharacteristic = Health.EulerCharacteristic,
        Voids = Health.Voids,
        InsideOutShells = Health.Shells.Count(s => s.Kind == ShellKind.InsideOut),
    };
}
