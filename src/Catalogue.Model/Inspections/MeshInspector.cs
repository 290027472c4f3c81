using System.Globalization;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Inspections;

/// <summary>Every check on one mesh file: read, weld, health, self-intersections, measures, hull, fit, thickness, gaps, overhangs, holes, liquid, detail, repair, findings. Pure: a stream in, values out.</summary>
public static class MeshInspector
{
    /// <summary>Counts up whenever a check would answer differently; stored inspections with a lower one are inspected again.</summary>
    public const int CheckVersion = 13;

    /// <summary>Of a file with more build items none is laid in the volume in several ways: it would take too long.</summary>
    private const int MostItemsAdvised = 12;

    /// <param name="content">The file; read once, from its beginning.</param>
    /// <param name="length">Its number of bytes, when known.</param>
    /// <param name="stage">Told how far the work is; may be null.</param>
    /// <exception cref="MeshFormatException">The file is not a mesh that can be judged.</exception>
    public static InspectionResult Inspect(
        Stream content, long? length, InspectionRequest request, InspectionStage? stage = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var clock = new InspectionClock(stage);
        clock.Begin("read", 0);
        var file = MeshFileReader.Read(content, length, new MeshReadOptions { Unit = request.Unit }, cancellation);
        var measured = MeasuredMesh.Of(file.Whole(), request, file.Items.Count == 1, clock, cancellation);
        var facts = measured.Facts(file.UnitStated, WarningsOf(file));
        if (file.Items.Count > 1) facts = facts with { Repair = null };
        if (request.ForRange)
        {
            clock.Begin("fitProfile", 92);
            facts = facts with { FitProfile = FitProfile.Of(measured.Hull, cancellation).ToBytes() };
            clock.End();
        }

        return new(facts, ReportOf(measured, facts, request) with
        {
            File = request.File,
            Sha256 = request.Sha256,
            Format = CodeOf(file.Format),
            Unit = CodeOf(file.Unit),
            UnitStated = file.UnitStated,
            Warnings = file.Warnings.Count > 0 ? file.Warnings : null,
            Items = file.Items.Count > 1 ? [.. file.Items.Select(i => ItemOf(i, file, request, cancellation))] : null,
            Milliseconds = clock.Milliseconds(),
        });
    }

    private static InspectionReport ItemOf(MeshItem item, MeshFile file, InspectionRequest request, CancellationToken cancellation)
    {
        var measured = MeasuredMesh.Of(item.Mesh, request, file.Items.Count <= MostItemsAdvised, new InspectionClock(null), cancellation);
        return ReportOf(measured, measured.Facts(file.UnitStated, file.Warnings), request) with { Name = item.Name };
    }

    private static IReadOnlyList<string> WarningsOf(MeshFile file) => file.Items.Count == 1 ? file.Warnings :
    [
        .. file.Warnings,
        string.Create(CultureInfo.InvariantCulture, $"The file holds {file.Items.Count} separate things to build; they are judged together, as one piece. Upload one file per part."),
    ];

    private static InspectionReport ReportOf(MeasuredMesh measured, MeshFacts facts, InspectionRequest request) => new()
    {
        Mesh = measured.MeshReport(),
        Size = new(facts.Size.X, facts.Size.Y, facts.Size.Z),
        VolumeMm3 = facts.VolumeMm3,
        AreaMm2 = facts.AreaMm2,
        Centroid = [measured.Measures.Centroid.X, measured.Measures.Centroid.Y, measured.Measures.Centroid.Z],
        SmallestBox = BoxOf(measured.Box),
        Thickness = measured.Walls is { } walls ? ThicknessReport.Of(walls) : null,
        Gaps = measured.Gaps is { } gaps ? GapsReport.Of(gaps) : null,
        Overhang = measured.Overhangs is { } overhangs ? OverhangReport.Of(overhangs) : null,
        Holes = measured.Holes is { } holes ? [.. holes.Holes.Select(HoleReport.Of)] : null,
        Limbs = measured.Limbs is { } limbs ? [.. limbs.Limbs.Select(LimbReport.Of)] : null,
        Pegs = measured.Holes is { } pegs ? [.. pegs.Pegs.Select(PegReport.Of)] : null,
        Liquid = measured.Liquid is { } liquid ? LiquidReport.Of(liquid) : null,
        Detail = measured.Details is { } details ? DetailReport.Of(details) : null,
        Orientations = measured.Orientations is { } advice ? OrientationsReport.Of(advice) : null,
        SmallPart = measured.SmallPart,
        Repair = facts.Repair,
        Fit = measured.Fit is { } fit ? FitOf(fit) : null,
        Processes = request.Processes.Count == 0 ? null :
        [
            .. request.Processes.Select(process =>
            {
                var judgement = RevisionJudge.Judge(facts, process);
                if (measured.Fit is { } answer && request.Volume is { } volume)
                    judgement = judgement.With(FitFindings.Of(FitAnswer.Of(answer, facts.Size, volume), volume));
                return new ProcessReport(process.Code, judgement.Verdict.Code(), [.. judgement.Findings.Select(FindingReport.Of)]);
            }),
        ],
    };

    private static SmallestBoxReport BoxOf(SmallestBox box) =>
        new([box.Size.X, box.Size.Y, box.Size.Z], box.Volume, box.Rotation.ToRowMajor());

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
}
