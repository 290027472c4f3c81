using Catalogue.Model.Languages;
using Xunit;

namespace Catalogue.Model.Tests.Languages;

public sealed class StoredSentenceTests
{
    [Fact]
    public void A_sentence_is_read_again_with_its_holes()
    {
        var said = Speech.S($"A hole of {1.25:0.0#} mm in “{"arm"}”.") + Speech.S($"Fill it.");
        var read = StoredSentence.Read(StoredSentence.Write(said));
        Assert.Equal("A hole of 1.25 mm in “arm”. Fill it.", read.English);
        Assert.Equal("A hole of 1,25 mm in “arm”. Fill it.", read.In(Language.German));
    }

    [Theory]
    [InlineData("")]
    [InlineData("The stored file is missing. Restore it from a backup, or upload the mesh again.")]
    [InlineData("Line 6: \"{12,5}\" is not a number.")]
    [InlineData("[[\"not JSON")]
    [InlineData("[[\"a text\", true]]")]
    [InlineData("[a bracket] in front")]
    public void Words_alone_are_kept_and_read_as_they_are(string words)
    {
        Assert.Equal(words, StoredSentence.Read(words).English);
        Assert.Equal(words, StoredSentence.Read(words).In(Language.German));
        Assert.Equal(words, StoredSentence.Write(Sentence.FromWords(words)));
    }

    [Fact]
    public void Words_without_holes_are_stored_as_words_and_found_in_another_language()
    {
        var stored = StoredSentence.Write(Sentence.FromReader($"The STL file holds no triangles."));
        Assert.Equal("The STL file holds no triangles.", stored);
        Assert.Equal("Die STL-Datei enthält keine Dreiecke.", StoredSentence.Read(stored).In(Language.German));
    }

    [Fact]
    public void What_has_no_room_is_kept_in_English_as_far_as_it_goes()
    {
        var said = Speech.S($"“{new string('x', 60)}” is {3} too long.");
        Assert.Equal("“" + new string('x', 48) + "…", StoredSentence.Write(said, 50));
        Assert.Equal(said, StoredSentence.Read(StoredSentence.Write(said, 200)));
    }
}
