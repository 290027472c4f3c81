using Catalogue.Model.Searching;
using Xunit;

namespace Catalogue.Model.Tests.Searching;

public sealed class SearchWordsTests
{
    [Theory]
    [InlineData("The Lamplighter", "the lamplighter")]
    [InlineData("Périwinkle Ångström Žofie Ñandú", "periwinkle angstrom zofie nandu")]
    [InlineData("Strauß, Bjørn, Æsop, Łódź, þorn", "strauss bjorn aesop lodz thorn")]
    [InlineData("the keeper's and the keeper’s hat", "the keepers and the keepers hat")]
    [InlineData("pop-in ball; plug/sleeve (two)", "pop in ball plug sleeve two")]
    [InlineData("rod 1.5 mm, or 1,5 mm. End", "rod 1.5 mm or 1.5 mm end")]
    [InlineData("ﬁn ² ½ ＡＢ", "fin 2 1 2 ab")]
    [InlineData("人形 puppet", "人形 puppet")]
    [InlineData("𝔓uppet 🎭 show", "puppet show")]
    [InlineData(" \t\n ", "")]
    [InlineData("…—!", "")]
    public void Text_is_cut_into_plain_words(string text, string words) => Assert.Equal(words, string.Join(' ', SearchWords.Of(text)));

    [Fact]
    public void Half_a_sign_only_separates() => Assert.Equal(["half", "pair"], SearchWords.Of("half \ud800pair")); // An attribute cannot hold it.

    [Fact]
    public void No_text_has_no_words() => Assert.Empty(SearchWords.Of(null));
}
