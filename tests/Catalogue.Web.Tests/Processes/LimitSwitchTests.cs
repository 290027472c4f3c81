using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Data.Judging;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Processes;

/// <summary>A changed limit comes into effect for everything at once: whoever reads sees a figure by the old limit or by the new one, also when judging breaks off.</summary>
public abstract class LimitSwitchTests(CatalogueFixture catalogue) : PlateTests(catalogue)
{
    private const string Limit = "/api/processes/VPP-rigid/limits/wall-free";

    [Fact]
    public async Task Judging_that_breaks_off_changes_nothing_and_goes_on_where_it_stopped()
    {
        var figure = await PlatesAsync("broken-off");
        using var host = await HostAsync();
        await AskAsync(host, 1.0);
        await new Rejudger(Database, TimeProvider.System).RunAsync(CancellationToken.None);
        await ExpectAsync(figure, 1.0);

        await AskAsync(host, 1.5);
        var (steps, judged) = (0, 0);
        while (true)
        {
            // Every step is done by somebody new, as after a crash.
            if (await new Rejudger(Database, TimeProvider.System) { Batch = 2 }.StepAsync(CancellationToken.None) is not > 0) break;
            steps++;
            await ExpectAsync(figure, 1.0);
            var state = await Catalogue.WithDbAsync(db => db.Rejudgements.AsNoTracking().SingleAsync());
            Assert.True(state.IsGoingOn && state.Judged > judged, "It began again instead of going on.");
            judged = state.Judged;
        }

        Assert.True(steps > 1);
        await ExpectAsync(figure, 1.5);
        Assert.Equal(0, await Catalogue.WithDbAsync(db => db.NextVerdicts.CountAsync()));
        Assert.Null(await new Rejudger(Database, TimeProvider.System).StepAsync(CancellationToken.None));
    }

    [Fact]
    public async Task Another_change_in_between_begins_anew_and_what_is_inspected_meanwhile_is_judged_by_it_too()
    {
        var figure = await PlatesAsync("changed-twice");
        using var host = await HostAsync();
        await AskAsync(host, 1.3);
        var rejudger = new Rejudger(Database, TimeProvider.System) { Batch = 2 };
        await rejudger.StepAsync(CancellationToken.None);
        await AskAsync(host, 1.7);
        await rejudger.StepAsync(CancellationToken.None);
        var late = await PlatesAsync("latecomer");
        await rejudger.RunAsync(CancellationToken.None);
        await ExpectAsync(figure, 1.7);
        await ExpectAsync(late, 1.7);
    }

    [Fact]
    public async Task A_reader_sees_each_figure_by_the_old_limit_or_by_the_new_one_never_a_mixture()
    {
        var figure = await PlatesAsync("never-mixed");
        using var host = await HostAsync();
        await AskAsync(host, 1.0);
        await new Rejudger(Database, TimeProvider.System).RunAsync(CancellationToken.None);

        using var stop = new CancellationTokenSource();
        var seen = new ConcurrentDictionary<double, int>();
        var reader = Task.Run(async () =>
        {
            using var visitor = Catalogue.Visitor();
            while (!stop.IsCancellationRequested)
            {
                Saw(OneLimit(LimitsOf(await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid"))));
                if ((await visitor.GetJsonAsync($"/api/figures?q=never-mixed&process=VPP-rigid&size=200"))["items"]!.AsArray().FirstOrDefault(i => (string?)i!["slug"] == figure) is { } item)
                    Saw(OneLimit(ReasonsOf(item)));
            }
        });
        await SeenAsync(1.0, 1);
        foreach (var (value, times) in new[] { (1.5, 1), (1.0, seen[1.0] + 1), (1.2, 1) })
        {
            await AskAsync(host, value);
            await new Rejudger(Database, TimeProvider.System) { Batch = 1 }.RunAsync(CancellationToken.None);
            await SeenAsync(value, times);
        }

        await stop.CancelAsync();
        await reader;
        await ExpectAsync(figure, 1.2);

        void Saw(double limit) => seen.AddOrUpdate(limit, 1, (_, times) => times + 1);

        // The reader comes by again and again; the index follows within a second, on a busy machine later.
        async Task SeenAsync(double limit, int times)
        {
            for (var waited = Stopwatch.StartNew(); seen.GetValueOrDefault(limit) < times; await Task.Delay(20))
            {
                if (reader.IsCompleted) await reader;
                Assert.True(waited.Elapsed < TimeSpan.FromSeconds(60), $"No reader saw {limit}.");
            }
        }
    }

    [Fact]
    public async Task The_host_sees_how_far_it_is_and_the_value_in_effect_until_then()
    {
        await PlatesAsync("patience");
        using var host = await HostAsync();
        await AskAsync(host, 1.9);
        await new Rejudger(Database, TimeProvider.System) { Batch = 1 }.StepAsync(CancellationToken.None);
        using var browser = new Browser(Catalogue.Visitor());
        await browser.GoAsync("/processes");
        Assert.Contains("soon 1.9\u00A0mm", browser.Text, StringComparison.Ordinal);
        Assert.Contains("Until then the earlier verdicts hold", browser.Text, StringComparison.Ordinal);
        await new Rejudger(Database, TimeProvider.System).RunAsync(CancellationToken.None);
        await browser.GoAsync("/processes");
        Assert.DoesNotContain("soon 1.9\u00A0mm", browser.Text, StringComparison.Ordinal);
        Assert.Contains("1.9\u00A0mm", browser.Text, StringComparison.Ordinal);
    }

    private async Task<HttpClient> HostAsync()
    {
        var host = Catalogue.Visitor();
        host.DefaultRequestHeaders.Authorization = new("Bearer", await Catalogue.TokenAsync("host", host: true));
        return host;
    }

    private static Task<JsonNode> AskAsync(HttpClient host, double value) => host.SendAsync(HttpMethod.Put, Limit, new { value, origin = "a test" }, HttpStatusCode.OK);

    private async Task ExpectAsync(string figure, double limit)
    {
        using var visitor = Catalogue.Visitor();
        for (var tries = 0; ; tries++)
        {
            var seen = OneLimit(LimitsOf(await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid")));
            var shown = (double)(await visitor.GetJsonAsync("/api/processes"))["items"]!.AsArray().Single(p => (string?)p!["code"] == "VPP-rigid")!["limits"]!.AsArray().Single(l => (string?)l!["key"] == "wall-free")!["value"]!;
            if (tries < 20 && shown != limit) await Task.Delay(100);
            else
            {
                Assert.Equal((limit, limit), (seen, shown));
                return;
            }
        }
    }

    /// <summary>The limits that all findings of the figure were judged by: of its reasons, its parts and its files.</summary>
    private static List<double> LimitsOf(JsonNode figure) =>
    [
        .. ReasonsOf(figure),
        .. figure["parts"]!.AsArray().SelectMany(p => Limits(p!["findings"])),
        .. figure["parts"]!.AsArray().SelectMany(p => p!["variants"]!.AsArray()).SelectMany(v => v!["verdicts"]!.AsArray())
            .Where(v => (string?)v!["process"] == "VPP-rigid").SelectMany(v => Limits(v!["findings"])),
    ];

    private static List<double> ReasonsOf(JsonNode figure)
    {
        List<double> limits = [.. Limits(figure["reasons"])];
        Assert.Equal(Parts.Count, limits.Count);
        return limits;
    }

    private static IEnumerable<double> Limits(JsonNode? findings) =>
        findings!.AsArray().Where(f => (string?)f!["code"] == "wall.thin-free").Select(f => (double)f!["limit"]!);

    private static double OneLimit(List<double> limits) => Assert.Single(limits.Distinct());
}

public sealed class LimitSwitchOnSqliteTests(ServingSqliteCatalogue catalogue) : LimitSwitchTests(catalogue), IClassFixture<ServingSqliteCatalogue>;

public sealed class LimitSwitchOnPostgreSqlTests(ServingPostgreSqlCatalogue catalogue) : LimitSwitchTests(catalogue), IClassFixture<ServingPostgreSqlCatalogue>;
