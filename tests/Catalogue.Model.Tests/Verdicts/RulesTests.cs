using System.Text.RegularExpressions;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

/// <summary>The decision table and the checks say the same: every row comes about, nothing else does.</summary>
public sealed partial class RulesTests
{
    public static IEnumerable<TheoryDataRow<string, Severity>> Cases => RuleCase.All.Select(c => new TheoryDataRow<string, Severity>(c.Rule.Code, c.Severity));

    [Theory, MemberData(nameof(Cases))]
    public void A_rule_finds_what_was_worked_out_by_hand(string code, Severity severity)
    {
        var test = RuleCase.All.Single(c => c.Rule.Code == code && c.Severity == severity);
        var found = test.Findings().First(f => f.Code == code);
        Assert.Equal(severity, found.Severity);
        Assert.Equal(test.Measured is null, found.Measured is null);
        if (test.Measured is { } expected) Assert.Equal(expected, found.Measured!.Value, 0.06);
        Assert.NotEmpty(found.Message.English);
    }

    [Fact]
    public void Every_row_and_severity_of_the_table_comes_about_in_a_case()
    {
        var told = from rule in Rules.All from severity in Enum.GetValues<Severity>() where rule.When(severity) is not null select (rule.Code, severity);
        Assert.Equal(told.OrderBy(t => t.Code, StringComparer.Ordinal).ThenBy(t => t.severity), RuleCase.All.Select(c => (c.Rule.Code, c.Severity)).OrderBy(t => t.Code, StringComparer.Ordinal).ThenBy(t => t.Severity));
    }

    [Fact]
    public void No_check_finds_what_the_table_does_not_know()
    {
        foreach (var finding in RuleCase.All.SelectMany(c => c.Findings()))
            Assert.NotNull(Rules.Of(finding.Code)?.When(finding.Severity));
        Assert.Throws<InvalidOperationException>(() => Rules.MeshOpen.Found(Severity.Note, $"an open mesh is no trifle"));
    }

    [Fact]
    public void No_line_of_the_program_makes_a_finding_past_the_table()
    {
        var source = Path.Combine(Root(), "src");
        var past = Directory.EnumerateFiles(source, "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(f => MadeByHand().IsMatch(File.ReadAllText(f))).Select(Path.GetFileName);
        Assert.Empty(past);
    }

    [Fact]
    public void Every_field_is_in_the_table_and_every_limit_it_names_is_one()
    {
        var fields = typeof(Rules).GetFields().Where(f => f.FieldType == typeof(Rule)).Select(f => (Rule)f.GetValue(null)!).ToList();
        Assert.Equal(fields.Count, Rules.All.Count);
        Assert.Equal(fields.Select(r => r.Code).Order(StringComparer.Ordinal), Rules.All.Select(r => r.Code).Order(StringComparer.Ordinal));
        var keys = typeof(LimitKey).GetFields().Select(f => (string)f.GetValue(null)!).ToHashSet();
        Assert.All(Rules.All.SelectMany(r => r.Limits), k => Assert.Contains(k, keys));
        Assert.All(Rules.All, r => Assert.True(r.Stop is not null || r.Care is not null || r.Note is not null, r.Code));
    }

    private static string Root()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
            if (File.Exists(Path.Combine(at.FullName, "Catalogue.sln"))) return at.FullName;
        throw new InvalidOperationException("No solution above the tests.");
    }

    /// <summary>A new finding with a code in words: <c>new("mesh.open", Severity.…</c> or <c>new Finding("…</c>.</summary>
    [GeneratedRegex("""new(\s+Finding)?\(\s*"[a-z-]+(\.[a-z-]+)?",\s*(Verdicts\.)?Severity\.|new\s+Finding\(""")]
    private static partial Regex MadeByHand();
}
