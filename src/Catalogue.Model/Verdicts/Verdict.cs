namespace Catalogue.Model.Verdicts;

/// <summary>Of a revision on a process, and of a figure on a printer. In the order of how much stands in the way.</summary>
public enum Verdict
{
    Suits,
    Care,

    /// <summary>Not known yet: a mesh is still being inspected, or a joint lacks a dimension that decides.</summary>
    Unchecked,
    Unsuited,
}

/// <summary>What a finding does to a verdict: nothing, care, or unsuited.</summary>
public enum Severity
{
    Note,
    Care,
    Stop,
}

/// <summary>The codes that the contracts use for verdicts and severities.</summary>
public static class VerdictCodes
{
    public static string Code(this Verdict verdict) => verdict switch
    {
        Verdict.Suits => "suits",
        Verdict.Care => "care",
        Verdict.Unsuited => "unsuited",
        _ => "unchecked",
    };

    /// <summary>For people, in their language.</summary>
    public static string Words(this Verdict verdict) => verdict switch
    {
        Verdict.Suits => T($"suits"),
        Verdict.Care => T($"suits with care"),
        Verdict.Unsuited => T($"unsuited"),
        _ => T($"unchecked"),
    };

    public static string Code(this Severity severity) => severity switch
    {
        Severity.Stop => "stop",
        Severity.Care => "care",
        _ => "note",
    };

    public static bool TryParse(string? code, out Verdict verdict)
    {
        (var known, verdict) = code switch
        {
            "suits" => (true, Verdict.Suits),
            "care" => (true, Verdict.Care),
            "unsuited" => (true, Verdict.Unsuited),
            "unchecked" => (true, Verdict.Unchecked),
            _ => (false, Verdict.Unchecked),
        };
        return known;
    }
}
