using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Judging;

/// <summary>How far all revisions have been judged by limits or rules that are to come into effect. One row.</summary>
public sealed class Rejudgement
{
    public const int OnlyId = 1;

    private Rejudgement()
    {
    }

    /// <summary>Of a catalogue without revisions.</summary>
    /// <param name="rules">The version of the program's rules (<see cref="Catalogue.Model.Verdicts.Rules.Version"/>).</param>
    public Rejudgement(int rules) => Rules = rules;

    public int Id { get; private set; } = OnlyId;

    /// <summary>The version of the rules that every verdict is by, or, while <see cref="RulesChanging"/>, is being brought to: those of the program that was started last. 0 = from before they were counted.</summary>
    public int Rules { get; private set; }

    /// <summary>True until every verdict is by <see cref="Rules"/>: what is judged ahead is judged from the beginning, not only by what a limit concerns.</summary>
    public bool RulesChanging { get; private set; }

    /// <summary>Counts every change of limits or rules that was asked for.</summary>
    public long Asked { get; private set; }

    /// <summary>The change that the verdicts worked out so far are for; less than <see cref="Asked"/> when they are no longer any good.</summary>
    public long Working { get; private set; }

    /// <summary>The change that came into effect last.</summary>
    public long Done { get; private set; }

    /// <summary>The last revision judged; they come in the order of their ids.</summary>
    public Guid LastRevision { get; private set; }

    public int Judged { get; private set; }
    public int Total { get; private set; }
    public DateTime? StartedAt { get; private set; }

    /// <summary>When verdicts became other ones last: those that were switched then were judged at this very time.</summary>
    public DateTime? SwitchedAt { get; private set; }

    public bool IsGoingOn => Done < Asked;

    public int Percent => !IsGoingOn ? 100 : Working < Asked || Total == 0 ? 0 : Math.Min(99, (int)(100L * Judged / Total));

    /// <summary>From the first revision on, for the change asked for last.</summary>
    public void Begin(int total, DateTime now) => (Working, LastRevision, Judged, Total, StartedAt) = (Asked, Guid.Empty, 0, total, now);

    public void Advance(Guid lastRevision, int revisions) => (LastRevision, Judged) = (lastRevision, Judged + revisions);

    /// <summary>What was worked out has come into effect.</summary>
    public void End(DateTime switchedAt) => (Done, SwitchedAt, RulesChanging) = (Working, switchedAt, false);
}

/// <summary>A verdict by limits or rules that are not in effect yet: it becomes the <see cref="RevisionVerdict"/> of the same key, together with all others, when they are. None where it would be the same.</summary>
public sealed class NextVerdict
{
    public Guid RevisionId { get; private set; }
    public string Process { get; private set; } = "";
    public Verdict Verdict { get; private set; }
    public string FindingsJson { get; private set; } = "[]";
}
