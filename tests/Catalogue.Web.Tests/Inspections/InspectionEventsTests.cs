using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Web.Inspection;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Web.Tests.Inspections;

/// <summary>An inspection followed from the queue to its end, over one connection.</summary>
public abstract class InspectionEventsTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task An_upload_is_told_until_it_is_done_and_then_the_answer_ends()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("told");
        var revision = await designer.UploadAsync(figure, Api.Stl(Solids.Icosphere(14, 6)));
        var told = await FollowAsync(designer, $"/api/inspections/{Id(revision)}/events");

        Assert.Equal(("finished", "done", 100), (told[^1].Kind, (string?)told[^1].Data["state"], (int)told[^1].Data["percent"]!));
        Assert.Equal("end", told[^1].Id);
        Assert.All(told.SkipLast(1), e => Assert.Equal(("progress", ""), (e.Kind, e.Id)));
        Assert.All(told, e => Assert.False(string.IsNullOrWhiteSpace((string?)e.Data["words"])));
        var percents = told.Select(e => (int)e.Data["percent"]!).ToList();
        Assert.Equal(percents.Order(), percents);
        Assert.Equal("done", (string?)(await designer.GetJsonAsync($"/api/inspections/{Id(revision)}"))["state"]);
    }

    [Fact]
    public async Task Several_are_told_over_one_connection_and_a_rejected_one_ends_too()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("several");
        var good = Id(await designer.UploadAsync(figure, Api.BoxStl(11, 12, 13)));
        var bad = Id(await designer.UploadAsync(figure, new byte[300]));
        var told = await FollowAsync(designer, $"/api/inspections/events?id={good}&id={bad}&id={good}");
        Assert.Equal(new[] { (bad, "rejected"), (good, "done") }.Order(), told.Where(e => e.Kind == "finished").Select(e => ((string)e.Data["id"]!, (string)e.Data["state"]!)).Order());
    }

    // HTML Living Standard, 9.2: a browser comes again with the last identifier it saw; 204 tells it to stay away.
    [Theory, InlineData("end", HttpStatusCode.NoContent), InlineData("12", HttpStatusCode.OK), InlineData("\"x; y", HttpStatusCode.OK)]
    public async Task Who_comes_again_is_told_where_things_stand_unless_it_was_told_all(string last, HttpStatusCode expected)
    {
        using var designer = await Catalogue.DesignerAsync();
        var revision = await designer.UploadAsync(await designer.NewFigureAsync("again"), Api.BoxStl(5, 6, 7));
        await designer.InspectedAsync(revision);
        using var request = new HttpRequestMessage(HttpMethod.Get, $"/api/inspections/{Id(revision)}/events");
        request.Headers.TryAddWithoutValidation("Last-Event-ID", last);
        using var answer = await designer.SendAsync(request);
        Assert.Equal(expected, answer.StatusCode);
        if (expected == HttpStatusCode.OK) Assert.Contains("event: finished", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Only_designers_are_told_and_only_of_what_there_is()
    {
        using var designer = await Catalogue.DesignerAsync();
        var nobody = Guid.NewGuid();
        using var stranger = Catalogue.Stranger();
        using var refused = await stranger.GetAsync($"/api/inspections/{nobody}/events");
        await refused.ExpectProblemAsync(HttpStatusCode.Unauthorized, "token-missing");
        using var sent = await stranger.GetAsync($"/inspections/events?id={nobody}");
        Assert.Equal(HttpStatusCode.Redirect, sent.StatusCode);
        using var missing = await designer.GetAsync($"/api/inspections/{nobody}/events");
        await missing.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var none = await designer.GetAsync("/api/inspections/events");
        await none.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "inspections-invalid");
        using var many = await designer.GetAsync("/api/inspections/events?" + string.Join('&', Enumerable.Range(0, 51).Select(_ => "id=" + Guid.NewGuid())));
        await many.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "inspections-invalid");
    }

    [Fact]
    public async Task The_connections_are_bounded_and_whoever_leaves_makes_room()
    {
        using var designer = await Catalogue.DesignerAsync();
        var revision = await designer.UploadAsync(await designer.NewFigureAsync("crowd"), Api.BoxStl(7, 8, 9));
        var watch = Catalogue.Services.GetRequiredService<InspectionWatch>();
        var crowd = new List<InspectionWatch.Watcher>();
        try
        {
            while (crowd.Count <= InspectionWatch.MostWatchers) crowd.Add(watch.Join([Guid.NewGuid()]));
            Assert.Fail("Nobody was turned away.");
        }
        catch (RuleBrokenException full) when (full.Code == "busy")
        {
            using var refused = await designer.GetAsync($"/api/inspections/{Id(revision)}/events");
            await refused.ExpectProblemAsync(HttpStatusCode.ServiceUnavailable, "busy");
        }
        finally
        {
            foreach (var watcher in crowd) watcher.Dispose();
        }

        Assert.NotEmpty(await FollowAsync(designer, $"/api/inspections/{Id(revision)}/events"));
    }

    [Fact]
    public async Task Who_goes_away_is_forgotten()
    {
        var watch = Catalogue.Services.GetRequiredService<InspectionWatch>();
        using var designer = await Catalogue.DesignerAsync();
        var id = await Catalogue.WithDbAsync(async db =>
        {
            var waits = new Model.Inspections.MeshInspection(new string('a', 64), null, DateTime.UtcNow.AddHours(1)); // Nobody works on it.
            db.Inspections.Add(waits);
            await db.SaveChangesAsync();
            return waits.Id;
        });
        var answer = await designer.GetAsync($"/api/inspections/{id}/events", HttpCompletionOption.ResponseHeadersRead);
        using (var reader = new StreamReader(await answer.Content.ReadAsStreamAsync()))
        {
            while (await reader.ReadLineAsync() is { } line && !line.StartsWith("data:", StringComparison.Ordinal))
            {
            }
        }

        answer.Dispose();
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (watch.Watchers > 0) await Task.Delay(50, patience.Token);
    }

    private static string Id(JsonNode revision) => (string)revision["inspection"]!["id"]!;

    /// <summary>Everything that is told until the answer ends.</summary>
    private static async Task<List<(string Kind, string Id, JsonNode Data)>> FollowAsync(HttpClient designer, string path)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(300));
        using var answer = await designer.GetAsync(path, HttpCompletionOption.ResponseHeadersRead, patience.Token);
        Assert.Equal((HttpStatusCode.OK, "text/event-stream"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        Assert.True(answer.Headers.CacheControl?.NoStore);
        var told = new List<(string, string, JsonNode)>();
        foreach (var block in (await answer.Content.ReadAsStringAsync(patience.Token)).Split("\n\n", StringSplitOptions.RemoveEmptyEntries))
        {
            var lines = block.Split('\n').Select(line => line.Split(": ", 2)).ToLookup(line => line[0], line => line[1]);
            if (lines["data"].Any()) told.Add((lines["event"].Single(), lines["id"].SingleOrDefault(""), JsonNode.Parse(lines["data"].Single())!));
        }

        return told;
    }
}

public sealed class SqliteInspectionEventsTests(SqliteCatalogue catalogue) : InspectionEventsTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PostgreSqlInspectionEventsTests(PostgreSqlCatalogue catalogue) : InspectionEventsTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
