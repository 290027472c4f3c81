using System.Text.Json.Serialization;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Verdicts;

/// <summary>What a check says of one mesh on one process.</summary>
/// <param name="Code">Stable, for programs: <c>mesh.open</c>, <c>fit.too-large</c>, …</param>
/// <param name="Severity">What it does to the verdict.</param>
/// <param name="Message">A sentence for people: what was found and what to do.</param>
public sealed record Finding(string Code, Severity Severity, Sentence Message)
{
    /// <summary>The number measured, in <see cref="Unit"/>; null where the finding is not about a number.</summary>
    public double? Measured { get; init; }

    public double? Limit { get; init; }
    public string? Unit { get; init; }

    /// <summary>The place on the part, in the file's own coordinates (mm).</summary>
    public Vec3? At { get; init; }

    /// <summary>How the number was worked out, for who wants to check it; null where it was measured.</summary>
    public Sentence? Arithmetic { get; init; }

    /// <summary>Where the limit comes from.</summary>
    public Sentence? Source { get; init; }

    /// <summary>The designer's word that this care does not hold for this file; null = it holds. The finding itself stays as it was computed.</summary>
    public Overruled? Overruled { get; init; }

    /// <summary>True for a care that a designer may overrule: see <see cref="Rule.MayBeOverruled"/>.</summary>
    [JsonIgnore]
    public bool MayBeOverruled => Severity == Severity.Care && Rules.Of(Code) is { MayBeOverruled: true };

    /// <summary>True while it is not known whether something stands in the way: see <see cref="Rule.LeavesOpen"/>.</summary>
    [JsonIgnore]
    public bool LeavesOpen => Severity == Severity.Note && Rules.Of(Code) is { LeavesOpen: true };

    /// <summary>What it does to the verdict: a care that the designer overrules no more than a note.</summary>
    [JsonIgnore]
    public Severity Weight => Overruled is not null && Severity == Severity.Care ? Severity.Note : Severity;
}

/// <summary>Who overruled a finding, when, and why.</summary>
public sealed record Overruled(string Reason, string By, DateTime At);

/// <summary>A verdict with what it rests on, the gravest finding first.</summary>
public sealed record Judgement(Verdict Verdict, IReadOnlyList<Finding> Findings)
{
    public static Judgement Unchecked { get; } =
        From([Rules.InspectionPending.Found(Severity.Note, $"The mesh is still being inspected. Look again in a moment.")]);

    /// <summary>The verdict that the findings make: any <c>stop</c> unsuited, else anything that leaves it open unchecked, else any <c>care</c> that is not overruled care, else suits.</summary>
    public static Judgement From(IEnumerable<Finding> findings)
    {
        var ordered = findings.OrderByDescending(f => f.Weight).ThenByDescending(f => f.Severity).ToList();
        var verdict = (ordered.Count == 0 ? Severity.Note : ordered[0].Weight) switch
        {
            Severity.Stop => Verdict.Unsuited,
            _ when ordered.Exists(f => f.LeavesOpen) => Verdict.Unchecked,
            Severity.Care => Verdict.Care,
            _ => Verdict.Suits,
        };
        return new(verdict, ordered);
    }

    /// <summary>The findings that the designer overruled.</summary>
    public IEnumerable<Finding> OverruledFindings => Findings.Where(f => f.Overruled is not null);

    /// <summary>This judgement with the designer's word on some of its cares. What stops is never overruled, whatever is stored.</summary>
    public Judgement OverruledBy(IReadOnlyDictionary<string, Overruled> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        if (words.Count == 0 || Verdict == Verdict.Unchecked) return this;
        return From(Findings.Select(f => f.MayBeOverruled && words.TryGetValue(f.Code, out var word) ? f with { Overruled = word } : f));
    }

    /// <summary>This judgement with one more finding.</summary>
    public Judgement With(Finding? finding)
    {
        if (finding is null) return this;
        var joined = From(Findings.Append(finding));
        return Verdict == Verdict.Unchecked && joined.Verdict < Verdict.Unchecked ? joined with { Verdict = Verdict.Unchecked } : joined;
    }
}
