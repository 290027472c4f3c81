using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>Where parts sit, said by numbers on a page, without JavaScript.</summary>
public abstract class PosePageTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task Numbers_become_places_and_a_place_nobody_touched_stays_exactly_as_it_was()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        var figure = await TwoPartsAsync(program);
        var turn = Rotation.About(new(1, -2, 0.5), 2.1).ToRowMajor();
        await program.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/body/poses", new { poses = new[] { new { x = 1.23456789, y = 0.0, z = -7.5, rotation = turn } } }, HttpStatusCode.OK);
        await designer.GoAsync($"/edit-poses/{figure}");
        Assert.Contains("value=\"1.2346\"", designer.Html, StringComparison.Ordinal);
        var body = Six(designer, 0);
        await designer.SubmitAsync($"/edit-poses/{figure}", [.. Numbers(0, body), .. Numbers(1, "0", "-12,5", "40", "0", "0", "90"), .. Numbers(2, "0", "12.5", "40", "0", "0", "-90")]);
        Assert.Contains("It is saved where the parts sit.", designer.Text, StringComparison.Ordinal);

        Assert.Equal(1.23456789, (double)(await PosesAsync(program, figure, "body"))[0]!["x"]!);
        Assert.Equal(turn, (await PosesAsync(program, figure, "body"))[0]!["rotation"]!.AsArray().Select(n => (double)n!));
        var arms = await PosesAsync(program, figure, "arm");
        Assert.Equal([-12.5, 12.5], arms.Select(p => (double)p!["y"]!));

        // A quarter turn about z: the file's x axis points along y.
        Assert.Equal([0, -1, 0, 1, 0, 0, 0, 0, 1], arms[0]!["rotation"]!.AsArray().Select(n => Math.Round((double)n!, 9)));
        Assert.Equal(("-90", "-90"), (Six(designer, 2)[5], (Rotation.FromRowMajor([.. arms[1]!["rotation"]!.AsArray().Select(n => (double)n!)]).ToTurns().Z).ToString("0", CultureInfo.InvariantCulture)));

        await designer.SubmitAsync($"/edit-poses/{figure}", [.. Numbers(0, body), .. Numbers(1, "", "", "", "", "", ""), .. Numbers(2, "", "", "", "", "", "")]);
        Assert.Empty(await PosesAsync(program, figure, "arm"));
        Assert.Single(await PosesAsync(program, figure, "body"));
    }

    [Fact]
    public async Task Half_a_place_is_refused_with_the_part_it_is_about_and_what_was_typed()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        var figure = await TwoPartsAsync(program);
        await designer.GoAsync($"/edit-poses/{figure}");
        await designer.SubmitAsync($"/edit-poses/{figure}", [.. Numbers(0, "1", "2", "", "0", "0", "0"), .. Numbers(1), .. Numbers(2)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, designer.Status);
        Assert.Contains("Copy 1 of “Body” lacks some of its six numbers.", designer.Text, StringComparison.Ordinal);
        Assert.Equal(["1", "2", "", "0", "0", "0"], Six(designer, 0));
        await designer.SubmitAsync($"/edit-poses/{figure}", [.. Numbers(0), .. Numbers(1, "0", "0", "0", "0", "0", "0"), .. Numbers(2)]);
        Assert.Contains("Copy 2 of “Arm” has no place, others of it have.", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync($"/edit-poses/{figure}", [.. Numbers(0, "far", "0", "0", "0", "0", "0"), .. Numbers(1), .. Numbers(2)]);
        Assert.Contains("“far” is not a number", designer.Text, StringComparison.Ordinal);
        Assert.Empty(await PosesAsync(program, figure, "body"));
    }

    [Fact]
    public async Task Places_changed_by_somebody_else_meanwhile_are_not_written_over_unseen()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        var figure = await TwoPartsAsync(program);
        await designer.GoAsync($"/edit-poses/{figure}");
        await program.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/body/poses", new { poses = new[] { new { x = 5, y = 0, z = 0, rotation = Rotation.Identity.ToRowMajor() } } }, HttpStatusCode.OK);
        (string, string)[] mine = [.. Numbers(0, "9", "0", "0", "0", "0", "0"), .. Numbers(1), .. Numbers(2)];
        await designer.SubmitAsync($"/edit-poses/{figure}", mine);
        Assert.Contains("Somebody else changed the parts or where they sit", designer.Text, StringComparison.Ordinal);
        Assert.Equal("9", Six(designer, 0)[0]);
        Assert.Equal(5, (double)(await PosesAsync(program, figure, "body"))[0]!["x"]!);
        await designer.SubmitAsync($"/edit-poses/{figure}", mine);
        Assert.Equal(9, (double)(await PosesAsync(program, figure, "body"))[0]!["x"]!);
    }

    [Fact]
    public async Task Only_designers_see_the_page_and_the_picture_of_a_draft()
    {
        using var program = await Catalogue.DesignerAsync();
        using var designer = await Catalogue.SignedInAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await TwoPartsAsync(program);
        await program.InspectedAsync(await program.UploadAsync(figure, Api.BoxStl(8, 9, 10)));
        await designer.GoAsync($"/edit-poses/{figure}");
        await designer.SubmitAsync($"/edit-poses/{figure}", [.. Numbers(0, "0", "0", "0", "0", "0", "0"), .. Numbers(1), .. Numbers(2)]);
        await designer.GoAsync($"/drafts/{figure}/picture/160.webp");
        Assert.Equal(HttpStatusCode.OK, designer.Status);
        foreach (var path in new[] { $"/edit-poses/{figure}", $"/drafts/{figure}/picture/160.webp" })
        {
            using var answer = await visitor.GetAsync(path);
            Assert.Contains("/sign-in", answer.Headers.Location?.ToString() ?? answer.RequestMessage!.RequestUri!.ToString(), StringComparison.Ordinal);
        }
    }

    /// <summary>A body and two arms.</summary>
    private static async Task<string> TwoPartsAsync(HttpClient program)
    {
        var figure = await program.NewFigureAsync("placed");
        await program.PostAsync($"/api/figures/{figure}/parts", new { slug = "arm", name = "Arm", quantity = 2 }, HttpStatusCode.Created);
        return figure;
    }

    private static (string, string)[] Numbers(int copy, params string[] six) =>
        [.. new[] { "X", "Y", "Z", "TurnX", "TurnY", "TurnZ" }.Zip(six.Length == 0 ? ["", "", "", "", "", ""] : six).Select(n => ($"Form.Copies[{copy}].{n.First}", n.Second))];

    /// <summary>What the fields of a copy show.</summary>
    private static string[] Six(Browser page, int copy) =>
    [
        .. new[] { "X", "Y", "Z", "TurnX", "TurnY", "TurnZ" }.Select(n =>
        {
            var tag = page.Html[..page.Html.IndexOf('>', page.Html.IndexOf($"name=\"Form.Copies[{copy}].{n}\"", StringComparison.Ordinal))];
            tag = tag[tag.LastIndexOf('<')..];
            var from = tag.IndexOf("value=\"", StringComparison.Ordinal) + 7;
            return tag[from..tag.IndexOf('"', from)];
        }),
    ];

    private static async Task<JsonArray> PosesAsync(HttpClient program, string figure, string part) =>
        (await program.GetJsonAsync($"/api/drafts/{figure}"))["parts"]!.AsArray().Single(p => (string?)p!["slug"] == part)!["poses"]!.AsArray();
}

public sealed class PosePageOnSqliteTests(SqliteCatalogue catalogue) : PosePageTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PosePageOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : PosePageTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
