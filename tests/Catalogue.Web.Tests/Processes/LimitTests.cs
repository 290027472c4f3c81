using System.Net;
using Catalogue.Data;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Processes;

/// <summary>The numbers shapes are judged by: shown to all, changed by the host, every verdict drawn again.</summary>
public abstract class LimitTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task The_page_shows_every_limit_with_where_it_comes_from()
    {
        using var visitor = new Browser(Catalogue.Visitor());
        await visitor.GoAsync("/processes");
        Assert.Contains("Thinnest free wall", visitor.Text, StringComparison.Ordinal);
        Assert.Contains("review PMC9247992, table 1", visitor.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("edit-limit", visitor.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_host_changes_a_limit_and_all_revisions_are_judged_again()
    {
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("rejudged");
        var revision = await program.UploadAsync(figure, Api.BoxStl(10, 10, 10));
        await program.InspectedAsync(revision);
        await SpoilVerdictAsync(figure);

        using var host = await Catalogue.SignedInAsync(host: true);
        await host.GoAsync("/edit-limit/VPP-rigid/wall-free");
        await host.SubmitAsync("/edit-limit/VPP-rigid/wall-free", ("Value", "-1"), ("Origin", "set by the host"));
        Assert.Contains("A limit is a number of 0 or more", host.Text, StringComparison.Ordinal);
        await host.SubmitAsync("/edit-limit/VPP-rigid/wall-free", ("Value", "1,2"), ("Origin", "three months of our own prints"));
        Assert.Equal("/processes", host.Path);
        Assert.Contains("three months of our own prints", host.Text, StringComparison.Ordinal);
        await UntilJudgedAgainAsync(figure);
    }

    [Fact]
    public async Task Over_the_api_only_a_hosts_token_changes_a_limit()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var refused = await designer.PutAsync("/api/processes/MEX-rigid/limits/clearance", Json("""{"value":0.4,"origin":"ours"}"""));
        await refused.ExpectProblemAsync(HttpStatusCode.Forbidden, "not-allowed");

        using var host = Catalogue.Visitor();
        host.DefaultRequestHeaders.Authorization = new("Bearer", await Catalogue.TokenAsync("host", host: true));
        var changed = await host.SendAsync(HttpMethod.Put, "/api/processes/MEX-rigid/limits/clearance", new { value = 0.4, origin = "ours" }, HttpStatusCode.OK);
        Assert.Equal((0.4, "mm", "ours"), ((double)changed["value"]!, (string?)changed["unit"], (string?)changed["origin"]));
        using var unknown = await host.PutAsync("/api/processes/MEX-rigid/limits/colour", Json("""{"value":1,"origin":"ours"}"""));
        await unknown.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var noOrigin = await host.PutAsync("/api/processes/MEX-rigid/limits/clearance", Json("""{"value":1}"""));
        await noOrigin.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "text-missing");
        using var noValue = await host.PutAsync("/api/processes/MEX-rigid/limits/clearance", Json("""{"origin":"ours"}"""));
        await noValue.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "limit-invalid");
    }

    private static StringContent Json(string text) => new(text, System.Text.Encoding.UTF8, "application/json");

    /// <summary>A verdict that the checks would not give, to see that it is drawn again.</summary>
    private Task<int> SpoilVerdictAsync(string figure) => Catalogue.WithDbAsync(async db =>
    {
        var verdict = await VerdictOf(db, figure).SingleAsync();
        verdict.Replace(Judgement.From([new("test.wrong", Severity.Stop, $"Wrong.")]), DateTime.UtcNow);
        return await db.SaveChangesAsync();
    });

    private async Task UntilJudgedAgainAsync(string figure)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (await Catalogue.WithDbAsync(db => VerdictOf(db, figure).Select(v => v.Verdict).SingleAsync()) != Verdict.Suits)
            await Task.Delay(50, patience.Token);
    }

    private static IQueryable<RevisionVerdict> VerdictOf(CatalogueDb db, string figure) =>
        from v in db.Verdicts
        join r in db.Revisions on v.RevisionId equals r.Id
        join a in db.Variants on r.VariantId equals a.Id
        where a.Part.Figure.Slug == figure && v.Process == "VPP-rigid"
        select v;
}

public sealed class LimitOnSqliteTests(SqliteCatalogue catalogue) : LimitTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class LimitOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : LimitTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
