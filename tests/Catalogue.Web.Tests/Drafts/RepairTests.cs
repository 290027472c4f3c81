using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>A gentle repair: shown first, accepted as a new revision, never published by itself.</summary>
public abstract class RepairTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_repair_is_looked_at_and_accepted_over_the_api()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("mended");
        var flawed = await UploadedAsync(designer, figure, Flawed());
        Assert.Equal(["filled-holes", "turned-shells"], flawed["repair"]!["changes"]!.AsArray().Select(c => (string?)c!["kind"]));

        var proposal = await designer.GetJsonAsync(Path(figure, 1));
        Assert.Equal((1, 1, "stl"), ((int)proposal["revision"]!, (int)proposal["lastRevision"]!, (string?)proposal["format"]));
        Assert.Equal((3, 0), ((int)proposal["before"]!["boundaryEdges"]!, (int)proposal["after"]!["boundaryEdges"]!));
        Assert.Equal(1, (int)proposal["changes"]![0]!["count"]!);
        Assert.Equal(3, proposal["changes"]![0]!["at"]![0]!.AsArray().Count);
        Assert.Equal(0, (double)proposal["change"]!["beforeToAfter"]!["largestMm"]!);
        Assert.True((double)proposal["change"]!["afterToBefore"]!["largestMm"]! > 0.1);
        Assert.StartsWith("Repaired from revision 1: 1 small flat hole filled", (string?)proposal["note"], StringComparison.Ordinal);

        var made = await designer.PostAsync(Path(figure, 1), new { lastRevision = 1 }, HttpStatusCode.Accepted);
        Assert.Equal((2, "mm", (string?)proposal["note"]), ((int)made["number"]!, (string?)made["unit"], (string?)made["note"]));
        Assert.Equal("part-repaired.stl", (string?)made["fileName"]);
        var inspection = await designer.InspectedAsync(made);
        Assert.Equal((0, "done"), ((int)inspection["mesh"]!["openEdges"]!, (string?)inspection["state"]));
        Assert.Null(inspection["repair"]);

        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Null(draft["edition"]);
        var revisions = draft["parts"]![0]!["variants"]![0]!["revisions"]!.AsArray();
        Assert.Equal([2, 1], revisions.Select(r => (int)r!["number"]!));
        Assert.Equal((string?)flawed["sha256"] ?? (string?)revisions[1]!["sha256"], (string?)revisions[1]!["sha256"]);
        Assert.All(revisions, r => Assert.Null(r!["publishedAt"]));
    }

    [Fact]
    public async Task A_repair_is_looked_at_and_accepted_on_its_page()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("mended-page");
        await UploadedAsync(program, figure, Flawed());
        await designer.GoAsync($"/drafts/{figure}/parts/body");
        Assert.Contains("A gentle repair could mend this", designer.Text, StringComparison.Ordinal);
        Assert.Contains($"/repair/{figure}/body/solid/1", designer.Html, StringComparison.Ordinal);

        await designer.GoAsync($"/repair/{figure}/body/solid/1");
        Assert.Equal(HttpStatusCode.OK, designer.Status);
        Assert.Contains("1 small flat hole filled", designer.Text, StringComparison.Ordinal);
        Assert.Contains("Accept it as revision 2", designer.Text, StringComparison.Ordinal);
        Assert.Contains("Repaired from revision 1: 1 small flat hole filled", designer.Text, StringComparison.Ordinal);
        Assert.Single(await RevisionsAsync(program, figure)); // Looking changes nothing.

        await designer.SubmitAsync($"/repair/{figure}/body/solid/1", ("Note", new string('x', 2_001)), ("Format", "3mf"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, designer.Status);
        Assert.Contains("The note has 2001 characters", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync($"/repair/{figure}/body/solid/1", ("Note", "Hole at the sole closed."), ("Format", "3mf"));
        Assert.Equal($"/drafts/{figure}/parts/body", designer.Path);
        Assert.Contains("Revision 2 is the repaired mesh", designer.Text, StringComparison.Ordinal);

        var made = (await RevisionsAsync(program, figure))[0]!;
        Assert.Equal(("Hole at the sole closed.", "part-repaired.3mf", "mm"), ((string?)made["note"], (string?)made["fileName"], (string?)made["unit"]));
        var inspection = await program.InspectedAsync(made);
        Assert.Equal(0, (int)inspection["mesh"]!["openEdges"]!);
        await designer.GoAsync($"/drafts/{figure}/parts/body");
        Assert.DoesNotContain("A gentle repair could mend", designer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_3mf_is_repaired_as_a_3mf()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("package");
        using var package = new MemoryStream();
        ThreeMfWriter.Write(package, [new("body", Solids.Inverted(Solids.Box(8, 9, 10)))], [ThreeMfPlacement.AsIs(0)]);
        await UploadedAsync(designer, figure, package.ToArray());
        var made = await designer.PostAsync(Path(figure, 1), null, HttpStatusCode.Accepted);
        Assert.EndsWith(".3mf", (string?)made["fileName"], StringComparison.Ordinal);
        var inspection = await designer.InspectedAsync(made);
        Assert.Equal(720, (double)inspection["mesh"]!["volumeMm3"]!, 6);
    }

    [Fact]
    public async Task Accepting_what_was_seen_before_a_newer_revision_came_in_is_refused()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("raced");
        await UploadedAsync(program, figure, Flawed());
        await designer.GoAsync($"/repair/{figure}/body/solid/1");
        await UploadedAsync(program, figure, Api.BoxStl(9, 9, 9));

        using var refused = await program.SendJsonAsync(Path(figure, 1), new { lastRevision = 1 });
        var detail = await refused.ExpectProblemAsync(HttpStatusCode.Conflict, "changed-meanwhile");
        Assert.Contains("Revision 2 came in since you looked", detail, StringComparison.Ordinal);
        await designer.SubmitAsync($"/repair/{figure}/body/solid/1", ("Note", "Mended."));
        Assert.Contains("Revision 2 came in since you looked", designer.Text, StringComparison.Ordinal);
        Assert.Equal(2, (await RevisionsAsync(program, figure)).Count);

        await designer.SubmitAsync($"/repair/{figure}/body/solid/1", ("Note", "Mended."));
        Assert.Contains("Revision 3 is the repaired mesh", designer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_two_who_accept_at_once_one_is_refused()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("twice");
        await UploadedAsync(designer, figure, Flawed());
        var answers = await Task.WhenAll(Enumerable.Range(0, 2).Select(_ => designer.SendJsonAsync(Path(figure, 1), new { lastRevision = 1 })));
        Assert.Equal([HttpStatusCode.Accepted, HttpStatusCode.Conflict], answers.Select(a => a.StatusCode).Order());
        await answers.Single(a => a.StatusCode == HttpStatusCode.Conflict).ExpectProblemAsync(HttpStatusCode.Conflict, "changed-meanwhile");
        Assert.Equal(2, (await RevisionsAsync(designer, figure)).Count);
        foreach (var answer in answers) answer.Dispose();
    }

    [Fact]
    public async Task What_cannot_or_need_not_be_repaired_is_refused_with_the_reason()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("sound");
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 10));
        await RefusedAsync(1, HttpStatusCode.UnprocessableEntity, "nothing-to-repair", "none of the flaws");
        await UploadedAsync(designer, figure, Api.Stl(Without(Solids.Box(20, 20, 20), 0)));
        await RefusedAsync(2, HttpStatusCode.UnprocessableEntity, "repair-no-better", "none that a gentle repair can mend");
        await UploadedAsync(designer, figure, [1, 2, 3]);
        await RefusedAsync(3, HttpStatusCode.UnprocessableEntity, "mesh-rejected", "could not be read as a mesh");
        await UploadedAsync(designer, figure, Flawed());
        await designer.PostAsync($"{Api.Revisions(figure)}/4/discard", null, HttpStatusCode.OK);
        await RefusedAsync(4, HttpStatusCode.Conflict, "revision-discarded", "was discarded");
        await RefusedAsync(9, HttpStatusCode.NotFound, "not-found", "no revision 9");
        Assert.Equal(4, (await RevisionsAsync(designer, figure)).Count);

        using var page = await Catalogue.SignedInAsync();
        await page.GoAsync($"/repair/{figure}/body/solid/1");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("No repair is offered", page.Text, StringComparison.Ordinal);
        await page.GoAsync($"/repair/{figure}/body/solid/9");
        Assert.Equal(HttpStatusCode.NotFound, page.Status);

        async Task RefusedAsync(int number, HttpStatusCode status, string code, string says)
        {
            using var looked = await designer.GetAsync(Path(figure, number));
            Assert.Contains(says, await looked.ExpectProblemAsync(status, code), StringComparison.Ordinal);
            using var accepted = await designer.SendJsonAsync(Path(figure, number), new { });
            await accepted.ExpectProblemAsync(status, code);
        }
    }

    [Fact]
    public async Task Only_designers_see_or_accept_a_repair()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("private");
        await UploadedAsync(designer, figure, Flawed());
        using var stranger = Catalogue.Stranger();
        using var looked = await stranger.GetAsync(Path(figure, 1));
        Assert.Equal(HttpStatusCode.Unauthorized, looked.StatusCode);
        using var accepted = await stranger.PostAsync(Path(figure, 1), null);
        Assert.Equal(HttpStatusCode.Unauthorized, accepted.StatusCode);
        using var page = await stranger.GetAsync($"/repair/{figure}/body/solid/1");
        Assert.Equal(HttpStatusCode.Redirect, page.StatusCode);
        using var signedIn = await Catalogue.SignedInAsync();
        Assert.Equal(HttpStatusCode.BadRequest, await signedIn.ForgeAsync($"/repair/{figure}/body/solid/1", ("Note", "x"), ("Seen", "1")));
        Assert.Single(await RevisionsAsync(designer, figure));
    }

    [Fact]
    public async Task The_description_of_the_api_tells_of_repairs_and_their_problems()
    {
        using var visitor = Catalogue.Visitor();
        var paths = (await visitor.GetJsonAsync("/openapi/v1.json"))["paths"]!;
        var repair = paths["/api/figures/{figure}/parts/{part}/variants/{variant}/revisions/{number}/repair"]!;
        foreach (var code in new[] { "nothing-to-repair", "repair-no-better", "revision-discarded", "repair-too-large" })
            Assert.Contains(code, (string?)repair["get"]!["description"], StringComparison.Ordinal);
        Assert.Contains("changed-meanwhile", (string?)repair["post"]!["description"], StringComparison.Ordinal);
        Assert.NotNull(repair["post"]!["responses"]!["409"]);
        Assert.NotNull(repair["post"]!["security"]);
    }

    [Fact]
    public async Task Anybody_is_told_in_an_inspection_what_a_repair_could_change()
    {
        using var visitor = Catalogue.Visitor();
        using var form = Api.Form(Flawed());
        using var answer = await visitor.PostAsync("/api/inspections", form);
        var report = await answer.ExpectAsync(HttpStatusCode.OK);
        Assert.Equal("1 small flat hole filled", (string?)report["repair"]!["changes"]![0]!["message"]);
        Assert.True((bool)report["repair"]!["closed"]!);
    }

    private static string Path(string figure, int number) => $"{Api.Revisions(figure)}/{number}/repair";

    private static async Task<JsonNode> UploadedAsync(HttpClient designer, string figure, byte[] file) =>
        await designer.InspectedAsync(await designer.UploadAsync(figure, file));

    private static async Task<JsonArray> RevisionsAsync(HttpClient designer, string figure) =>
        (await designer.GetJsonAsync($"/api/drafts/{figure}"))["parts"]![0]!["variants"]![0]!["revisions"]!.AsArray();

    /// <summary>A ball inside out with a hole of one triangle.</summary>
    private static byte[] Flawed() => Api.Stl(Without(Solids.Inverted(Solids.Icosphere(9, 2)), 5));

    private static TriangleMesh Without(TriangleMesh mesh, int triangle) =>
        new(mesh.Positions.ToArray(), [.. mesh.Indices[..(3 * triangle)], .. mesh.Indices[((3 * triangle) + 3)..]]);
}

public sealed class RepairOnSqliteTests(SqliteCatalogue catalogue) : RepairTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class RepairOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : RepairTests(catalogue), IClassFixture<PostgreSqlCatalogue>;

/// <summary>A catalogue that takes larger files than it inspects while somebody waits.</summary>
public sealed class CappedCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [.. base.Settings(), ("Catalogue:MaxInspectionMiB", "1")];
}

public sealed class CappedRepairTests(CappedCatalogue catalogue) : IClassFixture<CappedCatalogue>
{
    [Fact]
    public async Task A_file_over_the_cap_of_inspections_is_kept_but_not_repaired()
    {
        using var designer = await catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("large");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.Stl(Solids.Inverted(Solids.Icosphere(20, 6)))));
        using var refused = await designer.GetAsync($"{Api.Revisions(figure)}/1/repair");
        Assert.Contains("larger than 1 MiB", await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "repair-too-large"), StringComparison.Ordinal);
    }
}
