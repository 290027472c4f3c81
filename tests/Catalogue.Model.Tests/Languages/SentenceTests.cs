using System.Globalization;
using System.Text.Json;
using Catalogue.Model.Languages;
using Xunit;

namespace Catalogue.Model.Tests.Languages;

public sealed class SentenceTests
{
    [Fact]
    public void It_says_what_stands_in_the_source()
    {
        var (mm, name) = (0.8345, "left arm");
        Sentence said = $"A wall of “{name}” is only {mm:0.00} mm thick.";
        Assert.Equal("A wall of “left arm” is only 0.83 mm thick.", said.English);
    }

    [Fact]
    public void Sentences_follow_one_another_with_a_space_between()
    {
        Sentence first = $"It may break.";
        Sentence second = $"Thicken it.";
        Assert.Equal("It may break. Thicken it.", (first + second).English);
        Assert.Equal("It may break.", (first + Sentence.Empty).English);
        Assert.Equal("It may break.", (Sentence.Empty + first).English);
    }

    [Fact]
    public void A_bracket_in_the_words_is_no_hole()
    {
        var count = 2;
        Assert.Equal("{0} stands for 2", Speech.S($"{{0}} stands for {count}").English);
        Assert.Equal("a set {x}", Speech.S($"a set {{x}}").English);
    }

    [Fact]
    public void Another_language_has_its_own_numbers_and_keeps_the_words_it_lacks()
    {
        Sentence said = $"{1234.5:0.0} mm that nobody has translated";
        Assert.Equal("1234,5 mm that nobody has translated", said.In(Language.German));
    }

    [Fact]
    public void The_reader_s_language_is_that_of_their_culture()
    {
        var before = CultureInfo.CurrentUICulture;
        try
        {
            CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("de-AT");
            Assert.Equal("0,5 mm of test", Speech.T($"{0.5} mm of test"));
            CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo("fr");
            Assert.Equal("0.5 mm of test", Speech.T($"{0.5} mm of test"));
            CultureInfo.CurrentUICulture = Language.Bracketed.Culture;
            Assert.Equal("⟦⟦inner⟧ in 3⟧", Speech.T($"{Speech.S($"inner")} in {3}"));
        }
        finally
        {
            CultureInfo.CurrentUICulture = before;
        }
    }

    [Fact]
    public void It_is_stored_with_its_holes_and_read_again()
    {
        var inner = Speech.S($"a hole of {1.25:0.0#} mm");
        Sentence said = Speech.S($"{inner} in “{"arm"}”, {3} of {7L} times.") + Speech.S($"Open {Speech.S($"it")} {{by hand}}.");
        var json = JsonSerializer.Serialize(said);
        var read = JsonSerializer.Deserialize<Sentence>(json)!;
        Assert.Equal("a hole of 1.25 mm in “arm”, 3 of 7 times. Open it {by hand}.", read.English);
        Assert.Equal(said.In(Language.German), read.In(Language.German));
        Assert.Equal(json, JsonSerializer.Serialize(read));
        Assert.Equal(said, read);
    }

    [Fact]
    public void What_a_reader_says_is_said_in_the_reader_s_language_with_what_stands_in_its_holes()
    {
        FormattableString inner = $"a face has {2} corners; it needs at least three";
        var said = Sentence.FromReader($"Line {1234} of the OBJ file: {inner}. Export the mesh again.");
        Assert.Equal("Line 1234 of the OBJ file: a face has 2 corners; it needs at least three. Export the mesh again.", said.English);
        Assert.Equal("Zeile 1234 der OBJ-Datei: Eine Fläche hat 2 Ecken; sie braucht mindestens drei. Exportiere das Netz neu.", said.In(Language.German));
        var announced = Sentence.FromReader($"The binary STL file announces {4_000_000_000L:N0} triangles and has bytes for {12L:N0}. Part of it is missing: copy or export it again.");
        Assert.Equal("Die binäre STL-Datei kündigt 4.000.000.000 Dreiecke an und hat Bytes für 12. Ein Stück fehlt: Kopiere oder exportiere sie neu.", announced.In(Language.German));
    }

    [Theory]
    [InlineData("\"Plain words of an earlier version, 50 % {sic}.\"", "Plain words of an earlier version, 50 % {sic}.")]
    [InlineData("[]", "")]
    public void What_was_stored_as_words_is_read_as_words(string json, string words) => Assert.Equal(words, JsonSerializer.Deserialize<Sentence>(json)!.English);

    [Theory]
    [InlineData("3")]
    [InlineData("[3]")]
    [InlineData("[[3]]")]
    [InlineData("[[\"x {0}\", true]]")]
    public void What_is_no_sentence_is_refused(string json) => Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Sentence>(json));

    [Theory]
    [InlineData("de", "de")]
    [InlineData("DE-ch", "de")]
    [InlineData("en-GB", "en")]
    [InlineData("fr", null)]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void A_language_is_found_by_its_tag(string? tag, string? code) => Assert.Equal(code, Language.Of(tag)?.Code);
}
