using Catalogue.Geometry.Formats;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Figures;

/// <summary>An upload of a variant. Number, file, unit and note never change; once published, neither does anything else.</summary>
/// <remarks>The database refuses such a change too (trigger <c>revisions_are_immutable</c> in the migrations).</remarks>
public sealed class Revision
{
    private readonly List<Overruling> _overrulings = [];

    private Revision()
    {
    }

    internal Revision(
        Variant variant, int number, string sha256, long bytes, string fileName, LengthUnit? unit, string? note, MeshInspection inspection, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(inspection);
        if (sha256 is not { Length: 64 }) throw new ArgumentException("A SHA-256 is 64 hexadecimal digits.", nameof(sha256));
        Id = Guid.CreateVersion7();
        VariantId = variant.Id;
        Number = number;
        Sha256 = sha256;
        Bytes = bytes;
        FileName = Text.Required(fileName, $"The file name", 200);
        StatedUnit = unit;
        Note = Text.Optional(note, $"The note", 2_000);
        Inspection = inspection;
        InspectionId = inspection.Id;
        UploadedAt = now;
    }

    public Guid Id { get; private set; }
    public Guid VariantId { get; private set; }
    public int Number { get; private set; }
    public string Sha256 { get; private set; } = "";
    public long Bytes { get; private set; }

    /// <summary>The uploaded file's own name, without any path; for display and download only.</summary>
    public string FileName { get; private set; } = "";

    /// <summary>The unit the designer stated; null = as the file says, or guessed.</summary>
    public LengthUnit? StatedUnit { get; private set; }

    /// <summary>Why this revision exists.</summary>
    public string Note { get; private set; } = "";

    public DateTime UploadedAt { get; private set; }
    public DateTime? PublishedAt { get; private set; }
    public DateTime? DiscardedAt { get; private set; }
    public bool IsPublished => PublishedAt is not null;
    public bool IsDiscarded => DiscardedAt is not null;
    public Guid InspectionId { get; private set; }
    public MeshInspection Inspection { get; private set; } = null!;

    /// <summary>What designers said against cares that were computed for it, those taken back too.</summary>
    public IReadOnlyList<Overruling> Overrulings => _overrulings;

    /// <param name="finding">As it was computed on the process; null = the check did not find it.</param>
    internal Overruling Overrule(string process, string code, Finding? finding, string? reason, string by, DateTime now)
    {
        if (finding is null)
        {
            throw new RuleBrokenException("finding-missing",
                $"Revision {Number} has no finding “{code}” on {process}, so there is nothing to overrule. Nothing was changed; perhaps a limit was changed meanwhile.");
        }

        if (finding.Severity == Severity.Stop)
        {
            throw new RuleBrokenException("overrule-refused",
                $"“{finding.Message}” stands in the way and cannot be overruled, whatever the reason. Nothing was changed; change the shape and upload a new revision, or take the process out of the variant.");
        }

        if (finding.Severity == Severity.Note)
            throw new RuleBrokenException("overrule-needless", $"“{code}” is only a note: it does not count against revision {Number}. Nothing was changed.");
        if (!finding.MayBeOverruled)
        {
            throw new RuleBrokenException("overrule-refused",
                $"What others reported cannot be overruled; it is answered with a new revision. Nothing was changed.");
        }

        var overruling = new Overruling(this, process, code, reason, by, now);
        foreach (var earlier in _overrulings.Where(o => o.Stands && o.Is(process, code))) earlier.Withdraw(by, now);
        _overrulings.Add(overruling);
        return overruling;
    }

    internal Overruling WithdrawOverruling(string process, string code, string by, DateTime now)
    {
        var overruling = _overrulings.Find(o => o.Stands && o.Is(process, code))
            ?? throw new RuleBrokenException("not-found", $"Nobody overrules “{code}” on {process} for revision {Number}. Nothing was changed.");
        overruling.Withdraw(by, now);
        return overruling;
    }

    /// <summary>Leaves an unpublished upload out of what is published next. Its number is not given again.</summary>
    internal void Discard(DateTime now)
    {
        if (IsPublished)
            throw new RuleBrokenException("revision-published", $"Revision {Number} is published and stays as it is. Nothing was changed; upload a new revision instead.");
        DiscardedAt ??= now;
    }

    /// <summary>Takes a discarded upload back.</summary>
    internal void Keep() => DiscardedAt = null;

    internal void MarkPublished(DateTime now)
    {
        if (IsDiscarded) throw new RuleBrokenException("revision-discarded", $"Revision {Number} was discarded. Nothing was published.");
        PublishedAt ??= now;
    }
}
