using System.Net;

namespace Catalogue.Web.Tests.Reports;

/// <summary>Telling how a print went.</summary>
public abstract class ReportTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task Nine_of_fourteen_is_said_in_words_and_a_revision_that_answers_is_not_blamed()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("acrobat", 10, 10, 40);
        for (var i = 0; i < 14; i++)
            await visitor.PostAsync("/api/reports", i < 9 ? Failed(figure) : Worked(figure), HttpStatusCode.Created);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}");
        Assert.Contains("9 of 14 failed: snapped in use (9).", browser.Text, StringComparison.Ordinal);

        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(12, 12, 40), ("note", "Thicker.")));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        await browser.GoAsync($"/figures/{figure}/parts/body");
        Assert.Contains("Of earlier revisions 9 of 14 failed: snapped in use (9). Nobody has reported the present one yet.", browser.Text, StringComparison.Ordinal);
        var tally = Assert.Single((await visitor.GetJsonAsync($"/api/figures/{figure}/reports"))["tallies"]!.AsArray())!;
        Assert.Equal((0, 14, 9), ((int)tally["now"]!["total"]!, (int)tally["earlier"]!["total"]!, (int)tally["earlier"]!["failed"]!));
    }

    [Fact]
    public async Task Prints_that_gave_trouble_are_counted_beside_those_that_failed()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("juggler", 10, 10, 40);
        await visitor.PostAsync("/api/reports", Failed(figure), HttpStatusCode.Created);
        for (var i = 0; i < 2; i++)
            await visitor.PostAsync("/api/reports", new { figure, part = "body", process = "VPP-rigid", outcome = "worked-with-care", symptom = "snapped", stage = "use" }, HttpStatusCode.Created);
        await visitor.PostAsync("/api/reports", Worked(figure), HttpStatusCode.Created);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}");
        Assert.Contains("1 of 4 failed, 2 more gave trouble: snapped in use (3).", browser.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_report_sent_twice_under_one_key_is_kept_once()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("twin", 10, 10, 10);
        var key = Guid.NewGuid();
        var report = new { figure, part = "body", process = "MEX-rigid", outcome = "failed", symptom = "warped", stage = "printing", key };
        var once = await visitor.PostAsync("/api/reports", report, HttpStatusCode.Created);
        var twice = await visitor.PostAsync("/api/reports", report, HttpStatusCode.Created);
        Assert.Equal((string?)once["id"], (string?)twice["id"]);
        Assert.Equal(1, (int)(await visitor.GetJsonAsync($"/api/figures/{figure}/reports"))["total"]!);
    }

    [Fact]
    public async Task A_report_that_breaks_a_rule_is_not_kept_and_says_what_is_missing()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("mute", 10, 10, 10);
        (object Report, HttpStatusCode Status, string Code)[] refused =
        [
            (new { figure, part = "body", process = "MEX-rigid", outcome = "failed", stage = "use" }, HttpStatusCode.UnprocessableEntity, "symptom-missing"),
            (new { figure, part = "body", process = "MEX-rigid", outcome = "failed", symptom = "snapped" }, HttpStatusCode.UnprocessableEntity, "stage-missing"),
            (new { figure, part = "body", process = "MEX-rigid", symptom = "snapped" }, HttpStatusCode.UnprocessableEntity, "outcome-missing"),
            (new { figure, part = "body", process = "XYZ-odd", outcome = "worked" }, HttpStatusCode.UnprocessableEntity, "process-unknown"),
            (new { figure, part = "body", process = "", outcome = "worked" }, HttpStatusCode.UnprocessableEntity, "process-invalid"),
            (new { figure, part = "body", revision = 7, process = "MEX-rigid", outcome = "worked" }, HttpStatusCode.NotFound, "not-found"),
            (new { figure, part = "wing", process = "MEX-rigid", outcome = "worked" }, HttpStatusCode.NotFound, "not-found"),
            (new { figure = "nobody", part = "body", process = "MEX-rigid", outcome = "worked" }, HttpStatusCode.NotFound, "not-found"),
            (new { figure, part = "body", process = "MEX-rigid", outcome = "worked", note = new string('x', 4001) }, HttpStatusCode.UnprocessableEntity, "text-too-long"),
            (new { figure, part = "body", process = "MEX-rigid", outcome = "splendid" }, HttpStatusCode.BadRequest, "json-malformed"),
        ];
        foreach (var (report, status, code) in refused)
        {
            using var response = await visitor.SendJsonAsync("/api/reports", report);
            await response.ExpectProblemAsync(status, code);
        }

        Assert.Equal(0, (int)(await visitor.GetJsonAsync($"/api/figures/{figure}/reports"))["total"]!);
    }

    [Fact]
    public async Task The_form_keeps_what_was_typed_when_something_is_missing()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("scribe", 10, 10, 10);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}/parts/body/report");
        await browser.SubmitAsync("/report", ("Outcome", "failed"), ("Stage", "use"), ("Process", "MEX-rigid"), ("Note", "It <i>creaked</i> & broke."));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains("A failure needs a word on what happened.", browser.Text, StringComparison.Ordinal);
        Assert.Contains("It &lt;i&gt;creaked&lt;/i&gt; &amp; broke.</textarea>", browser.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_without_its_token_or_filled_in_by_a_machine_leaves_nothing()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("decoy", 10, 10, 10);
        var page = $"/figures/{figure}/parts/body/report";
        using var browser = new Browser(Catalogue.CreateClient());
        Assert.Equal(HttpStatusCode.BadRequest, await browser.ForgeAsync(page, ("Outcome", "worked"), ("Process", "MEX-rigid")));
        await browser.GoAsync(page);
        await browser.SubmitAsync("/report", ("Outcome", "worked"), ("Process", "MEX-rigid"), ("Website", "https://spam.example/"));
        Assert.Contains("Thank you", browser.Text, StringComparison.Ordinal);
        Assert.Equal(0, (int)(await visitor.GetJsonAsync($"/api/figures/{figure}/reports"))["total"]!);
    }

    private static object Failed(string figure) =>
        new { figure, part = "body", process = "VPP-rigid", outcome = "failed", symptom = "snapped", stage = "use" };

    private static object Worked(string figure) => new { figure, part = "body", process = "VPP-rigid", outcome = "worked" };
}

public sealed class ReportOnSqliteTests(SqliteCatalogue catalogue) : ReportTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class ReportOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : ReportTests(catalogue), IClassFixture<PostgreSqlCatalogue>;

/// <summary>A catalogue that takes two reports a minute from one address.</summary>
public sealed class StrictCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [.. base.Settings(), ("Catalogue:ReportsPerMinute", "2")];
}

public sealed class ReportFloodTests(StrictCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<StrictCatalogue>
{
    [Fact]
    public async Task A_flood_is_stopped_and_told_when_to_come_back()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishBoxAsync("target", 10, 10, 10);
        var report = new { figure, part = "body", process = "MEX-rigid", outcome = "worked" };
        await visitor.PostAsync("/api/reports", report, HttpStatusCode.Created);
        await visitor.PostAsync("/api/reports", report, HttpStatusCode.Created);
        using var third = await visitor.SendJsonAsync("/api/reports", report);
        await third.ExpectProblemAsync(HttpStatusCode.TooManyRequests, "too-many-requests");
        Assert.True(third.Headers.RetryAfter!.Delta > TimeSpan.Zero);
        using var browser = new Browser(Catalogue.CreateClient());
        await browser.GoAsync($"/figures/{figure}/parts/body/report");
        Assert.Equal(HttpStatusCode.OK, browser.Status);
        await browser.SubmitAsync("/report", ("Outcome", "worked"), ("Process", "MEX-rigid"));
        Assert.Equal(HttpStatusCode.TooManyRequests, browser.Status);
        Assert.Contains("That was a lot in a short time", browser.Text, StringComparison.Ordinal);
    }
}
