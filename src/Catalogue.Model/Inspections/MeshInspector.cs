using System.Diagnostics;
using System.Globalization;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Inspections;

/// <summary>Every check on one mesh file: read, weld, health, measures, hull, fit, findings. Pure: a stream in, values out.</summary>
public static class MeshInspector
{
    /// <summary>Counts up whenever a check would answer differently; stored inspections with a lower one are inspected again.</summary>
    public const int CheckVersion = 1;

    /// <param name="content">The file; read once, from its beginning.</param>
    /// <param name="length">Its number of bytes, when known.</param>
    /// <param name="stage">Told how far the work is; may be null.</param>
    /// <exception cref="MeshFormatException">The file is not a mesh that can be judged.</exception>
    public static InspectionResult Inspect(
        Stream content, long? length, InspectionRequest request, InspectionStage? stage = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var clock = new StageClock(stage);
        clock.Begin("read", 0);
        var file = MeshFileReader.Read(content, length, new MeshReadOptions { Unit = request.Unit }, cancellation);
        var whole = file.Items.Count == 1 ? file.Items[0].Mesh : Solids.Together([.. file.Items.Select(i => i.Mesh)]);
        var (facts, report) = InspectMesh(whole, file, request, clock, cancellation);
        if (file.Items.Count > 1)
        {
            report = report with
            {
                Items = [.. file.Items.Select(i => InspectMesh(i.Mesh, file, request, new StageClock(null), cancellation).Report with { Name = i.Name })],
            };
        }

        return new(facts, report with
        {
            File = request.File,
            Sha256 = request.Sha256,
            Format = CodeOf(file.Format),
            Unit = CodeOf(file.Unit),
            UnitStated = file.UnitStated,
            Warnings = file.Warnings.Count > 0 ? file.Warnings : null,
            Milliseconds = clock.Milliseconds(),
        });
    }

    private static (MeshFacts Facts, InspectionReport Report) InspectMesh(
        TriangleMesh mesh, MeshFile file, InspectionRequest request, StageClock clock, CancellationToken cancellation)
    {
        clock.Begin("health", 30);
        var health = MeshHealth.Of(mesh, cancellation);
        clock.Begin("measures", 60);
        var measures = MeshMeasures.Of(mesh, cancellation);
        clock.Begin("fit", 70);
        var hull = ConvexHull.Of(mesh, cancellation);
        FitResult? fit = request.Volume is { } room ? FitSearch.Fit(hull, room, cancellation) : null;
        clock.End();
        var facts = FactsOf(mesh, file, health, measures) with { Hull = hull.ToBytes() };
        return (facts, ReportOf(facts, health, measures, fit, request));
    }

    private static MeshFacts FactsOf(TriangleMesh mesh, MeshFile file, MeshHealth health, MeshMeasures measures) => new()
    {
        Triangles = health.Triangles,
        Shells = health.Shells.Count,
        Closed = health.Closed,
        Manifold = health.Manifold,
        Oriented = health.Oriented,
        OpenEdges = health.BoundaryEdges,
        NonManifoldEdges = health.NonManifoldEdges,
        DegenerateTriangles = health.DegenerateTriangles,
        DuplicateTriangles = health.DuplicateTriangles,
        InsideOutShells = health.Shells.Count(s => s.Kind == ShellKind.InsideOut),
        Voids = health.Voids,
        Size = mesh.Bounds.Size,
        VolumeMm3 = measures.VolumeMm3,
        AreaMm2 = measures.AreaMm2,
        TroubleAt = health.BoundaryPlaces.Concat(health.NonManifoldEdgePlaces).Cast<Vec3?>().FirstOrDefault(),
        UnitStated = file.UnitStated,
        Warnings = file.Items.Count > 1
            ? [.. file.Warnings, string.Create(CultureInfo.InvariantCulture, $"The file holds {file.Items.Count} separate things to build; they are judged together, as one piece. Upload one file per part.")]
            : file.Warnings,
    };

    private static InspectionReport ReportOf(MeshFacts facts, MeshHealth health, MeshMeasures measures, FitResult? fit, InspectionRequest request) => new()
    {
        Mesh = new()
        {
            Triangles = health.Triangles,
            Vertices = health.Vertices,
            Shells = health.Shells.Count,
            Closed = health.Closed,
            Manifold = health.Manifold,
            Oriented = health.Oriented,
            BoundaryEdges = health.BoundaryEdges,
            NonManifoldEdges = health.NonManifoldEdges,
            DegenerateTriangles = health.DegenerateTriangles,
            DuplicateTriangles = health.DuplicateTriangles,
            EulerCharacteristic = health.EulerCharacteristic,
            Voids = health.Voids,
            InsideOutShells = facts.InsideOutShells,
        },
        Size = new(facts.Size.X, facts.Size.Y, facts.Size.Z),
        VolumeMm3 = measures.VolumeMm3,
        AreaMm2 = measures.AreaMm2,
        Centroid = [measures.Centroid.X, measures.Centroid.Y, measures.Centroid.Z],
        Fit = fit is null ? null : FitOf(fit),
        Processes = request.Processes.Count == 0 ? null :
        [
            .. request.Processes.Select(process =>
            {
                var judgement = RevisionJudge.Judge(facts, process);
                if (fit is not null) judgement = judgement.With(FitFindings.Of(FitAnswer.Of(fit, facts.Size, request.Volume!.Value), request.Volume!.Value));
                return new ProcessReport(process.Code, judgement.Verdict.Code(), [.. judgement.Findings.Select(FindingReport.Of)]);
            }),
        ],
    };

    private static FitReport FitOf(FitResult fit) =>
        new(fit.Fits, Math.Round(fit.SpareMm, 3), [fit.Size.X, fit.Size.Y, fit.Size.Z], fit.Rotation.ToRowMajor());

    public static string CodeOf(MeshFormat format) => format switch
    {
        MeshFormat.StlBinary => "stl-binary",
        MeshFormat.StlAscii => "stl-ascii",
        MeshFormat.Obj => "obj",
        _ => "3mf",
    };

    public static string CodeOf(LengthUnit unit) => unit switch
    {
        LengthUnit.Millimetre => "mm",
        LengthUnit.Micron => "micron",
        LengthUnit.Centimetre => "cm",
        LengthUnit.Inch => "inch",
        LengthUnit.Foot => "foot",
        _ => "m",
    };

    /// <summary>Times the stages and tells of them.</summary>
    private sealed class StageClock(InspectionStage? tell)
    {
        private readonly Dictionary<string, double> _stages = [];
        private readonly long _start = Stopwatch.GetTimestamp();
        private long _stageStart;
        private string? _stage;

        public void Begin(string name, int percent)
        {
            End();
            (_stage, _stageStart) = (name, Stopwatch.GetTimestamp());
            tell?.Invoke(percent, name);
        }

        public void End()
        {
            if (_stage is not null) _stages[_stage] = Math.Round(Stopwatch.GetElapsedTime(_stageStart).TotalMilliseconds, 2);
            _stage = null;
        }

        public Dictionary<string, double> Milliseconds() =>
            new(_stages) { ["total"] = Math.Round(Stopwatch.GetElapsedTime(_start).TotalMilliseconds, 2) };
    }
}
