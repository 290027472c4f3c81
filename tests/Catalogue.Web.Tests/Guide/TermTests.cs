using System.Reflection;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Tests.Guide;

public sealed class TermTests
{
    [Fact]
    public void Every_word_is_on_the_list_once_with_an_address_of_its_own()
    {
        var declared = typeof(Term).GetFields(BindingFlags.Public | BindingFlags.Static).Where(f => f.FieldType == typeof(Term)).Select(f => (Term)f.GetValue(null)!).ToHashSet();
        Assert.Equal(declared, Term.All.ToHashSet());
        Assert.Equal(Term.All.Count, Term.All.Select(t => t.Code).Distinct().Count());
        Assert.All(Term.All, t => Assert.Matches("^[a-z-]+$", t.Code));
    }

    /// <summary>Rules whose findings need no word explained: plain sentences about the file, or what the page around them says.</summary>
    private static readonly HashSet<string> Plain = ["hole.narrow", "hole.rod", "hole.thin-wall", "hole.thin-floor", "file.warning", "inspection.pending", "process.no-variant", "reports.failed", "scale.not-measured"];

    [Fact]
    public void The_words_of_every_finding_are_explained()
    {
        foreach (var rule in Rules.All)
        {
            var severity = new[] { Severity.Note, Severity.Care, Severity.Stop }.First(s => rule.When(s) is not null);
            var words = Term.In([rule.Found(severity, $"found")]).Except([Term.Care, Term.Stop]);
            Assert.True(words.Any() != Plain.Contains(rule.Code), rule.Code);
        }
    }

    [Fact]
    public void A_word_is_explained_once_however_many_findings_use_it()
    {
        var words = Term.In([Rules.LiquidPool.Found(Severity.Note, $"one"), Rules.LiquidPool.Found(Severity.Note, $"two"), Rules.MeshOpen.Found(Severity.Stop, $"three")]);
        Assert.Equal([Term.Pool, Term.Stop, Term.Mesh], words);
    }
}
