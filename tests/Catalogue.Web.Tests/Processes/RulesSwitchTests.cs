using System.Net;
using Catalogue.Data;
using Catalogue.Data.Judging;
using Catalogue.Data.Storage;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Processes;

/// <summary>Another version of the program judges by other rules: at its start every kept verdict is judged again, once, and a figure is seen by the rules before or by those after.</summary>
public abstract class RulesSwitchTests(CatalogueFixture catalogue) : PlateTests(catalogue)
{
    private const string Before = "test.before";

    [Fact]
    public async Task Several_instances_with_other_rules_start_at_once_and_everything_is_judged_again_once()
    {
        var figure = await PlatesAsync("many-starts");
        var (expected, was) = (await KeptAsync(figure), await StateAsync());
        await EarlierProgramAsync(figure);
        Assert.All(await KeptAsync(figure), v => Assert.Contains(Before, v.Findings, StringComparison.Ordinal));

        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => Schema.ApplyAsync(Database, CancellationToken.None))));
        var asked = await StateAsync();
        Assert.Equal((was.Asked + 1, true, Rules.Version), (asked.Asked, asked.RulesChanging, asked.Rules));
        using var browser = new Browser(Catalogue.Visitor());
        await browser.GoAsync("/processes");
        Assert.Contains("The program has other rules than before", browser.Text, StringComparison.Ordinal);

        // Every step is done by somebody new, as after a crash; until the last one nothing is seen of it.
        for (var judged = 0; await Step() is > 0;)
        {
            Assert.All(await KeptAsync(figure), v => Assert.Contains(Before, v.Findings, StringComparison.Ordinal));
            var state = await StateAsync();
            Assert.True(state.IsGoingOn && state.Judged > judged, "It began again instead of going on.");
            judged = state.Judged;
        }

        Assert.Equal(expected, await KeptAsync(figure));
        Assert.Equal(0, await Catalogue.WithDbAsync(db => db.NextVerdicts.CountAsync()));
        await Schema.ApplyAsync(Database, CancellationToken.None);
        Assert.False((await StateAsync()).IsGoingOn);
        Assert.Null(await Step());

        Task<int?> Step() => new Rejudger(Database, TimeProvider.System) { Batch = 2 }.StepAsync(CancellationToken.None);
    }

    [Fact]
    public async Task A_reader_sees_each_figure_by_the_rules_before_or_by_those_after()
    {
        var figure = await PlatesAsync("never-both");
        await EarlierProgramAsync(figure);
        await Schema.ApplyAsync(Database, CancellationToken.None);
        using var stop = new CancellationTokenSource();
        var (before, after) = (0, 0);
        var reader = Task.Run(async () =>
        {
            using var visitor = Catalogue.Visitor();
            while (!stop.IsCancellationRequested)
            {
                var seen = (await visitor.GetJsonAsync($"/api/figures/{figure}?process=VPP-rigid"))["reasons"]!.AsArray().Select(r => (string?)r!["code"] == Before).ToList();
                Assert.Equal(Parts.Count, seen.Count);
                if (Assert.Single(seen.Distinct())) before++;
                else after++;
            }
        });
        while (Volatile.Read(ref before) == 0 && !reader.IsCompleted) await Task.Delay(20);
        await new Rejudger(Database, TimeProvider.System) { Batch = 1 }.RunAsync(CancellationToken.None);
        for (var tries = 0; Volatile.Read(ref after) == 0 && !reader.IsCompleted && tries < 3_000; tries++) await Task.Delay(20);
        await stop.CancelAsync();
        await reader;
        Assert.True(before > 0 && after > 0, $"Seen {before} times before and {after} times after.");
    }

    [Fact]
    public async Task What_is_judged_meanwhile_takes_its_whole_figure_along()
    {
        var (uploaded, reported, overruled, other) = (await PlatesAsync("uploaded-to"), await PlatesAsync("reported-on"), await PlatesAsync("overruled"), await PlatesAsync("left-alone"));
        using var designer = await Catalogue.DesignerAsync();
        await EarlierProgramAsync(uploaded, reported, other);
        await Schema.ApplyAsync(Database, CancellationToken.None);

        using (var form = Api.Form(Api.BoxStl(31, 47, 2)))
        {
            using var answer = await designer.PostAsync(Api.Revisions(uploaded, "left", "all"), form);
            await answer.ExpectAsync(HttpStatusCode.Accepted);
        }

        await InspectAsync();
        await designer.PostAsync("/api/reports", new { figure = reported, part = "left", process = "VPP-rigid", outcome = "failed", symptom = "snapped", stage = "use" }, HttpStatusCode.Created);
        await designer.SendAsync(HttpMethod.Put, $"{Api.Revisions(overruled)}/1/overrulings/VPP-rigid/wall.thin-free", new { reason = "Held in place by its neighbours." }, HttpStatusCode.OK);
        foreach (var figure in new[] { uploaded, reported }) Assert.All(await KeptAsync(figure), v => Assert.DoesNotContain(Before, v.Findings, StringComparison.Ordinal));
        Assert.All(await KeptAsync(other), v => Assert.Contains(Before, v.Findings, StringComparison.Ordinal));

        // What others say of it is weighed with the new rules too.
        var (report, word) = (await KeptAsync(reported), await KeptAsync(overruled));
        Assert.Contains(report, v => v.Findings.Contains("reports.failed", StringComparison.Ordinal));
        Assert.Contains(word, v => v.Findings.Contains("Held in place", StringComparison.Ordinal));
        await new Rejudger(Database, TimeProvider.System) { Batch = 2 }.RunAsync(CancellationToken.None);
        Assert.Equal(report, await KeptAsync(reported));
        Assert.Equal(word, await KeptAsync(overruled));
        Assert.All(await KeptAsync(other), v => Assert.DoesNotContain(Before, v.Findings, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_earlier_programs_kept_is_not_read_so_it_may_have_another_shape()
    {
        var figure = await PlatesAsync("other-shape");
        var expected = await KeptAsync(figure);
        await Catalogue.WithDbAsync(db => Of(db, figure).ExecuteUpdateAsync(set => set.SetProperty(v => v.FindingsJson, "{\"was\":\"not a list\"}")));
        await EarlierProgramAsync();
        await Schema.ApplyAsync(Database, CancellationToken.None);
        await new Rejudger(Database, TimeProvider.System).RunAsync(CancellationToken.None);
        Assert.Equal(expected, await KeptAsync(figure));
    }

    [Fact]
    public async Task A_file_that_cannot_be_read_keeps_what_was_wrong_with_it()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("unreadable");
        await designer.UploadAsync(figure, "solid nothing of the kind"u8.ToArray());
        await InspectAsync();
        var expected = await KeptAsync(figure);
        Assert.All(expected, v => Assert.Contains("mesh.rejected", v.Findings, StringComparison.Ordinal));
        await EarlierProgramAsync(figure);
        await Schema.ApplyAsync(Database, CancellationToken.None);
        await new Rejudger(Database, TimeProvider.System).RunAsync(CancellationToken.None);
        Assert.Equal(expected, await KeptAsync(figure));
    }

    [Fact]
    public async Task An_earlier_program_that_still_runs_leaves_the_judging_to_the_later_one_and_asks_it_to_judge_what_it_judged_itself()
    {
        var figure = await PlatesAsync("still-running");
        await RulesAsync(Rules.Version + 1);
        var was = await StateAsync();
        using var visitor = Catalogue.Visitor();
        await visitor.PostAsync("/api/reports", new { figure, part = "left", process = "VPP-rigid", outcome = "failed", symptom = "snapped", stage = "use" }, HttpStatusCode.Created);
        await visitor.PostAsync("/api/reports", new { figure, part = "right", process = "VPP-rigid", outcome = "failed", symptom = "snapped", stage = "use" }, HttpStatusCode.Created);
        var state = await StateAsync();
        Assert.Equal((was.Asked + 1, true, Rules.Version + 1), (state.Asked, state.RulesChanging, state.Rules));
        Assert.Null(await new Rejudger(Database, TimeProvider.System).StepAsync(CancellationToken.None));

        // And when one goes back to it for good, it is its rules again that hold.
        await Schema.ApplyAsync(Database, CancellationToken.None);
        await new Rejudger(Database, TimeProvider.System).RunAsync(CancellationToken.None);
        state = await StateAsync();
        Assert.Equal((false, false, Rules.Version), (state.IsGoingOn, state.RulesChanging, state.Rules));
    }

    /// <summary>As an earlier program left the catalogue: its rules are older, and it found something else in these figures.</summary>
    private async Task EarlierProgramAsync(params string[] figures)
    {
        foreach (var figure in figures)
        {
            await Catalogue.WithDbAsync(async db =>
            {
                foreach (var verdict in await Of(db, figure).ToListAsync())
                    verdict.Replace(Judgement.From([new(Before, Severity.Stop, $"As it was put before.")]), DateTime.UtcNow.AddHours(-1));
                return await db.SaveChangesAsync();
            });
        }

        await RulesAsync(0);
    }

    private Task<int> RulesAsync(int version) => Catalogue.WithDbAsync(db => db.Rejudgements.ExecuteUpdateAsync(set => set.SetProperty(r => r.Rules, version)));

    private Task<Rejudgement> StateAsync() => Catalogue.WithDbAsync(db => db.Rejudgements.AsNoTracking().SingleAsync());

    private Task<List<(Guid Revision, string Process, Verdict Verdict, string Findings)>> KeptAsync(string figure) => Catalogue.WithDbAsync(async db =>
        (await Of(db, figure).AsNoTracking().OrderBy(v => v.RevisionId).ThenBy(v => v.Process).ToListAsync()).Select(v => (v.RevisionId, v.Process, v.Verdict, v.FindingsJson)).ToList());

    private static IQueryable<RevisionVerdict> Of(CatalogueDb db, string figure) =>
        db.Verdicts.Where(v => db.Revisions.Any(r => r.Id == v.RevisionId && db.Variants.Any(a => a.Id == r.VariantId && a.Part.Figure.Slug == figure)));
}

public sealed class RulesSwitchOnSqliteTests(ServingSqliteCatalogue catalogue) : RulesSwitchTests(catalogue), IClassFixture<ServingSqliteCatalogue>;

public sealed class RulesSwitchOnPostgreSqlTests(ServingPostgreSqlCatalogue catalogue) : RulesSwitchTests(catalogue), IClassFixture<ServingPostgreSqlCatalogue>;
