using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Meshes;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Verdicts;

/// <summary>A designer overrules a computed care: said beside it, counted no more, kept with the revision it speaks of.</summary>
public abstract class OverrulingTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Code = "wall.thin-free";
    private const string Reason = "It is a sail: forty of them printed and none tore.";

    // A plate of 0.7 mm: filament wants 0.8 mm of a free wall, rigid resin 1 mm (common practice).
    private static Task<string> PublishSailAsync(HttpClient designer) => designer.PublishBoxAsync("sail", 20, 20, 0.7);

    [Fact]
    public async Task What_is_overruled_stays_and_counts_no_more_for_readers_at_once()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await PublishSailAsync(designer);
        Assert.Equal("care", (string?)(await FigureAsync(visitor, figure))["verdict"]);

        var said = await designer.SendAsync(HttpMethod.Put, Path(figure), new { reason = Reason }, HttpStatusCode.OK);
        Assert.Equal((Code, "MEX-rigid", Reason), ((string?)said["code"], (string?)said["process"], (string?)said["reason"]));
        Assert.StartsWith("designer", (string?)said["by"], StringComparison.Ordinal);

        var after = await FigureAsync(visitor, figure);
        Assert.Equal("suits", (string?)after["verdict"]);
        var reason = Assert.Single(after["reasons"]!.AsArray())!;
        Assert.Equal((Code, "care", Reason), ((string?)reason["code"], (string?)reason["severity"], (string?)reason["overruled"]!["reason"]));
        Assert.Equal("care", (string?)(await FigureAsync(visitor, figure, "VPP-rigid"))["verdict"]);
        Assert.Equal("suits", await CellAsync(visitor, figure));

        using var browser = new Browser(Catalogue.CreateClient());
        foreach (var page in new[] { $"/figures/{figure}?process=MEX-rigid", $"/figures/{figure}/parts/body?process=MEX-rigid" })
        {
            await browser.GoAsync(page);
            Assert.Contains("Overruled by the designer: " + Reason, browser.Text, StringComparison.Ordinal);
            Assert.Contains("only 0.70 mm thick", browser.Text, StringComparison.Ordinal);
        }

        await browser.GoAsync($"/figures/{figure}?process=MEX-rigid");
        Assert.Contains("The designer overrules one care and says why.", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Taken_back_it_counts_again_and_the_history_keeps_both_words()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await PublishSailAsync(designer);
        await designer.SendAsync(HttpMethod.Put, Path(figure), new { reason = "First thought." }, HttpStatusCode.OK);
        await designer.SendAsync(HttpMethod.Put, Path(figure), new { reason = Reason }, HttpStatusCode.OK);
        await designer.SendAsync(HttpMethod.Delete, Path(figure), null, HttpStatusCode.OK);
        Assert.Equal("care", (string?)(await FigureAsync(visitor, figure))["verdict"]);
        var history = await designer.GetJsonAsync($"{Api.Revisions(figure)}/1/overrulings");
        Assert.Equal([Reason, "First thought."], history["items"]!.AsArray().Select(o => (string?)o!["reason"]));
        Assert.All(history["items"]!.AsArray(), o => Assert.NotNull(o!["withdrawnAt"]));
        using var nothing = await designer.DeleteAsync(Path(figure));
        await nothing.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
    }

    [Fact]
    public async Task Judging_anew_keeps_it_and_the_next_revision_is_judged_afresh()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await PublishSailAsync(designer);
        await designer.SendAsync(HttpMethod.Put, Path(figure), new { reason = Reason }, HttpStatusCode.OK);
        await Catalogue.WithDbAsync(async db =>
        {
            var revisions = await db.Revisions.Include(r => r.Inspection).Where(r => db.Variants.Any(v => v.Id == r.VariantId && v.Part.Figure.Slug == figure)).ToListAsync();
            await RevisionVerdicts.JudgeAsync(db, revisions, DateTime.UtcNow, CancellationToken.None);
            return await db.SaveChangesAsync();
        });
        Assert.Equal("suits", (string?)(await FigureAsync(visitor, figure))["verdict"]);

        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(20, 20, 0.75), ("note", "A little more.")));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        Assert.Equal("care", (string?)(await FigureAsync(visitor, figure))["verdict"]);
        using var browser = await Catalogue.SignedInAsync();
        await browser.GoAsync($"/drafts/{figure}/parts/body");
        Assert.Contains("These are your words on an earlier revision.", browser.Text, StringComparison.Ordinal);
        Assert.Contains(Reason, browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task On_the_parts_page_it_is_said_with_a_reason_and_taken_back()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await PublishSailAsync(designer);
        using var browser = await Catalogue.SignedInAsync();
        var page = $"/drafts/{figure}/parts/body";
        await browser.GoAsync(page);
        (string, string)[] which = [("variant", "solid"), ("number", "1"), ("process", "MEX-rigid"), ("code", Code)];
        await browser.SubmitAsync(page + "?handler=Overrule", [.. which, ("reason", " ")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        await browser.GoAsync(page);
        await browser.SubmitAsync(page + "?handler=Overrule", [.. which, ("reason", Reason)]);
        Assert.Equal(page, browser.Path);
        Assert.Contains("Overruled by the designer: " + Reason, browser.Text, StringComparison.Ordinal);
        await browser.SubmitAsync(page + "?handler=Uphold", which);
        Assert.Contains("Overrulings taken back", browser.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Overruled by the designer:", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_stops_and_what_is_only_told_and_what_is_not_there_is_refused_with_the_reason()
    {
        using var designer = await Catalogue.DesignerAsync();
        var thin = await designer.PublishBoxAsync("foil", 20, 20, 0.3); // Less than half of 0.8 mm over more than three limits: it stops.
        var detail = await RefusedAsync(designer, Path(thin), Reason, HttpStatusCode.UnprocessableEntity, "overrule-refused");
        Assert.Contains("cannot be overruled, whatever the reason", detail, StringComparison.Ordinal);

        var open = await designer.NewFigureAsync("open");
        await designer.InspectedAsync(await designer.UploadAsync(open, Api.Stl(Open())));
        await RefusedAsync(designer, Path(open, "mesh.open"), Reason, HttpStatusCode.UnprocessableEntity, "overrule-refused");

        var sail = await PublishSailAsync(designer);
        await RefusedAsync(designer, Path(sail), "", HttpStatusCode.UnprocessableEntity, "text-missing");
        await RefusedAsync(designer, Path(sail), new string('x', 501), HttpStatusCode.UnprocessableEntity, "text-too-long");
        await RefusedAsync(designer, Path(sail, "liquid.sealed"), Reason, HttpStatusCode.Conflict, "finding-missing");
        await RefusedAsync(designer, Path(sail, Code, "PBF-rigid"), Reason, HttpStatusCode.UnprocessableEntity, "process-missing");
        await RefusedAsync(designer, Path(sail, Code, revision: 9), Reason, HttpStatusCode.NotFound, "not-found");
        var cube = await designer.PublishBoxAsync("cube", 10, 10, 10); // Goes into the small-parts gauge: a note.
        await RefusedAsync(designer, Path(cube, "small-part"), Reason, HttpStatusCode.UnprocessableEntity, "overrule-needless");
        using var stranger = Catalogue.Visitor();
        await RefusedAsync(stranger, Path(sail), Reason, HttpStatusCode.Unauthorized, "token-missing");
    }

    [Fact]
    public async Task Failures_reported_raise_care_with_their_interval_and_are_not_overruled()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("tumbler", 10, 10, 40);
        for (var i = 0; i < 14; i++)
        {
            await visitor.PostAsync("/api/reports", i < 9
                ? new { figure, part = "body", process = "MEX-rigid", outcome = "failed", symptom = "snapped", stage = "use" }
                : new { figure, part = "body", process = "MEX-rigid", outcome = "worked", symptom = "none", stage = "use" }, HttpStatusCode.Created);
        }

        var after = await FigureAsync(visitor, figure);
        Assert.Equal("care", (string?)after["verdict"]);
        var reason = after["reasons"]!.AsArray().Single(r => (string?)r!["code"] == "reports.failed")!;
        Assert.Contains("9 of 14 prints", (string?)reason["message"], StringComparison.Ordinal);
        Assert.Contains("39–84 %", (string?)reason["message"], StringComparison.Ordinal);
        Assert.Equal("suits", (string?)(await FigureAsync(visitor, figure, "VPP-rigid"))["verdict"]);
        Assert.Equal("care", await CellAsync(visitor, figure));
        await RefusedAsync(designer, Path(figure, "reports.failed"), Reason, HttpStatusCode.UnprocessableEntity, "overrule-refused");
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}/parts/body?process=MEX-rigid");
        Assert.Contains("95 % interval 39–84 %", browser.Text, StringComparison.Ordinal);
    }

    private static string Path(string figure, string code = Code, string process = "MEX-rigid", int revision = 1) => $"{Api.Revisions(figure)}/{revision}/overrulings/{process}/{code}";

    private static Task<JsonNode> FigureAsync(HttpClient visitor, string figure, string process = "MEX-rigid") => visitor.GetJsonAsync($"/api/figures/{figure}?process={process}");

    private static async Task<string?> CellAsync(HttpClient visitor, string figure)
    {
        var matrix = await visitor.GetJsonAsync("/api/matrix?process=MEX-rigid");
        var row = matrix["rows"]!.AsArray().Single(r => (string?)r!["figure"] == figure)!;
        return (string?)row["cells"]![0]!["verdict"];
    }

    private static async Task<string> RefusedAsync(HttpClient client, string path, string reason, HttpStatusCode status, string code)
    {
        using var answer = await client.PutAsync(path, System.Net.Http.Json.JsonContent.Create(new { reason }));
        return await answer.ExpectProblemAsync(status, code);
    }

    private static TriangleMesh Open()
    {
        var box = Solids.Box(10, 10, 10);
        return new(box.Positions.ToArray(), box.Indices.ToArray()[3..]);
    }
}

public sealed class OverrulingOnSqliteTests(SqliteCatalogue catalogue) : OverrulingTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class OverrulingOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : OverrulingTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
