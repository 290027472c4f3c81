using Catalogue.Data.Ranges;
using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>A figure's verdict in one sentence: the reason that decides, or that nothing stands in the way.</summary>
internal static class VerdictSentence
{
    public static Sentence Of(FigureVerdict verdict, bool withVolume)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        var built = verdict.Built.ToList();
        if (built.Count == 0) return $"No part has been published yet.";
        if (verdict.Verdict == Verdict.Suits) return Praise(built, withVolume, verdict.Overruled.Any()) + ChoiceWords(verdict) + OverruledWords(verdict);
        var deciding = verdict.Reasons.Where(r => !r.Optional && r.Finding.Weight == Gravest(verdict)).ToList();
        if (verdict.Verdict == Verdict.Unchecked)
        {
            var waiting = built.Count(p => p.Verdict == Verdict.Unchecked);
            if (waiting == 0 && verdict.Reasons.FirstOrDefault(r => !r.Optional && r.Finding.LeavesOpen) is { } unknown)
                return S($"{unknown.PartName}: {unknown.Finding.Message}") + ChoiceWords(verdict);
            return waiting == 1 ? S($"One part is still being checked; look again in a moment.") : S($"{waiting} parts are still being checked; look again in a moment.");
        }

        if (deciding.Count == 0) return Sentence.Empty;
        var parts = deciding.Select(r => r.Part).Distinct().Count();
        var more = parts switch
        {
            1 => Sentence.Empty,
            2 => S($"One more part too."),
            _ => MoreParts(parts - 1),
        };
        return S($"{deciding[0].PartName}: {deciding[0].Finding.Message}") + more + ChoiceWords(verdict) + OverruledWords(verdict);
    }

    public static Sentence MoreParts(int parts) => $"{parts} more parts too.";

    /// <summary>“Take Plain front: with Lit front, as it is usually built, it is unsuited.”; empty where the usual build serves as well.</summary>
    public static Sentence ChoiceWords(FigureVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        if (verdict.Usual.Verdict == verdict.Verdict) return Sentence.Empty;
        var others = verdict.Choices.Where(c => c.Chosen != c.Usual).ToList();
        var (take, usual) = (Wording.And(others.Select(c => c.Chosen.Part.Name)), Wording.And(others.Select(c => c.Usual.Part.Name)));
        return verdict.Usual.Verdict switch
        {
            Verdict.Care => $"Take {take}: with {usual}, as it is usually built, it suits with care.",
            Verdict.Unchecked => $"Take {take}: with {usual}, as it is usually built, it is not checked yet.",
            _ => S($"Take {take}: with {usual}, as it is usually built, it is unsuited."),
        };
    }

    /// <summary>“The designer overrules one care and says why.”; empty when none is overruled.</summary>
    private static Sentence OverruledWords(FigureVerdict verdict) => verdict.Overruled.Count() switch
    {
        0 => Sentence.Empty,
        1 => $"The designer overrules one care and says why.",
        var count => $"The designer overrules {count} cares and says why.",
    };

    private static Severity Gravest(FigureVerdict verdict) => verdict.Verdict == Verdict.Unsuited ? Severity.Stop : Severity.Care;

    private static Sentence Praise(List<PartVerdict> built, bool withVolume, bool overruled)
    {
        var parts = built.Count;
        if (!withVolume && overruled) return parts == 1 ? S($"Its one part suits.") : $"All {parts} parts suit.";
        if (!withVolume) return parts == 1 ? S($"Its one part passes every check.") : $"All {parts} parts pass every check.";
        return (built.Count(p => p.Judgement.Findings.Any(f => f.Code == "fit.turn")), parts) switch
        {
            (0, 1) => S($"Its one part fits."),
            (0, _) => $"All {parts} parts fit.",
            (_, 1) => $"Its one part fits when turned.",
            (1, _) => $"All {parts} parts fit, one of them only when turned.",
            (var turned, _) => $"All {parts} parts fit, {turned} of them only when turned.",
        };
    }
}

/// <summary>Counts of what is printed for a figure.</summary>
internal static class Pieces
{
    /// <summary>Prints for one figure: required parts, and of each choice one member, each in its quantity. Accessories apart.</summary>
    public static int Of(IndexedFigure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return figure.Parts.Where(p => p.Role == PartRole.Required).Sum(p => p.Quantity)
            + figure.Parts.Where(p => p.ChoiceId is not null).GroupBy(p => p.ChoiceId).Sum(c => (c.FirstOrDefault(p => p.IsDefaultMember) ?? c.First()).Quantity);
    }
}
