using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Repair;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Inspections;

/// <summary>One inspected file, or one build item of it: the object that <c>inspect --json</c> prints and the API answers.</summary>
/// <remarks>Lengths in mm, areas in mm², volumes in mm³. A field of a check that was not asked for or did not apply is absent.</remarks>
public sealed record InspectionReport
{
    public string? File { get; init; }
    public string? Sha256 { get; init; }
    public string? Format { get; init; }
    public string? Unit { get; init; }
    public bool? UnitStated { get; init; }
    public IReadOnlyList<string>? Warnings { get; init; }

    /// <summary>The build item's name, where the file gives one.</summary>
    public string? Name { get; init; }

    public MeshReport? Mesh { get; init; }
    public SizeReport? Size { get; init; }
    public double? VolumeMm3 { get; init; }
    public double? AreaMm2 { get; init; }
    public double[]? Centroid { get; init; }
    public SmallestBoxReport? SmallestBox { get; init; }
    public FitReport? Fit { get; init; }
    public ThicknessReport? Thickness { get; init; }
    public GapsReport? Gaps { get; init; }
    public OverhangReport? Overhang { get; init; }
    public IReadOnlyList<HoleReport>? Holes { get; init; }
    public IReadOnlyList<PegReport>? Pegs { get; init; }
    public IReadOnlyList<LimbReport>? Limbs { get; init; }
    public LiquidReport? Liquid { get; init; }
    public DetailReport? Detail { get; init; }

    /// <summary>There when a volume is given.</summary>
    public OrientationsReport? Orientations { get; init; }

    public bool? SmallPart { get; init; }

    /// <summary>What a gentle repair could change; absent for a sound mesh and where nothing can be mended.</summary>
    public RepairSummary? Repair { get; init; }

    public IReadOnlyList<ProcessReport>? Processes { get; init; }

    /// <summary>Of each check and of all; checks run side by side, so they add up to more than the total.</summary>
    public IReadOnlyDictionary<string, double>? Milliseconds { get; init; }

    /// <summary>The build items of a file that holds several, each with the fields above.</summary>
    public IReadOnlyList<InspectionReport>? Items { get; init; }

    public ErrorReport? Error { get; init; }
}

public sealed record MeshReport
{
    public required int Triangles { get; init; }
    public required int Vertices { get; init; }
    public required int Shells { get; init; }
    public required bool Closed { get; init; }
    public required bool Manifold { get; init; }
    public required bool Oriented { get; init; }
    public required int BoundaryEdges { get; init; }
    public required int NonManifoldEdges { get; init; }
    public required int DegenerateTriangles { get; init; }
    public required int DuplicateTriangles { get; init; }
    public int? SelfIntersections { get; init; }
    public required int EulerCharacteristic { get; init; }
    public required int Voids { get; init; }
    public required int InsideOutShells { get; init; }

    public static MeshReport Of(MeshHealth health)
    {
        ArgumentNullException.ThrowIfNull(health);
        return new()
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
            InsideOutShells = health.Shells.Count(s => s.Kind == ShellKind.InsideOut),
        };
    }
}

public sealed record SizeReport(double X, double Y, double Z);

public sealed record SmallestBoxReport(double[] Size, double VolumeMm3, double[] Rotation);

/// <param name="SpareMm">The smallest margin in the best orientation; negative: that much too long in every orientation.</param>
public sealed record FitReport(bool Fits, double SpareMm, double[] Size, double[] Rotation)
{
    public static FitReport Of(FitAnswer fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new(fit.Fits, Math.Round(fit.SpareMm, 3), [fit.Size.X, fit.Size.Y, fit.Size.Z], fit.Rotation.ToRowMajor());
    }
}

public sealed record ProcessReport(string Process, string Verdict, IReadOnlyList<FindingReport> Findings);

public sealed record FindingReport
{
    public required string Code { get; init; }
    public required string Severity { get; init; }
    public double? Measured { get; init; }
    public double? Limit { get; init; }
    public string? Unit { get; init; }
    public double[]? At { get; init; }
    [JsonConverter(typeof(SentenceAsEnglish))]
    public required Sentence Message { get; init; }

    [JsonConverter(typeof(SentenceAsEnglish))]
    public Sentence? Arithmetic { get; init; }

    [JsonConverter(typeof(SentenceAsEnglish))]
    public Sentence? Source { get; init; }

    /// <summary>The designer's word that it does not hold for this file; absent where it counts.</summary>
    public Overruled? Overruled { get; init; }

    public Finding ToFinding() => new(Code, Words.TryParse<Verdicts.Severity>(Severity, out var severity) ? severity : Verdicts.Severity.Note, Message)
    {
        Measured = Measured,
        Limit = Limit,
        Unit = Unit,
        At = At is [var x, var y, var z] ? new Vec3(x, y, z) : null,
        Arithmetic = Arithmetic,
        Source = Source,
        Overruled = Overruled,
    };

    public static FindingReport Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return new()
        {
            Code = finding.Code,
            Severity = finding.Severity.Code(),
            Measured = finding.Measured,
            Limit = finding.Limit,
            Unit = finding.Unit,
            At = finding.At is { } at ? [at.X, at.Y, at.Z] : null,
            Message = finding.Message,
            Arithmetic = finding.Arithmetic,
            Source = finding.Source,
            Overruled = finding.Overruled,
        };
    }
}

public sealed record ErrorReport(string Code, string Message);

/// <summary>The report as JSON: camel case, absent instead of null.</summary>
public static class InspectionJson
{
    public static JsonSerializerOptions Options { get; } = Create(indented: false);

    private static readonly JsonSerializerOptions Indented = Create(indented: true);

    public static string Write(InspectionReport report, bool indented = false) => JsonSerializer.Serialize(report, indented ? Indented : Options);

    public static InspectionReport? Read(string json) => JsonSerializer.Deserialize<InspectionReport>(json, Options);

    private static JsonSerializerOptions Create(bool indented) => new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        WriteIndented = indented,
    };
}
