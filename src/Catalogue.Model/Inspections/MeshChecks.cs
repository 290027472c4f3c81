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

/// <summary>Runs every check of the kernel on one mesh, each once, side by side; the tree and what else is shared are made by whoever needs them first. What is found does not depend on the order.</summary>
internal sealed class MeshChecks
{
    private readonly TriangleMesh _mesh;
    private readonly InspectionRequest _request;
    private readonly InspectionClock _clock;
    private readonly Lazy<MeshHealth> _health;
    private readonly Lazy<TriangleTree> _tree;
    private readonly Lazy<ConvexHull> _hull;
    private readonly Lazy<FitResult?> _fit;

    // Written by one check each.
    private SelfIntersections? _crossings;
    private MeshMeasures? _measures;
    private SmallestBox? _box;
    private bool _smallPart;
    private byte[] _profile = [];
    private RepairSummary? _repair;
    private WallMeasures? _walls;
    private GapMeasures? _gaps;
    private OverhangMeasures? _overhangs;
    private PinHoles? _holes;
    private LimbMeasures? _limbs;
    private TrappedLiquid? _liquid;
    private DetailMeasures? _details;
    private OrientationAdvice? _orientations;

    private MeshChecks(TriangleMesh mesh, InspectionRequest request, InspectionClock clock, CancellationToken stop)
    {
        (_mesh, _request, _clock) = (mesh, request, clock);
        _health = new(() => MeshHealth.Of(mesh, stop));
        _tree = new(() => TriangleTree.Build(mesh, stop));
        _hull = new(() => ConvexHull.Of(mesh, stop));
        _fit = new(() => request.Volume is { } room ? FitSearch.Fit(_hull.Value, room, stop) : null);
    }

    private delegate void Check(IProgress<double> progress, CancellationToken stop);

    /// <param name="request">Its volume is fitted into.</param>
    /// <param name="advise">True to look for orientations in that volume as well.</param>
    public static MeasuredMesh Run(TriangleMesh mesh, InspectionRequest request, bool advise, InspectionClock clock, CancellationToken cancellation)
    {
        var checks = new MeshChecks(mesh, request, clock, cancellation);
        CheckLanes.Run([.. checks.InOrder(advise && request.Volume is not null)], cancellation);
        return checks.Found();
    }

    /// <summary>What others wait for first, then the longest, those of one thread before those of all.</summary>
    private IEnumerable<Action<CancellationToken>> InOrder(bool advise)
    {
        yield return Stage("health", (_, _) => _ = _health.Value);
        yield return Stage("tree", (_, _) => _ = _tree.Value);
        yield return OfSolid("limbs", (progress, stop) => _limbs = LimbMeasures.Of(_tree.Value, progress, stop));
        yield return OfSolid("thickness", (progress, stop) => _walls = WallMeasures.Of(_tree.Value, progress, stop));
        yield return OfSolid("liquid", (progress, stop) => _liquid = TrappedLiquid.Of(_mesh, _tree.Value, _health.Value, Rotation.Identity, progress, stop));
        yield return Stage("fit", (progress, stop) =>
        {
            _box = SmallestBox.Of(_hull.Value, stop);
            progress.Report(0.6);
            _smallPart = SmallPartsGauge.TakesIn(_hull.Value, stop);
            _ = _fit.Value;
        });
        if (advise) yield return OfSolid("orientations", Advise);
        yield return OfSolid("detail", (progress, stop) => _details = DetailMeasures.Of(_tree.Value, progress, stop));
        yield return OfSolid("holes", (progress, stop) => _holes = PinHoles.Find(_mesh, _tree.Value, progress, stop));
        if (_request.ForRange) yield return Stage("fitProfile", (_, stop) => _profile = FitProfile.Of(_hull.Value, stop).ToBytes());
        yield return Stage("selfIntersections", (progress, stop) => _crossings = SelfIntersections.Find(_mesh, _tree.Value, MeshHealth.MostPlaces, progress, stop));
        yield return OfSolid("gaps", (progress, stop) => _gaps = GapMeasures.Of(_tree.Value, progress, stop));
        yield return OfSolid("overhang", (progress, stop) => _overhangs = OverhangMeasures.Of(_tree.Value, Rotation.Identity, progress, stop));
        yield return Stage("measures", (_, stop) => _measures = MeshMeasures.Of(_mesh, stop));
        yield return Only("repair", () => RepairSummary.HasCause(_health.Value), (_, stop) => _repair = RepairSummary.Of(_mesh, _health.Value, stop));
    }

    private void Advise(IProgress<double> progress, CancellationToken stop)
    {
        var inVat = _request.Processes.Any(p => ProcessCode.Category(p.Code) == "VPP");
        _orientations = OrientationAdvice.For(_tree.Value, _hull.Value, _request.Volume!.Value, _fit.Value, liquid: inVat, progress: progress, cancel: stop);
    }

    private Action<CancellationToken> Stage(string name, Check check) => stop => _clock.Time(name, progress =>
    {
        check(progress, stop);
        return true;
    });

    private Action<CancellationToken> Only(string name, Func<bool> when, Check check) => stop =>
    {
        if (when()) Stage(name, check)(stop);
    };

    private Action<CancellationToken> OfSolid(string name, Check check) => Only(name, () => _health.Value.HasInside && _tree.Value is not null, check);

    private MeasuredMesh Found() => new(_mesh.Bounds.Size, _health.Value, _crossings!, _measures!, _hull.Value, _box!, _smallPart, _fit.Value)
    {
        FitProfile = _profile,
        Repair = _repair,
        Walls = _walls,
        Gaps = _gaps,
        Overhangs = _overhangs,
        Holes = _holes,
        Limbs = _limbs,
        Liquid = _liquid,
        Details = _details,
        Orientations = _orientations,
    };
}
