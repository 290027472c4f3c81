using System.Text.Json;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Holes;

namespace Catalogue.Model.Inspections;

/// <summary>Where an inspection stands.</summary>
public enum InspectionState
{
    Queued,
    Running,

    /// <summary>Every check ran; the numbers are there.</summary>
    Done,

    /// <summary>The file is not a mesh that can be judged; the reason is there.</summary>
    Rejected,

    /// <summary>The inspection itself broke off (a fault of ours or of the machine); it can be asked for again.</summary>
    Failed,
}

/// <summary>The inspection of one mesh read in one unit. Identical meshes share it, whoever uploads them.</summary>
public sealed class MeshInspection
{
    public const int MaxAttempts = 3;

    private MeshInspection()
    {
    }

    public MeshInspection(string sha256, LengthUnit? statedUnit, DateTime now)
    {
        if (sha256 is not { Length: 64 }) throw new ArgumentException("A SHA-256 is 64 hexadecimal digits.", nameof(sha256));
        Id = Guid.CreateVersion7();
        Sha256 = sha256;
        UnitKey = KeyOf(statedUnit);
        QueuedAt = now;
    }

    public Guid Id { get; private set; }
    public string Sha256 { get; private set; } = "";

    /// <summary>The stated unit, or <c>none</c>: with <see cref="Sha256"/> the natural key.</summary>
    public string UnitKey { get; private set; } = "";

    public InspectionState State { get; private set; }

    /// <summary>The version of the checks that filled this in; an older one is inspected again by <c>recheck</c>.</summary>
    public int CheckVersion { get; private set; }

    public int Attempts { get; private set; }
    public int ProgressPercent { get; private set; }
    public string Stage { get; private set; } = "";
    public string ErrorCode { get; private set; } = "";

    /// <summary>Why it was rejected or broke off; empty when it did neither.</summary>
    public Sentence ErrorMessage { get; private set; } = Sentence.Empty;

    public DateTime QueuedAt { get; private set; }
    public DateTime? StartedAt { get; private set; }
    public DateTime? FinishedAt { get; private set; }

    public int Triangles { get; private set; }
    public int OpenEdges { get; private set; }
    public double SizeXMm { get; private set; }
    public double SizeYMm { get; private set; }
    public double SizeZMm { get; private set; }
    public double VolumeMm3 { get; private set; }
    public double AreaMm2 { get; private set; }

    /// <summary>Goes into the small-parts gauge; false also until that is known.</summary>
    public bool SmallPart { get; private set; }

    /// <summary>The fit profile, as <c>FitProfile.ToBytes</c> writes it; empty until done.</summary>
    public byte[] FitProfile { get; private set; } = [];

    /// <summary>The convex hull, as <c>ConvexHull.ToBytes</c> writes it; empty until done.</summary>
    public byte[] Hull { get; private set; } = [];

    /// <summary>The measurements verdicts are drawn from, as JSON.</summary>
    public string FactsJson { get; private set; } = "";

    /// <summary>The whole report, as <c>inspect --json</c> prints it, without what depends on a volume.</summary>
    public string ReportJson { get; private set; } = "";

    public bool IsFinished => State is InspectionState.Done or InspectionState.Rejected or InspectionState.Failed;

    public LengthUnit? StatedUnit => UnitKey == NoUnit ? null : Enum.Parse<LengthUnit>(UnitKey);

    public static string KeyOf(LengthUnit? unit) => unit?.ToString() ?? NoUnit;

    private const string NoUnit = "none";
    private static readonly JsonSerializerOptions FactsFormat = new() { IgnoreReadOnlyProperties = true };

    /// <summary>The measurements, without fit profile and hull.</summary>
    /// <exception cref="InvalidOperationException">The inspection is not done.</exception>
    public MeshFacts Facts => State == InspectionState.Done
        ? FactsOf(FactsJson)
        : throw new InvalidOperationException("Only a finished inspection has measurements.");

    /// <summary>Reads <see cref="FactsJson"/>, where it was fetched alone.</summary>
    public static MeshFacts FactsOf(string factsJson) => JsonSerializer.Deserialize<MeshFacts>(factsJson, FactsFormat)!;

    /// <summary>The holes alone, without reading the rest of the facts; null where they were not looked for.</summary>
    public PinHoles? Holes => State == InspectionState.Done ? JsonSerializer.Deserialize<HolesOfFacts>(FactsJson, FactsFormat)!.Holes : null;

    private sealed record HolesOfFacts(PinHoles? Holes);

    public void Start(DateTime now)
    {
        State = InspectionState.Running;
        StartedAt = now;
        Attempts++;
        (ProgressPercent, Stage) = (0, "reading");
        (ErrorCode, ErrorMessage) = ("", Sentence.Empty);
    }

    public void Advance(int percent, string stage)
    {
        if (State != InspectionState.Running) return;
        ProgressPercent = Math.Clamp(percent, ProgressPercent, 99);
        Stage = stage;
    }

    public void Finish(MeshFacts facts, string reportJson, int checkVersion, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(facts);
        State = InspectionState.Done;
        (ProgressPercent, Stage) = (100, "done");
        Triangles = facts.Triangles;
        OpenEdges = facts.OpenEdges;
        (SizeXMm, SizeYMm, SizeZMm) = (facts.Size.X, facts.Size.Y, facts.Size.Z);
        VolumeMm3 = facts.VolumeMm3;
        AreaMm2 = facts.AreaMm2;
        SmallPart = facts.SmallPart;
        FactsJson = JsonSerializer.Serialize(facts, FactsFormat);
        FitProfile = facts.FitProfile;
        Hull = facts.Hull;
        ReportJson = reportJson;
        CheckVersion = checkVersion;
        FinishedAt = now;
    }

    public void Reject(string code, Sentence message, int checkVersion, DateTime now)
    {
        State = InspectionState.Rejected;
        (Stage, ErrorCode, ErrorMessage) = ("rejected", code, message);
        CheckVersion = checkVersion;
        FinishedAt = now;
    }

    public void Fail(Sentence message, DateTime now)
    {
        State = InspectionState.Failed;
        (Stage, ErrorCode, ErrorMessage) = ("broke off", "inspection-failed", message);
        FinishedAt = now;
    }

    /// <summary>Back into the queue: asked for again, or found unfinished after a restart.</summary>
    public void Requeue(DateTime now, bool forgetAttempts)
    {
        State = InspectionState.Queued;
        (ProgressPercent, Stage) = (0, "waiting");
        if (forgetAttempts) Attempts = 0;
        QueuedAt = now;
        FinishedAt = null;
    }
}
