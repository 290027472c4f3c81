using Catalogue.Model.Figures;

namespace Catalogue.Model.Verdicts;

/// <summary>One variant's revision as a candidate for a part, already judged on the process (and the printer's volume, if one is named).</summary>
public sealed record Candidate(Guid VariantId, Guid RevisionId, string Variant, Judgement Judgement);

/// <summary>A part of a figure with the candidates that are made for the process asked about.</summary>
public sealed record PartCase(Guid PartId, string Slug, string Name, PartRole Role, Guid? ChoiceId, string? ChoiceName, IReadOnlyList<Candidate> Candidates)
{
    public bool IsDefaultMember { get; init; }

    /// <summary>How many variants the part has for other processes: tells “not made for this process” from “not made at all”.</summary>
    public int OtherVariants { get; init; }
}

/// <summary>A joint that is used on the process asked about, judged there.</summary>
public sealed record JointCase(Guid JointId, Guid FirstPartId, Guid SecondPartId, Judgement Judgement);

/// <summary>A part with the candidate that serves it best, or none.</summary>
public sealed record PartVerdict(PartCase Part, Candidate? Chosen, Judgement Judgement)
{
    public Verdict Verdict => Judgement.Verdict;
}

/// <summary>A choice with the member that serves best and the one that is built when nobody says otherwise.</summary>
public sealed record ChoiceVerdict(Guid ChoiceId, string Name, PartVerdict Chosen, PartVerdict Usual, IReadOnlyList<PartVerdict> Members);

/// <summary>One reason for a figure's verdict.</summary>
public sealed record Reason(string Part, string PartName, Finding Finding, bool Optional);

/// <summary>A figure's verdict on a process, with everything it rests on.</summary>
public sealed record FigureVerdict(
    Verdict Verdict, IReadOnlyList<PartVerdict> Parts, IReadOnlyList<ChoiceVerdict> Choices, IReadOnlyList<Reason> Reasons)
{
    /// <summary>The verdict of the figure as it is built when nobody chooses: with the usual member of each choice. Never better than <see cref="Verdict"/>.</summary>
    public required UsualBuild Usual { get; init; }

    /// <summary>Cares of parts that are built and that the designer overruled.</summary>
    public IEnumerable<Reason> Overruled => Reasons.Where(r => !r.Optional && r.Finding.Overruled is not null);

    /// <summary>The parts that are built: required ones, and of each choice the member that serves best. Optional parts apart.</summary>
    public IEnumerable<PartVerdict> Built => Parts.Where(p => p.Part.Role == PartRole.Required).Concat(Choices.Select(c => c.Chosen));

    /// <summary>The gravest parts: those whose own verdict is the figure's.</summary>
    public IEnumerable<PartVerdict> Deciding => Built.Where(p => p.Verdict == Verdict);
}

/// <summary>A figure built with the usual member of each choice.</summary>
/// <param name="Reasons">What is said of it, accessories apart; empty where the usual members are those that serve best.</param>
public sealed record UsualBuild(Verdict Verdict, IReadOnlyList<Reason> Reasons);

/// <summary>
/// From the verdicts of parts and joints to the verdict of a figure. The worst required part or joint between parts that are built decides; a choice
/// counts as its best member, joints with required parts included; an optional part, and a joint of one, never makes a figure unsuited: its findings are told apart.
/// </summary>
public static class FigureJudge
{
    public static FigureVerdict Judge(IReadOnlyList<PartCase> parts, string processName, IReadOnlyList<JointCase>? joints = null)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var (judged, held) = (parts.Select(p => Judge(p, processName)).ToList(), joints ?? []);
        var required = judged.Where(p => p.Part.Role == PartRole.Required).ToList();
        var optional = judged.Where(p => p.Part.Role == PartRole.Optional).ToList();
        var choices = judged.Where(p => p.Part.ChoiceId is not null).GroupBy(p => p.Part.ChoiceId!.Value).Select(g => Choose(g, required, held)).ToList();
        var best = Build([.. required, .. choices.Select(c => c.Chosen)], optional, held);
        var usual = choices.Count == 0 ? best : Build([.. required, .. choices.Select(c => c.Usual)], optional, held);

        // Members were chosen one choice at a time: a joint between two of them can still make the usual build the better one.
        if (usual.Verdict < best.Verdict) (best, choices) = (usual, [.. choices.Select(c => c with { Chosen = c.Usual })]);
        var differs = choices.Exists(c => c.Usual != c.Chosen);
        return new(best.Verdict, judged, choices, [.. best.Reasons, .. optional.SelectMany(p => Reasons(p, optional: true)), .. best.Extra])
        {
            Usual = differs ? new(usual.Verdict, usual.Reasons) : new(best.Verdict, []),
        };
    }

    /// <summary>The member with the least in its way, joints with required parts included; of equal ones the usual one, which is the first where none is named.</summary>
    private static ChoiceVerdict Choose(IGrouping<Guid, PartVerdict> members, List<PartVerdict> required, IReadOnlyList<JointCase> joints)
    {
        var usual = members.FirstOrDefault(m => m.Part.IsDefaultMember) ?? members.First();
        var best = members.OrderBy(m => Held(m, required, joints)).ThenByDescending(m => m == usual).First();
        return new(members.Key, usual.Part.ChoiceName ?? "", best, usual, [.. members]);
    }

    private static Verdict Held(PartVerdict member, List<PartVerdict> required, IReadOnlyList<JointCase> joints)
    {
        var worst = member.Verdict;
        foreach (var joint in joints)
        {
            var other = joint.FirstPartId == member.Part.PartId ? joint.SecondPartId : joint.SecondPartId == member.Part.PartId ? joint.FirstPartId : Guid.Empty;
            if (joint.Judgement.Verdict > worst && required.Exists(r => r.Part.PartId == other)) worst = joint.Judgement.Verdict;
        }

        return worst;
    }

    private static (Verdict Verdict, List<Reason> Reasons, IEnumerable<Reason> Extra) Build(List<PartVerdict> built, List<PartVerdict> optional, IReadOnlyList<JointCase> joints)
    {
        var (holding, extra) = Joined(joints, built, optional);
        var verdict = built.Count == 0 ? Verdict.Unchecked : built.Select(p => p.Verdict).Concat(holding.Select(j => j.Joint.Judgement.Verdict)).Max();
        var reasons = built.SelectMany(p => Reasons(p, optional: false)).Concat(holding.SelectMany(j => Reasons(j, optional: false)))
            .OrderByDescending(r => r.Finding.Weight).ThenByDescending(r => r.Finding.Severity).ToList();
        return (verdict, reasons, extra.SelectMany(j => Reasons(j, optional: true)));
    }

    /// <summary>The joints between parts that are built, and those with an optional part, each with its first part; of members not chosen none.</summary>
    private static (List<(JointCase Joint, PartCase Part)> Holding, List<(JointCase Joint, PartCase Part)> Extra) Joined(
        IReadOnlyList<JointCase> joints, List<PartVerdict> built, List<PartVerdict> optional)
    {
        var (holding, extra) = (new List<(JointCase, PartCase)>(), new List<(JointCase, PartCase)>());
        PartCase? Find(List<PartVerdict> among, Guid id) => among.Find(p => p.Part.PartId == id)?.Part;
        foreach (var joint in joints)
        {
            var (first, second) = (Find(built, joint.FirstPartId), Find(built, joint.SecondPartId));
            if (first is not null && second is not null) holding.Add((joint, first));
            else if ((first ?? Find(optional, joint.FirstPartId)) is { } one && (second ?? Find(optional, joint.SecondPartId)) is not null) extra.Add((joint, one));
        }

        return (holding, extra);
    }

    private static PartVerdict Judge(PartCase part, string processName)
    {
        if (part.Candidates.Count > 0)
        {
            var best = part.Candidates.MinBy(c => c.Judgement.Verdict)!;
            return new(part, best, best.Judgement);
        }

        return new(part, null, Judgement.From([
            Rules.NoVariant.Found(Severity.Stop, part.OtherVariants > 0
                ? S($"No file of this part is made for {Sentence.FromWords(processName)} yet, only for other processes.")
                : $"This part has no published mesh yet."),
        ]));
    }

    private static IEnumerable<Reason> Reasons(PartVerdict part, bool optional) => part.Judgement.Findings
        .Where(f => f.Severity > Severity.Note || part.Verdict == Verdict.Unchecked)
        .Select(f => new Reason(part.Part.Slug, part.Part.Name, f, optional));

    private static IEnumerable<Reason> Reasons((JointCase Joint, PartCase Part) joint, bool optional) => joint.Joint.Judgement.Findings
        .Where(f => f.Severity > Severity.Note || f.LeavesOpen)
        .Select(f => new Reason(joint.Part.Slug, joint.Part.Name, f, optional));
}
