using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

/// <summary>Kept verdicts are judged again only when <see cref="Rules.Version"/> says so: whoever changes what is found, said or kept has to count it up.</summary>
public sealed class RulesVersionTests
{
    /// <summary>Of the cases’ findings as they are kept. It takes its place here together with the next version.</summary>
    private const string Print = "4: cdd6da3e989b7df6";

    [Fact]
    public void What_is_found_of_the_cases_is_the_same_as_long_as_the_version_is()
    {
        var text = new StringBuilder();
        // Where and how much exactly is a matter of the last digits of a machine; it is in the sentence, rounded.
        foreach (var finding in RuleCase.All.SelectMany(c => c.Findings())) text.AppendLine(JsonSerializer.Serialize(finding with { Measured = null, Limit = null, At = null }));
        var print = $"{Rules.Version}: {Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..16]}";
        Assert.True(print == Print, $"Verdicts come out otherwise than before, so those that are kept have to be judged again: count Rules.Version up (where it was not yet, against main) and put “{print}”, with the new number, here.");
    }
}
