using Catalogue.Model.Searching;
using Xunit;

namespace Catalogue.Model.Tests.Searching;

public sealed class SoughtWordTests
{
    [Theory]
    [InlineData("lamplighter", "lamplighter", Likeness.Same)]
    [InlineData("lamp", "lamplighter", Likeness.Beginning)]
    [InlineData("light", "lamplighter", Likeness.Within)]
    [InlineData("hat", "that", Likeness.None)] // Three letters are within too many words.
    [InlineData("形", "人形", Likeness.Within)] // One sign is a word there.
    [InlineData("lamplighters", "lamplighter", Likeness.None)]
    public void As_it_is_written(string sought, string known, Likeness expected) => Assert.Equal(expected, new SoughtWord(sought).AsWritten(known));

    // By hand: one slip each.
    [Theory]
    [InlineData("lampligter", "lamplighter", Likeness.OneOff)] // missing
    [InlineData("lampplighter", "lamplighter", Likeness.OneOff)] // too many
    [InlineData("lamplightar", "lamplighter", Likeness.OneOff)] // wrong
    [InlineData("lamplihgter", "lamplighter", Likeness.OneOff)] // changed places
    [InlineData("amplighter", "clamplighter", Likeness.Within)] // not even a slip
    [InlineData("xamplighter", "lamplighter", Likeness.OneOff)] // the first letter may be it
    [InlineData("lampligthar", "lamplighter", Likeness.TwoOff)] // swapped, and wrong
    [InlineData("lmpligter", "lamplighter", Likeness.TwoOff)] // two missing
    [InlineData("lmpligtr", "lamplighter", Likeness.None)] // three missing
    [InlineData("lampilg", "lamplighter", Likeness.BeginningOneOff)] // as far as it was typed
    [InlineData("lnmpilghte", "lamplighter", Likeness.BeginningTwoOff)]
    [InlineData("ferrymna", "ferryman", Likeness.OneOff)]
    [InlineData("bule", "blue", Likeness.OneOff)]
    [InlineData("magent", "magnet", Likeness.OneOff)]
    public void With_a_few_wrong_letters(string sought, string known, Likeness expected) => Assert.Equal(expected, new SoughtWord(sought).Nearly(known));

    [Theory]
    [InlineData("rdo", "rod")] // Three letters: every other word is one off.
    [InlineData("lmap", "lamplighter")] // Four letters are no beginning to guess from.
    [InlineData("magnte", "magnolia")] // Six letters: one slip, not three.
    [InlineData("mganet", "mangle")]
    [InlineData("screw3", "screw2")] // Another size is another thing.
    [InlineData("1.50", "1.60")]
    [InlineData("body", "embodiment")]
    public void What_is_not_taken_for_it(string sought, string known) => Assert.Equal(Likeness.None, new SoughtWord(sought).Nearly(known));

    [Theory]
    [InlineData("rod", 0), InlineData("body", 1), InlineData("octavia", 1), InlineData("dorothea", 2), InlineData("m3screws", 0)]
    public void How_many_letters_may_be_wrong_goes_by_length(string sought, int most) => Assert.Equal(most, new SoughtWord(sought).MostOff);

    [Fact]
    public void A_word_of_any_length_is_no_trouble()
    {
        var (longest, longer) = (new string('a', 40), new string('a', 5000));
        Assert.Equal(Likeness.TwoOff, new SoughtWord(longest).Nearly(longest[..19] + "bb" + longest[..19]));
        Assert.Equal(Likeness.BeginningOneOff, new SoughtWord(longest).Nearly(longest[..20] + "b" + longest[..30]));
        Assert.Equal(0, new SoughtWord(longer).MostOff);
    }

    [Fact]
    public void Every_single_slip_is_found_wherever_it_is()
    {
        const string word = "puppeteer";
        for (var i = 0; i <= word.Length; i++)
        {
            if (i < word.Length) Assert.True(Found(word.Remove(i, 1)), $"without letter {i}");
            Assert.True(Found(word.Insert(i, "x")), $"with a letter more at {i}");
            if (i < word.Length) Assert.True(Found(word.Remove(i, 1).Insert(i, "x")), $"letter {i} wrong");
            if (i + 1 < word.Length) Assert.True(Found(word.Remove(i, 1).Insert(i + 1, word[i].ToString())), $"letters {i} and {i + 1} swapped");
        }

        static bool Found(string typed) => new SoughtWord(typed).Nearly(word) is <= Likeness.OneOff;
    }
}
