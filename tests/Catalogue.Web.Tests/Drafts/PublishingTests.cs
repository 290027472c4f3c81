using System.Net;
using System.Security.Cryptography;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>From nothing to a published figure, over HTTP.</summary>
public abstract class PublishingTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_figure_is_made_uploaded_inspected_and_published()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("lamplighter");
        var stl = Api.BoxStl(20, 30, 40);

        var revision = await designer.UploadAsync(figure, stl, ("unit", "mm"), ("note", "First try."));
        Assert.Equal(1, (int)revision["number"]!);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(stl)), (string?)revision["sha256"]);

        var inspection = await designer.InspectedAsync(revision);
        Assert.Equal("done", (string?)inspection["state"]);
        Assert.Equal(24_000, (double)inspection["mesh"]!["volumeMm3"]!, 3);

        var before = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal("draft", (string?)before["status"]);
        Assert.Empty(before["obstacles"]!.AsArray());
        Assert.Equal("suits", (string?)before["parts"]![0]!["variants"]![0]!["revisions"]![0]!["verdicts"]![0]!["verdict"]);

        var edition = await designer.PostAsync($"/api/figures/{figure}/publish", new { note = "Out into the world." }, HttpStatusCode.OK);
        Assert.Equal(1, (int)edition["number"]!);
        var after = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal("published", (string?)after["status"]);
        Assert.Equal(1, (int)after["edition"]!);
        Assert.Empty(after["changes"]!.AsArray());
        Assert.Equal(stl, await File.ReadAllBytesAsync(Path.Combine(Catalogue.BlobFolder, ((string)revision["sha256"]!)[..2], ((string)revision["sha256"]!)[2..])));
    }

    [Fact]
    public async Task A_second_revision_is_shown_as_a_change_until_it_is_published()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await PublishedAsync(designer, "juggler");
        var second = await designer.UploadAsync(figure, Api.BoxStl(10, 10, 11), ("note", "A little taller."));
        Assert.Equal(2, (int)second["number"]!);
        await designer.InspectedAsync(second);

        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(1, (int)draft["edition"]!);
        var change = Assert.Single(draft["changes"]!.AsArray())!;
        Assert.Equal((1, 2), ((int)change["from"]!, (int)change["to"]!));

        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(2, (int)draft["edition"]!);
        Assert.Empty(draft["changes"]!.AsArray());
    }

    [Fact]
    public async Task Publishing_waits_for_the_required_parts_and_says_which()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("acrobat");
        await designer.PostAsync($"/api/figures/{figure}/parts", new { name = "Left arm", quantity = 1 }, HttpStatusCode.Created);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));

        using var refused = await designer.PostAsync($"/api/figures/{figure}/publish", null);
        var detail = await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "part-without-revision");
        Assert.Contains("Left arm", detail, StringComparison.Ordinal);
        Assert.Contains("Nothing was published", detail, StringComparison.Ordinal);

        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/left-arm", new { name = "Left arm", role = "optional" }, HttpStatusCode.OK);
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
    }

    [Fact]
    public async Task A_mesh_with_a_hole_is_not_published_and_the_last_edition_stays()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await PublishedAsync(designer, "sailor");
        var open = Api.BoxStl(10, 10, 10)[..^50];
        open[80]--; // one triangle less, and the count says so
        await designer.InspectedAsync(await designer.UploadAsync(figure, open));

        using var refused = await designer.PostAsync($"/api/figures/{figure}/publish", null);
        var detail = await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "mesh-open");
        Assert.Contains("3 open edges", detail, StringComparison.Ordinal);
        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(("published", 1), ((string?)draft["status"], (int)draft["edition"]!));

        await designer.PostAsync($"{Api.Revisions(figure)}/2/discard", null, HttpStatusCode.OK);
        draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Empty(draft["obstacles"]!.AsArray());
        Assert.Equal(3, (int)(await designer.UploadAsync(figure, Api.BoxStl(9, 9, 9)))["number"]!);
    }

    [Fact]
    public async Task A_choice_needs_one_member_with_a_mesh()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("lantern");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        await designer.PostAsync($"/api/figures/{figure}/choices", new { name = "Front" }, HttpStatusCode.Created);
        var member = await designer.PostAsync($"/api/figures/{figure}/parts", new { name = "Lit front", role = "choice", choice = "front" }, HttpStatusCode.Created);
        Assert.Equal("choice", (string?)member["role"]);
        await designer.PostAsync($"/api/figures/{figure}/parts", new { name = "Plain front", choice = "front" }, HttpStatusCode.Created);
        var choice = await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/choices/front", new { defaultPart = "plain-front" }, HttpStatusCode.OK);
        Assert.Equal("plain-front", (string?)choice["defaultPart"]);

        using var refused = await designer.PostAsync($"/api/figures/{figure}/publish", null);
        await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "choice-without-revision");

        await designer.PostAsync($"/api/figures/{figure}/parts/lit-front/variants", new { name = "Thin", processes = new[] { "VPP-rigid" } }, HttpStatusCode.Created);
        using var form = Api.Form(Api.BoxStl(8, 8, 2));
        using var uploaded = await designer.PostAsync(Api.Revisions(figure, "lit-front", "thin"), form);
        await designer.InspectedAsync(await uploaded.ExpectAsync(HttpStatusCode.Accepted));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
    }

    [Fact]
    public async Task Two_designers_publishing_at_once_make_one_edition()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("twins");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));

        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => designer.PostAsync($"/api/figures/{figure}/publish", null)));

        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK);
        foreach (var refused in answers.Where(a => a.StatusCode != HttpStatusCode.OK))
        {
            var detail = await refused.ExpectProblemAsync(HttpStatusCode.Conflict, "nothing-new");
            Assert.Contains("Edition 1 already holds exactly these revisions", detail, StringComparison.Ordinal);
        }

        Assert.Single((await designer.GetJsonAsync($"/api/drafts/{figure}"))["editions"]!.AsArray());
        foreach (var answer in answers) answer.Dispose();
    }

    [Fact]
    public async Task Publishing_what_was_seen_is_refused_when_something_was_uploaded_since()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("conjurer");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        var seen = (int)(await designer.GetJsonAsync($"/api/drafts/{figure}"))["version"]!;
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 12)));

        using var refused = await designer.SendJsonAsync($"/api/figures/{figure}/publish", new { version = seen });
        await refused.ExpectProblemAsync(HttpStatusCode.Conflict, "changed-meanwhile");
        Assert.Equal("draft", (string?)(await designer.GetJsonAsync($"/api/drafts/{figure}"))["status"]);
    }

    [Fact]
    public async Task Parts_added_and_meshes_uploaded_at_the_same_time_are_all_kept()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("chorus");

        await Task.WhenAll(Enumerable.Range(0, 4).Select(i =>
                designer.PostAsync($"/api/figures/{figure}/parts", new { name = $"Singer {i}" }, HttpStatusCode.Created))
            .Concat(Enumerable.Range(0, 4).Select(i => designer.UploadAsync(figure, Api.BoxStl(10, 10, 10 + i)))));

        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(5, draft["parts"]!.AsArray().Count);
        Assert.Equal([4, 3, 2, 1], draft["parts"]![0]!["variants"]![0]!["revisions"]!.AsArray().Select(r => (int)r!["number"]!));
    }

    [Fact]
    public async Task A_withdrawn_figure_is_not_published_until_it_is_reinstated()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await PublishedAsync(designer, "hermit");
        await designer.PostAsync($"/api/figures/{figure}/withdraw", null, HttpStatusCode.OK);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 12)));
        using var refused = await designer.PostAsync($"/api/figures/{figure}/publish", null);
        await refused.ExpectProblemAsync(HttpStatusCode.Conflict, "figure-withdrawn");

        var back = await designer.PostAsync($"/api/figures/{figure}/reinstate", null, HttpStatusCode.OK);
        Assert.Equal(("published", 1), ((string?)back["status"], (int)back["edition"]!));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
    }

    [Fact]
    public async Task Deleting_a_figure_withdraws_it_and_keeps_its_files()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await PublishedAsync(designer, "limpet");
        var file = (string)(await designer.GetJsonAsync($"/api/figures/{figure}"))["parts"]![0]!["variants"]![0]!["revision"]!["sha256"]!;
        await designer.SendAsync(HttpMethod.Delete, $"/api/figures/{figure}", null, HttpStatusCode.OK);
        using var gone = await designer.GetAsync(new Uri($"/api/figures/{figure}", UriKind.Relative));
        await gone.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        Assert.True(File.Exists(Path.Combine(Catalogue.BlobFolder, file[..2], file[2..])));
    }

    [Fact]
    public async Task An_identical_mesh_is_inspected_once_and_judged_at_once()
    {
        using var designer = await Catalogue.DesignerAsync();
        var (first, second) = (await designer.NewFigureAsync("copy"), await designer.NewFigureAsync("copy"));
        var stl = Api.BoxStl(11, 12, 13);
        var original = await designer.UploadAsync(first, stl);
        await designer.InspectedAsync(original);
        var copy = await designer.UploadAsync(second, stl);

        Assert.Equal((string?)original["inspection"]!["id"], (string?)copy["inspection"]!["id"]);
        Assert.True((bool)copy["inspection"]!["finished"]!);
        var verdicts = (await designer.GetJsonAsync($"{Api.Revisions(second)}/1"))["verdicts"]!.AsArray();
        Assert.Equal(6, verdicts.Count);
    }

    [Fact]
    public async Task A_part_taken_out_leaves_the_next_edition_and_can_be_put_back()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("magpie");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        await designer.PostAsync($"/api/figures/{figure}/parts", new { name = "Hat" }, HttpStatusCode.Created);
        using (var removed = await designer.DeleteAsync($"/api/figures/{figure}/parts/hat")) await removed.ExpectAsync(HttpStatusCode.NoContent);
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);

        using var again = await designer.SendJsonAsync($"/api/figures/{figure}/parts", new { name = "Hat" });
        var detail = await again.ExpectProblemAsync(HttpStatusCode.Conflict, "part-exists");
        Assert.Contains("put that part back", detail, StringComparison.Ordinal);
        var back = await designer.PostAsync($"/api/figures/{figure}/parts/hat/restore", null, HttpStatusCode.OK);
        Assert.False((bool)back["removed"]!);
    }

    private static async Task<string> PublishedAsync(HttpClient designer, string name)
    {
        var figure = await designer.NewFigureAsync(name);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        return figure;
    }
}

public sealed class PublishingOnSqliteTests(SqliteCatalogue catalogue) : PublishingTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PublishingOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : PublishingTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
