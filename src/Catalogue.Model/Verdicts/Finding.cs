using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Verdicts;

/// <summary>What a check says of one mesh on one process.</summary>
/// <param name="Code">Stable, for programs: <c>mesh.open</c>, <c>fit.too-large</c>, …</param>
/// <param name="Severity">What it does to the verdict.</param>
/// <param name="Message">A sentence for people: what was found and what to do.</param>
public sealed record Finding(string Code, Severity Severity, string Message)
{
    /// <summary>The number measured, in <see cref="Unit"/>; null where the finding is not about a number.</summary>
    public double? Measured { get; init; }

    public double? Limit { get; init; }
    public string? Unit { get; init; }

    /// <summary>The place on the part, in the file's own coordinates (mm).</summary>
    public Vec3? At { get; init; }

    /// <summary>How the number was worked out, for who wants to check it; null where it was measured.</summary>
    public string? Arithmetic { get; init; }

    /// <summary>Where the limit comes from.</summary>
    public string? Source { get; init; }
}

/// <summary>A verdict with what it rests on, the gravest finding first.</summary>
public sealed record Judgement(Verdict Verdict, IReadOnlyList<Finding> Findings)
{
    public static Judgement Unchecked { get; } =
        new(Verdict.Unchecked, [new("inspection.pending", Severity.Note, "The mesh is still being inspected. Look again in a moment.")]);

    /// <summary>The verdict that the findings make: any <c>stop</c> unsuited, any <c>care</c> care, else suits.</summary>
    public static Judgement From(IEnumerable<Finding> findings)
    {
        var ordered = findings.OrderByDescending(f => f.Severity).ToList();
        var verdict = (ordered.Count == 0 ? Severity.Note : ordered[0].Severity) switch
        {
            Severity.Stop => Verdict.Unsuited,
            Severity.Care => Verdict.Care,
            _ => Verdict.Suits,
        };
        return new(verdict, ordered);
    }

    /// <summary>This judgement with one more finding.</summary>
    public Judgement With(Finding? finding)
    {
        if (finding is null) return this;
        var joined = From(Findings.Append(finding));
        return Verdict == Verdict.Unchecked && joined.Verdict < Verdict.Unchecked ? joined with { Verdict = Verdict.Unchecked } : joined;
    }
}
