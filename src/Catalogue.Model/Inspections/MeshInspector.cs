using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Inspections;

/// <summary>Every check on one mesh file: read, weld, health, self-intersections, measures, hull, fit, thickness, gaps, overhangs, holes, liquid, detail, repair, findings. Pure: a stream in, values out.</summary>
public static class MeshInspector
{
    /// <summary>Counts up whenever a check would answer differently; stored inspections with a lower one are inspected again.</summary>
    public const int CheckVersion = 14;

    /// <summary>The percentage at which a file of several build items is checked as a whole; then come the items.</summary>
    private const int WholeFile = 40;

    /// <param name="content">The file; read once, from its beginning.</param>
    /// <param name="length">Its number of bytes, when known.</param>
    /// <param name="stage">Told how far the work is, from any thread but never from two at once, and never less than before; may be null.</param>
    /// <exception cref="MeshFormatException">The file is not a mesh that can be judged.</exception>
    public static InspectionResult Inspect(
        Stream content, long? length, InspectionRequest request, InspectionStage? stage = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var clock = new InspectionClock(stage);
        var file = clock.Time("read", _ => MeshFileReader.Read(content, length, new MeshReadOptions { Unit = request.Unit }, cancellation));
        var several = file.Items.Count > 1;
        if (several) clock.End = WholeFile;
        var measured = MeshChecks.Run(file.Whole(), request, !several, clock, cancellation);
        var warnings = WarningsOf(file);
        var facts = measured.Facts(file.UnitStated, warnings);
        if (several) facts = facts with { Repair = null };
        return new(facts, ReportOf(measured, facts, request) with
        {
            File = request.File,
            Sha256 = request.Sha256,
            Format = CodeOf(file.Format),
            Unit = CodeOf(file.Unit),
            UnitStated = file.UnitStated,
            Warnings = warnings.Count > 0 ? [.. warnings.Select(w => w.English)] : null,
            Items = several ? ItemReports.Of(file, request, Within(stage, WholeFile, 100), cancellation) : null,
            Milliseconds = clock.Milliseconds(),
        });
    }

    private static InspectionStage? Within(InspectionStage? stage, int from, int to) =>
        stage is null ? null : (percent, name) => stage(from + ((to - from) * percent / 100), name);

    private static IReadOnlyList<Sentence> WarningsOf(MeshFile file) => file.Items.Count == 1 ? ItemReports.WarningsOf(file) :
    [
        .. ItemReports.WarningsOf(file),
        $"The file holds {file.Items.Count:N0} separate things to build; they are judged together, as one piece. Upload one file per part.",
        .. ItemReports.LeftOut(file.Items.Count),
    ];

    internal static InspectionReport ReportOf(MeasuredMesh measured, MeshFacts facts, InspectionRequest request) => new()
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
