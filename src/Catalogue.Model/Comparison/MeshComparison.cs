using System.Text.Json;

namespace Catalogue.Model.Comparison;

/// <summary>Where a comparison stands.</summary>
public enum ComparisonState
{
    Queued,
    Running,
    Done,

    /// <summary>It broke off; the reason is there.</summary>
    Failed,
}

/// <summary>What changed between the meshes of two inspections. Derived: worked out once per pair, whichever revisions have these meshes.</summary>
public sealed class MeshComparison
{
    /// <summary>Counts up whenever a comparison would answer differently; older ones are made again.</summary>
    public const int Version = 1;

    public const int MaxAttempts = 3;

    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web);

    private MeshComparison()
    {
    }

    public MeshComparison(Guid beforeId, Guid afterId, DateTime now)
    {
        if (beforeId == afterId) throw new ArgumentException("A mesh is not compared with itself.", nameof(afterId));
        (BeforeId, AfterId, QueuedAt) = (beforeId, afterId, now);
    }

    /// <summary>The inspection of the earlier mesh.</summary>
    public Guid BeforeId { get; private set; }

    /// <summary>The inspection of the later mesh.</summary>
    public Guid AfterId { get; private set; }

    public ComparisonState State { get; private set; }
    public int Attempts { get; private set; }

    /// <summary>The <see cref="Version"/> that filled this in.</summary>
    public int MadeByVersion { get; private set; }

    /// <summary>Why it broke off; empty when it did not.</summary>
    public Sentence ErrorMessage { get; private set; } = Sentence.Empty;

    public DateTime QueuedAt { get; private set; }
    public DateTime? FinishedAt { get; private set; }

    /// <summary>A <see cref="MeshChange"/> as JSON; empty until done.</summary>
    public string ChangeJson { get; private set; } = "";

    public bool IsFinished => State is ComparisonState.Done or ComparisonState.Failed;

    /// <summary>What changed; null until that is known.</summary>
    public MeshChange? Change => State == ComparisonState.Done ? JsonSerializer.Deserialize<MeshChange>(ChangeJson, Format) : null;

    public void Start()
    {
        State = ComparisonState.Running;
        Attempts++;
        ErrorMessage = Sentence.Empty;
    }

    /// <exception cref="ArgumentException">A number of the change is not finite.</exception>
    public void Finish(MeshChange change, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(change);
        ChangeJson = JsonSerializer.Serialize(change, Format);
        State = ComparisonState.Done;
        MadeByVersion = Version;
        FinishedAt = now;
    }

    public void Fail(Sentence message, DateTime now)
    {
        State = ComparisonState.Failed;
        ErrorMessage = message;
        MadeByVersion = Version;
        FinishedAt = now;
    }

    /// <summary>Back into the queue: asked for again, or found unfinished after a restart.</summary>
    public void Requeue(DateTime now, bool forgetAttempts)
    {
        State = ComparisonState.Queued;
        if (forgetAttempts) Attempts = 0;
        QueuedAt = now;
        FinishedAt = null;
    }
}
