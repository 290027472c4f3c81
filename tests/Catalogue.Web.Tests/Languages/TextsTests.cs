using Catalogue.Model.Languages;
using Catalogue.Texts;

namespace Catalogue.Web.Tests.Languages;

/// <summary>Every text the program says is in its resource files.</summary>
public sealed class TextsTests
{
    /// <summary>Run <c>dotnet run --project tests/Catalogue.Texts -- sync</c> when this fails; DEVELOPERS.md says how translations are put in.</summary>
    [Fact]
    public void Every_text_is_in_every_language() => Assert.Empty(TextCheck.Of(Root()));

    [Fact]
    public void Texts_are_found_where_they_are_said()
    {
        var said = TextsInCode.Of(Root());
        Assert.Contains(new("Skip to the content", "src/Catalogue.Web/Features/Shared"), said);
        Assert.Contains(said, t => t.Folder == "src/Catalogue.Model/Figures" && t.Key.Contains("{0}", StringComparison.Ordinal));
        Assert.Contains(new("The OBJ file holds points but no faces.", "src/Catalogue.Geometry/Formats/Obj"), said);
        Assert.Contains(new("Line {0} of the OBJ file: {1}. Export the mesh again.", "src/Catalogue.Geometry/Formats/Obj"), said);
    }

    [Fact]
    public void The_words_of_a_language_are_those_of_its_files()
    {
        Assert.NotEmpty(TextFiles.Read(Root(), "de").All);
        Language.Include(typeof(Problems).Assembly);
        Assert.All(TextFiles.Read(Root(), "de").All, t => Assert.Equal(t.Words, Language.German.Find(t.Key)));
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Catalogue.sln"))) folder = folder.Parent!;
        return folder.FullName;
    }
}
