namespace Catalogue.Model.Verdicts;

/// <summary>What a rule looks at.</summary>
public enum RuleSubject
{
    File,
    Size,
    Walls,
    Holes,
    Limbs,
    Pose,
    Hollows,
    Relief,
    Joints,
    Build,
    Prints,
}

/// <summary>
/// One row of the decision table: what is measured, by which limit, and what that does to a verdict. Findings are made by their row and by nothing else
/// (<see cref="Found"/>), so that the table, the page that shows it and what is found cannot drift apart.
/// </summary>
/// <param name="Code">Stable, for programs.</param>
/// <param name="Measures">What is measured, in words.</param>
/// <param name="Limits">The keys of the limits it is judged by (<see cref="Processes.LimitKey"/>); none = <see cref="Origin"/> says by what.</param>
public sealed record Rule(string Code, RuleSubject Subject, Sentence Measures, params IReadOnlyList<string> Limits)
{
    /// <summary>When it stops: the part or figure is unsuited. Null = it never does.</summary>
    public Sentence? Stop { get; init; }

    /// <summary>When it asks for care. Null = it never does.</summary>
    public Sentence? Care { get; init; }

    /// <summary>When it is only told. Null = it never is.</summary>
    public Sentence? Note { get; init; }

    /// <summary>What to do about it.</summary>
    public required Sentence Do { get; init; }

    /// <summary>Where the rule and its own bounds come from, beside the origins of its limits.</summary>
    public required Sentence Origin { get; init; }

    /// <summary>The ISO/ASTM 52900 categories it is asked for; empty = all that have its limits.</summary>
    public IReadOnlyList<string> Categories { get; init; } = [];

    /// <summary>
    /// True where a designer who knows better may overrule its care: what a check says of a file. What stands in the way is never overruled, nor what others
    /// reported (that is answered with a new revision), nor a joint's mechanics (its dimensions are the designer's own; they are changed instead).
    /// </summary>
    public bool MayBeOverruled => Care is not null && Subject is not (RuleSubject.Joints or RuleSubject.Build or RuleSubject.Prints or RuleSubject.Size);

    /// <summary>True where what it finds leaves the verdict open: nobody knows yet whether something stands in the way.</summary>
    public bool LeavesOpen { get; init; }

    /// <summary>When it comes to that severity, in words; null = it never does.</summary>
    public Sentence? When(Severity severity) => severity switch
    {
        Severity.Stop => Stop,
        Severity.Care => Care,
        _ => Note,
    };

    /// <summary>A finding by this rule.</summary>
    /// <exception cref="InvalidOperationException">The table does not have that severity for it: table and check have drifted apart.</exception>
    public Finding Found(Severity severity, Sentence message) => When(severity) is null
        ? throw new InvalidOperationException($"The decision table does not know “{Code}” as {severity.Code()}.")
        : new(Code, severity, message);
}
