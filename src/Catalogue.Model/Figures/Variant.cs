using Catalogue.Geometry.Formats;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Figures;

/// <summary>One shape of a part, made for one or more processes.</summary>
public sealed class Variant
{
    private readonly List<Revision> _revisions = [];
    private readonly List<Declaration> _declarations = [];

    private Variant()
    {
    }

    internal Variant(Part part, string slug, string name, string? note)
    {
        Id = Guid.CreateVersion7();
        Part = part;
        PartId = part.Id;
        Slug = slug;
        SetWords(name, note);
    }

    public Guid Id { get; private set; }
    public Guid PartId { get; private set; }
    public Part Part { get; private set; } = null!;
    public string Slug { get; private set; } = "";
    public string Name { get; private set; } = "";
    public string Note { get; private set; } = "";

    /// <summary>Grows with every upload and never shrinks, so that no number is ever given twice.</summary>
    public int LastRevisionNumber { get; private set; }

    public DateTime? RemovedAt { get; private set; }
    public bool IsRemoved => RemovedAt is not null;

    public IReadOnlyList<Revision> Revisions => _revisions;

    /// <summary>What the designer says of processes; a process without one is not what this shape was made for.</summary>
    public IReadOnlyList<Declaration> Declarations => _declarations;

    public Revision? Latest => _revisions.Where(r => !r.IsDiscarded).MaxBy(r => r.Number);

    public bool IsMadeFor(string process) => _declarations.Exists(d => d.Process == process);

    /// <summary>States the processes this shape is made for; declarations already there keep their words.</summary>
    public void Declare(IReadOnlyCollection<string> processes, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(processes);
        if (processes.Count == 0)
            throw new RuleBrokenException("process-missing", $"A variant is made for at least one process. Nothing was changed; choose one.");
        var codes = ProcessCode.Checked(processes);
        _declarations.RemoveAll(d => !codes.Contains(d.Process));
        foreach (var process in codes)
            if (!IsMadeFor(process)) _declarations.Add(new Declaration(this, process));
        Part.Figure.Changed(now);
    }

    /// <summary>A new immutable upload, numbered one past the highest number this variant ever had.</summary>
    public Revision Upload(string sha256, long bytes, string fileName, LengthUnit? unit, string? note, MeshInspection inspection, DateTime now)
    {
        if (IsRemoved || Part.IsRemoved)
            throw new RuleBrokenException("variant-removed", $"“{Part.Name}” was taken out of the figure. Nothing was kept of the upload.");
        var revision = new Revision(this, LastRevisionNumber + 1, sha256, bytes, fileName, unit, note, inspection, now);
        LastRevisionNumber = revision.Number;
        _revisions.Add(revision);
        Part.Figure.Changed(now);
        return revision;
    }

    /// <summary>The revision whose repaired mesh may become the next one: a last look before that happens.</summary>
    /// <param name="number">The revision that is repaired.</param>
    /// <param name="lastSeen">The newest revision's number when the repair was decided on; null = whatever it is now.</param>
    /// <exception cref="RuleBrokenException"><c>not-found</c>, <c>variant-removed</c>, <c>revision-discarded</c>, <c>changed-meanwhile</c>.</exception>
    public Revision ToRepair(int number, int? lastSeen)
    {
        var revision = RevisionOf(number);
        if (IsRemoved || Part.IsRemoved)
            throw new RuleBrokenException("variant-removed", $"“{Part.Name}” was taken out of the figure. Nothing was changed; put it back first.");
        if (revision.IsDiscarded)
            throw new RuleBrokenException("revision-discarded", $"Revision {number} was discarded. Nothing was changed; take it back first, then repair it.");
        if (lastSeen is { } seen && seen != LastRevisionNumber)
        {
            throw new RuleBrokenException("changed-meanwhile",
                $"Revision {LastRevisionNumber} came in since you looked; perhaps somebody repaired this one already. Nothing was changed by you; look again and accept the repair if it is still wanted.");
        }

        return revision;
    }

    /// <summary>What to watch when printing this shape on a process it is made for; null or empty = nothing.</summary>
    public void Reserve(string process, string? reservation, DateTime now)
    {
        var declaration = _declarations.Find(d => d.Process == process)
            ?? throw new RuleBrokenException("process-missing", $"“{Name}” is not made for {process}. Nothing was changed; declare the process first.");
        declaration.Reserve(reservation);
        Part.Figure.Changed(now);
    }

    public void Describe(string name, string? note, DateTime now)
    {
        SetWords(name, note);
        Part.Figure.Changed(now);
    }

    /// <summary>Takes the variant out of the next edition; its revisions keep their numbers.</summary>
    public void Remove(DateTime now)
    {
        RemovedAt ??= now;
        Part.Figure.Changed(now);
    }

    /// <summary>Puts a variant that was taken out back into the next edition.</summary>
    public void Restore(DateTime now)
    {
        RemovedAt = null;
        Part.Figure.Changed(now);
    }

    /// <summary>Leaves an unpublished upload out of what is published next, or takes it back. Its number is not given again.</summary>
    /// <exception cref="RuleBrokenException">The revision is published, or not one of this variant.</exception>
    public void Discard(int number, bool discard, DateTime now)
    {
        var revision = RevisionOf(number);
        if (discard) revision.Discard(now);
        else revision.Keep();
        Part.Figure.Changed(now);
    }

    /// <summary>Says against a computed care, with the reason, that it does not hold for a revision on a process. Readers see both at once.</summary>
    /// <param name="judged">The revision's judgement there.</param>
    /// <exception cref="RuleBrokenException"><c>not-found</c>, <c>process-missing</c>, <c>finding-missing</c>, <c>overrule-refused</c>, <c>overrule-needless</c>, <c>text-missing</c>, <c>text-too-long</c>.</exception>
    public Overruling Overrule(int number, string process, string code, Judgement judged, string? reason, string by, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(judged);
        var revision = RevisionOf(number);
        if (!IsMadeFor(process))
            throw new RuleBrokenException("process-missing", $"“{Name}” is not made for {process}. Nothing was changed; declare the process first.");
        var overruling = revision.Overrule(process, code, judged.Findings.FirstOrDefault(f => f.Code == code), reason, by, now);
        Part.Figure.Changed(now);
        return overruling;
    }

    /// <summary>Takes an overruling back; it stays in the history.</summary>
    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public Overruling WithdrawOverruling(int number, string process, string code, string by, DateTime now)
    {
        var overruling = RevisionOf(number).WithdrawOverruling(process, code, by, now);
        Part.Figure.Changed(now);
        return overruling;
    }

    public Revision RevisionOf(int number) => _revisions.Find(r => r.Number == number)
        ?? throw new RuleBrokenException("not-found", $"“{Name}” has no revision {number}. Nothing was changed.");

    private void SetWords(string name, string? note)
    {
        Name = Text.Required(name, $"The variant's name", 120);
        Note = Text.Optional(note, $"The variant's note", 2_000);
    }
}

/// <summary>The designer's word that a variant is made for a process, and with which reservation.</summary>
public sealed class Declaration
{
    private Declaration()
    {
    }

    internal Declaration(Variant variant, string process)
    {
        VariantId = variant.Id;
        Process = process;
    }

    public Guid VariantId { get; private set; }
    public string Process { get; private set; } = "";

    /// <summary>What to watch when printing this shape on this process; empty when nothing.</summary>
    public string Reservation { get; private set; } = "";

    internal void Reserve(string? reservation) => Reservation = Text.Optional(reservation, $"The reservation", 500);
}
