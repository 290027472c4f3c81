using System.Text.Json;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data;

/// <summary>The judgement of a revision on a process, with what others reported and what its designer overrules, kept so that pages need not judge again. Replaced whole when limits or checks change.</summary>
public sealed class RevisionVerdict
{
    private RevisionVerdict()
    {
    }

    public RevisionVerdict(Guid revisionId, string process, Judgement judgement, DateTime now)
    {
        RevisionId = revisionId;
        Process = process;
        Replace(judgement, now);
    }

    /// <summary>Occurs in <see cref="FindingsJson"/> where a finding is overruled, and nowhere else.</summary>
    internal const string OverruledMark = "\"Overruled\":{";

    public Guid RevisionId { get; private set; }
    public string Process { get; private set; } = "";
    public Verdict Verdict { get; private set; }
    public string FindingsJson { get; private set; } = "[]";
    public DateTime JudgedAt { get; private set; }

    public Judgement Judgement => new(Verdict, JsonSerializer.Deserialize<List<Finding>>(FindingsJson) ?? []);

    /// <summary>True when another judgement says something else.</summary>
    public bool Differs(Judgement judgement)
    {
        ArgumentNullException.ThrowIfNull(judgement);
        return judgement.Verdict != Verdict || FindingsJson != JsonSerializer.Serialize(judgement.Findings);
    }

    public void Replace(Judgement judgement, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(judgement);
        Verdict = judgement.Verdict;
        FindingsJson = JsonSerializer.Serialize(judgement.Findings);
        JudgedAt = now;
    }
}
