using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Languages;

/// <summary>What the mesh readers say of a file is kept with its numbers and told in the reader's language.</summary>
public abstract class UnreadableFileTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string German = "Zeile 2 des STL-Textes: Eine Facette hat 2 Ecken statt drei. Exportiere das Netz neu.";
    private const string English = "Line 2 of the STL text: a facet has 2 corners instead of three. Export the mesh again.";

    [Fact]
    public async Task A_designer_is_told_in_their_language_and_a_program_in_English()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        var figure = await program.NewFigureAsync("unreadable");
        var told = await program.InspectedAsync(await program.UploadAsync(figure, TwoCorners()));
        Assert.Equal(English, (string?)told["error"]);
        Assert.Equal(German, (string?)(await program.GetJsonAsync($"/api/inspections/{told["id"]}?language=de"))["error"]);

        Assert.Contains(German, (await designer.GoAsync($"/drafts/{figure}/parts/body?language=de")).Text, StringComparison.Ordinal);
        Assert.DoesNotContain("corners", designer.Text, StringComparison.Ordinal);
        Assert.Contains(German, (await designer.GoAsync($"/publish/{figure}")).Text, StringComparison.Ordinal);
        Assert.Contains(English, (await designer.GoAsync($"/drafts/{figure}/parts/body?language=en")).Text, StringComparison.Ordinal);

        Assert.EndsWith(German, await WhyNothingIsShownAsync(program, figure, "?language=de"), StringComparison.Ordinal);
        Assert.EndsWith(English, await WhyNothingIsShownAsync(program, figure, ""), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_visitor_is_told_in_their_language_and_a_program_in_English()
    {
        var cut = Api.BoxStl(10, 20, 30);
        BitConverter.TryWriteBytes(cut.AsSpan(80), 4_000_000_000);
        using var visitor = new Browser(Catalogue.Visitor());
        await visitor.GoAsync("/inspect?language=de");
        await visitor.SubmitFileAsync("/inspect", cut, "arm.stl", ("unit", "mm"), ("process", ""), ("volume", ""));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, visitor.Status);
        Assert.Contains("Die binäre STL-Datei kündigt 4.000.000.000 Dreiecke an und hat Bytes für 12.", visitor.Text, StringComparison.Ordinal);

        using var program = Catalogue.Visitor();
        foreach (var (address, words) in new[] { ("/api/inspections", "announces 4,000,000,000 triangles"), ("/api/inspections?language=de", "kündigt 4.000.000.000 Dreiecke an") })
        {
            using var body = new ByteArrayContent(cut);
            using var refused = await program.PostAsync(address, body);
            Assert.Contains(words, await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "mesh-truncated"), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_doubtful_unit_is_pointed_out_in_the_reader_s_language()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        var figure = await program.NewFigureAsync("inches");
        await program.InspectedAsync(await program.UploadAsync(figure, Api.BoxStl(1, 1.5, 4.5)));
        await designer.GoAsync($"/drafts/{figure}/parts/body?language=de");
        // 4.5 inches at 25.4 mm.
        Assert.Contains("In Millimetern gelesen ist das Teil 4,5 mm lang; in Zoll gelesen wären es 114,3 mm.", designer.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        await designer.GoAsync($"/drafts/{figure}/parts/body?language=en");
        Assert.Contains("Read as millimetres the part is 4.5 mm long; read as inches it would be 114.3 mm.", designer.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_an_earlier_version_kept_as_plain_words_is_shown_as_it_is()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        var figure = await program.NewFigureAsync("earlier");
        var told = await program.InspectedAsync(await program.UploadAsync(figure, TwoCorners()));
        const string Words = "Line 7: \"{1,5}\" is not a number. Numbers are written with digits and a decimal point, as in 12.5.";
        Assert.Equal(1, await Catalogue.WithDbAsync(db => db.Database.ExecuteSqlAsync($"UPDATE inspections SET error_message = {Words} WHERE id = {Guid.Parse((string)told["id"]!)}")));
        Assert.Contains(Words, (await designer.GoAsync($"/drafts/{figure}/parts/body?language=de")).Text, StringComparison.Ordinal);
        Assert.Contains(Words, (await designer.GoAsync($"/publish/{figure}")).Text, StringComparison.Ordinal);
        Assert.Equal(Words, (string?)(await program.GetJsonAsync($"/api/inspections/{told["id"]}"))["error"]);
    }

    private static async Task<string> WhyNothingIsShownAsync(HttpClient program, string figure, string query)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        while (true)
        {
            using var answer = await program.GetAsync($"{Api.Revisions(figure)}/1/shape{query}", patience.Token);
            if (answer.StatusCode != HttpStatusCode.Accepted) return await answer.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
            await Task.Delay(50, patience.Token);
        }
    }

    private static byte[] TwoCorners() => Encoding.ASCII.GetBytes($"solid {Guid.NewGuid()}\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nendloop\nendfacet\nendsolid\n");
}

public sealed class UnreadableFileOnSqliteTests(SqliteCatalogue catalogue) : UnreadableFileTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class UnreadableFileOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : UnreadableFileTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
