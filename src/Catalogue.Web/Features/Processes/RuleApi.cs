using Catalogue.Data.Ranges;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Processes;

/// <summary>The decision table for programs.</summary>
internal static class RuleApi
{
    public static void MapRuleApi(this IEndpointRouteBuilder app) => app.MapReaderGroup("/api/rules", "Range")
        .MapGet("/", ListAsync).WithSummary("The decision table: every rule, what it measures, its limits on each process, what it comes to and what to do")
        .WithDescription("It is made from the rules that the checks themselves use. “mayBeOverruled”: a designer can say, with a reason, that a care of this rule does not hold for a file.");

    private static async Task<Ok<RuleList>> ListAsync(RangeSearch search, CancellationToken cancellation)
    {
        var processes = (await search.SnapshotAsync(cancellation)).Processes;
        return TypedResults.Ok(new RuleList([.. Rules.All.Select(r => RuleView.Of(r, processes))], Rules.All.Count, Rules.Version));
    }
}

/// <param name="Version">Counts up when the same measurements come to something else, with a new version of the program.</param>
internal sealed record RuleList(IReadOnlyList<RuleView> Items, int Total, int Version);

/// <param name="Stop">When it makes a part unsuited; absent = never.</param>
/// <param name="Care">When it asks for care; absent = never.</param>
/// <param name="Note">When it is only told; absent = never.</param>
/// <param name="Categories">The ISO/ASTM 52900 categories it is asked for; absent = all that have its limits.</param>
internal sealed record RuleView(
    string Code, RuleSubject Subject, string Measures, string? Stop, string? Care, string? Note, string Do, string Origin, IReadOnlyList<string>? Categories, bool MayBeOverruled,
    IReadOnlyList<RuleLimit> Limits)
{
    public static RuleView Of(Rule rule, IReadOnlyList<Process> processes) => new(rule.Code, rule.Subject, rule.Measures.ToString(), rule.Stop?.ToString(), rule.Care?.ToString(), rule.Note?.ToString(), rule.Do.ToString(), rule.Origin.ToString(),
        rule.Categories.Count == 0 ? null : rule.Categories, rule.MayBeOverruled, RuleLimit.Of(rule, processes));
}

/// <summary>A limit of a rule with its value on each process that has it.</summary>
internal sealed record RuleLimit(string Key, IReadOnlyList<RuleLimitValue> Values)
{
    public static IReadOnlyList<RuleLimit> Of(Rule rule, IReadOnlyList<Process> processes) => [.. rule.Limits.Select(key => new RuleLimit(key,
    [
        .. from process in processes
           where rule.Categories.Count == 0 || rule.Categories.Contains(ProcessCode.Category(process.Code))
           let limit = process.Limit(key)
           where limit is not null
           select new RuleLimitValue(process.Code, Known(process.Name), limit.Value, limit.Unit, Known(limit.Origin), BuiltIn(process.Code, key) is { } usual && usual != limit.Value ? usual : null),
    ]))];

    private static double? BuiltIn(string process, string key) => Usual.GetValueOrDefault((process, key)) is > 0 and var value ? value : null;

    private static readonly Dictionary<(string, string), double> Usual =
        BuiltInProcesses.Create().SelectMany(p => p.Limits.Select(l => (p.Code, l.Key, l.Value))).ToDictionary(l => (l.Code, l.Key), l => l.Value);
}

/// <param name="BuiltIn">What it was before the host changed it; absent where it is as it was.</param>
internal sealed record RuleLimitValue(string Process, string Name, double Value, string Unit, string Origin, double? BuiltIn);
