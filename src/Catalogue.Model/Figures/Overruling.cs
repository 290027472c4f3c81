using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Figures;

/// <summary>A designer's word, with the reason, that a care which a check computed for a revision on a process does not hold.</summary>
/// <remarks>
/// It belongs to one revision: it speaks of that shape. The next one is judged afresh, and its page offers the same words again. Nothing is deleted: an
/// overruling that was taken back, or said anew with another reason, stays in the history.
/// </remarks>
public sealed class Overruling
{
    public const int MaxReason = 500;

    private Overruling()
    {
    }

    internal Overruling(Revision revision, string process, string code, string? reason, string by, DateTime now)
    {
        Id = Guid.CreateVersion7();
        RevisionId = revision.Id;
        Process = ProcessCode.Checked([process])[0];
        Code = code;
        Reason = Text.Required(reason, $"The reason why it does not hold", MaxReason);
        By = Text.Required(by, $"The name of who overrules", 80);
        At = now;
    }

    public Guid Id { get; private set; }
    public Guid RevisionId { get; private set; }
    public string Process { get; private set; } = "";

    /// <summary>The code of the finding, as in the decision table.</summary>
    public string Code { get; private set; } = "";

    public string Reason { get; private set; } = "";

    /// <summary>Who said so: the name that others see.</summary>
    public string By { get; private set; } = "";

    public DateTime At { get; private set; }
    public DateTime? WithdrawnAt { get; private set; }
    public string WithdrawnBy { get; private set; } = "";

    public bool Stands => WithdrawnAt is null;

    /// <summary>As a finding carries it.</summary>
    public Overruled Word => new(Reason, By, At);

    public bool Is(string process, string code) => Process == process && Code == code;

    internal void Withdraw(string by, DateTime now) => (WithdrawnAt, WithdrawnBy) = (now, Text.Required(by, $"The name of who takes it back", 80));
}
