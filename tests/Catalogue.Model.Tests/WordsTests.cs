using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Xunit;

namespace Catalogue.Model.Tests;

public sealed class WordsTests
{
    [Fact]
    public void Members_are_told_by_lower_case_words_with_hyphens()
    {
        Assert.Equal("pop-in-ball", Words.Of(JointKind.PopInBall));
        Assert.Equal("pop in ball", Words.Spoken(JointKind.PopInBall));
        Assert.Equal(["required", "optional", "choice"], Words.All<PartRole>());
    }

    [Fact]
    public void A_word_is_read_back_and_nothing_else_is()
    {
        Assert.True(Words.TryParse<PartRole>("choice", out var role));
        Assert.Equal(PartRole.ChoiceMember, role);
        foreach (var wrong in new[] { null, "", "Choice", "choice-member", "ChoiceMember", "2" }) Assert.False(Words.TryParse<PartRole>(wrong, out _));
    }

    [Fact]
    public void Units_are_read_by_the_words_they_are_told_by()
    {
        Assert.Equal(["mm", "micron", "cm", "inch", "foot", "m"], UnitWords.All);
        Assert.Null(UnitWords.Parse(" "));
        Assert.Equal("unit-invalid", Assert.Throws<RuleBrokenException>(() => UnitWords.Parse("furlong")).Code);
    }
}
