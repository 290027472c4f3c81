using Catalogue.Data.Ranges;
using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>A figure's verdict in one sentence: the reason that decides, or that nothing stands in the way.</summary>
internal static class VerdictSentence
{
    public static string Of(FigureVerdict verdict, bool withVolume)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        var built = verdict.Built.ToList();
        if (built.Count == 0) return "No part has been published yet.";
        if (verdict.Verdict == Verdict.Suits) return Praise(built, withVolume, verdict.Overruled.Any()) + ChoiceWords(verdict) + OverruledWords(verdict);
        var deciding = verdict.Reasons.Where(r => !r.Optional && r.Finding.Weight == Gravest(verdict)).ToList();
        if (verdict.Verdict == Verdict.Unchecked)
        {
            var waiting = built.Count(p => p.Verdict == Verdict.Unchecked);
            return waiting == 1 ? "One part is still being checked; look again in a moment." : $"{waiting} parts are still being checked; look again in a moment.";
        }

        if (deciding.Count == 0) return "";
        var parts = deciding.Select(r => r.Part).Distinct().Count();
        var first = $"{deciding[0].PartName}: {deciding[0].Finding.Message}";
        var more = parts switch
        {
            1 => "",
            2 => " One more part too.",
            _ => $" {parts - 1} more parts too.",
        };
        return first + more + ChoiceWords(verdict) + OverruledWords(verdict);
    }

    /// <summary>“ Take Plain front: with Lit front, as it is usually built, it is unsuited.”; empty where the usual build serves as well.</summary>
    public static string ChoiceWords(FigureVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        if (verdict.Usual.Verdict == verdict.Verdict) return "";
        var (take, instead) = (verdict.Choices.Where(c => c.Chosen != c.Usual).ToList(), verdict.Usual.Verdict switch
        {
            Verdict.Care => "it suits with care",
            Verdict.Unchecked => "it is not checked yet",
            _ => "it is unsuited",
        });
        return $" Take {string.Join(" and ", take.Select(c => c.Chosen.Part.Name))}: with {string.Join(" and ", take.Select(c => c.Usual.Part.Name))}, as it is usually built, {instead}.";
    }

    /// <summary>“ The designer overrules one care and says why.”; empty when none is overruled.</summary>
    private static string OverruledWords(FigureVerdict verdict) => verdict.Overruled.Count() switch
    {
        0 => "",
        1 => " The designer overrules one care and says why.",
        var count => $" The designer overrules {count} cares and says why.",
    };

    private static Severity Gravest(FigureVerdict verdict) => verdict.Verdict == Verdict.Unsuited ? Severity.Stop : Severity.Care;

    private static string Praise(List<PartVerdict> built, bool withVolume, bool overruled)
    {
        var all = built.Count == 1 ? "Its one part" : $"All {built.Count} parts";
        if (!withVolume && overruled) return all + (built.Count == 1 ? " suits." : " suit.");
        if (!withVolume) return all + (built.Count == 1 ? " passes every check." : " pass every check.");
        var turned = built.Count(p => p.Judgement.Findings.Any(f => f.Code == "fit.turn"));
        return turned switch
        {
            0 => all + (built.Count == 1 ? " fits." : " fit."),
            1 => all + (built.Count == 1 ? " fits when turned." : " fit, one of them only when turned."),
            _ => $"{all} fit, {turned} of them only when turned.",
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
