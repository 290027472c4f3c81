using System.Diagnostics;
using System.Globalization;
using Catalogue.Data.Judging;
using Catalogue.Data.Ranges;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;
using Catalogue.Web;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Benchmarks.Ranges;

/// <summary>
/// How the search over the range grows with its figures, on both databases: <c>-- range [numbers of figures] [PostgreSQL connection string]</c>. Each range is made anew;
/// on PostgreSQL in a database <c>catalogue_range_N</c>, which is dropped afterwards.
/// </summary>
internal static class RangeGrowth
{
    private const int Seed = 5;
    private const int Questions = 40;
    private const int WarmUp = 10;
    private const string Words = "harbour";
    private const string Misspelt = "hrabuor lanetnr satchle";

    public static async Task RunAsync(string[] words)
    {
        var postgres = Array.Find(words, w => w.Contains('=', StringComparison.Ordinal));
        var sizes = words.Select(w => int.TryParse(w, CultureInfo.InvariantCulture, out var n) ? n : 0).Where(n => n > 0).DefaultIfEmpty(0).ToArray();
        foreach (var size in sizes is [0] ? [100, 1_000, 10_000] : sizes)
        {
            await using (var database = await RangeDatabase.SqliteAsync(size)) await MeasureAsync(database, size);
            if (postgres is null) continue;
            await using (var database = await RangeDatabase.PostgreSqlAsync(postgres, size)) await MeasureAsync(database, size);
        }
    }

    private static async Task MeasureAsync(RangeDatabase database, int size)
    {
        var kind = database.Choice.IsPostgreSql ? "PostgreSQL" : "SQLite";
        Say($"## {size:N0} figures, {size * SyntheticRange.PartsPerFigure:N0} parts, {kind}");
        var start = Stopwatch.GetTimestamp();
        await SyntheticRange.FillAsync(database.Choice, size, Seed);
        Say($"filled in {Stopwatch.GetElapsedTime(start).TotalSeconds:N0} s");

        await InProcessAsync(database.Choice);
        await OverHttpAsync(database);
        await ChangeLimitAsync(database.Choice, "wall-supported", 1.1);
        await ChangeLimitAsync(database.Choice, "clearance", 0.35);
        await ChangeRulesAsync(database.Choice);
    }

    private static async Task InProcessAsync(DatabaseChoice choice)
    {
        var before = Held();
        var index = new RangeIndex(choice, TimeProvider.System);
        var start = Stopwatch.GetTimestamp();
        var snapshot = await index.CurrentAsync(CancellationToken.None);
        Say($"index read in {Stopwatch.GetElapsedTime(start).TotalSeconds:0.00} s, {(Held() - before) / 1e6:N0} MB held");
        var search = new RangeSearch(index, new FitAnswers(choice), choice);
        await search.FindAsync(Question(new Random(1), 1, null), CancellationToken.None);

        var open = 0.0;
        await TimeAsync("never-seen volume and a process, first page", async (random, i) => open += (await search.FindAsync(Question(random, 1, null), CancellationToken.None)).Open);
        Say($"    on average {open / (Questions + WarmUp):0.0} of the figures left open");
        await TimeAsync("the same, verdicts alone: counts and a page of one", (random, i) => search.FindAsync(Question(random, 1, null) with { Size = 1 }, CancellationToken.None));
        await TimeAsync("the words alone: one of two fifths of the figures", (random, i) => Task.FromResult(WordSearch.Over(snapshot.Figures, snapshot.Vocabulary, Words)));
        await TimeAsync("the words alone: three with two wrong letters each", (random, i) => Task.FromResult(WordSearch.Over(snapshot.Figures, snapshot.Vocabulary, Misspelt)));
        await TimeAsync("the shelf without words or printer", (random, i) => search.FindAsync(new(), CancellationToken.None));
        await TimeAsync("a word of two fifths of the figures, no printer", (random, i) => search.FindAsync(new() { Words = Words, Order = RangeOrder.Match }, CancellationToken.None));
        await TimeAsync("three words with two wrong letters each, no printer", (random, i) => search.FindAsync(new() { Words = Misspelt, Order = RangeOrder.Match }, CancellationToken.None));
        await TimeAsync("a word that nothing is like, no printer", (random, i) => search.FindAsync(new() { Words = "xylophonist", Order = RangeOrder.Match }, CancellationToken.None));
        await TimeAsync("never-seen volume, a process and a word, page 2", (random, i) => search.FindAsync(Question(random, 2, Words), CancellationToken.None));
        await TimeAsync("never-seen volume, a process, two tags and times under 16 h", (random, i) => search.FindAsync(
            Question(random, 1, null) with { Tags = ["pier", "market"], Times = [new(0, 4), new(4, 16)] }, CancellationToken.None));
        await TimeAsync("never-seen volume and layer height, a process, verdicts alone", (random, i) =>
        {
            var question = Question(random, 1, null);
            return search.FindAsync(question with { Size = 1, Printer = question.Printer with { Pace = new(0.02 + (0.0001 * random.Next(500)), null, null) } }, CancellationToken.None);
        });
        await TimeAsync("never-seen volume, only what suits, first page", (random, i) => search.FindAsync(Question(random, 1, null) with { Verdicts = new HashSet<Verdict> { Verdict.Suits } }, CancellationToken.None));
        await TimeAsync("never-seen volume alone, best process each", (random, i) => search.FindAsync(Question(random, 1, null) with { Printer = new(null, Volume(random)) }, CancellationToken.None));
        await TimeAsync("mixed builds of a page with a second printer", async (random, i) =>
        {
            var page = await search.FindAsync(Question(random, 1, null) with { Order = RangeOrder.Title }, CancellationToken.None);
            var unsuited = page.Items.Where(f => f.Verdict!.Verdict == Verdict.Unsuited).Select(f => f.Figure).ToList();
            await search.MixedAsync(snapshot, unsuited, [new("VPP-rigid", Volume(random)), new("MEX-rigid", BuildVolume.Rectangular(220, 220, 250))], CancellationToken.None);
        });
        await TimeAsync("matrix, one page of 200", (random, i) => search.MatrixAsync(new() { Volume = Volume(random), Promised = ["MEX-rigid", "VPP-rigid"], Size = 200 }, CancellationToken.None), 8);
        await TimeAsync("refresh after one figure changed", async (random, i) =>
        {
            index.Forget();
            await index.CurrentAsync(CancellationToken.None);
        }, before: async i =>
        {
            await using var db = choice.Open();
            var figure = snapshot.Figures[i % snapshot.Figures.Count].Id;
            await db.Figures.Where(f => f.Id == figure).ExecuteUpdateAsync(set => set.SetProperty(f => f.Version, f => f.Version + 1), CancellationToken.None);
            await db.CountRangeUpAsync(limits: false, CancellationToken.None);
        });
    }

    private static async Task OverHttpAsync(RangeDatabase database)
    {
        string[] settings = ["--urls", "http://127.0.0.1:0", "--Catalogue:ServeOnly=true", "--Logging:LogLevel:Default=Warning", .. database.Settings];
        var start = Stopwatch.GetTimestamp();
        await using var app = CatalogueApp.Build(settings);
        await app.StartAsync();
        using var client = new HttpClient { BaseAddress = new(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()) };
        await client.GetStringAsync(new Uri("/healthz", UriKind.Relative));
        var alive = Stopwatch.GetElapsedTime(start);
        await client.GetStringAsync(new Uri("/api/figures", UriKind.Relative));
        Say($"start: alive after {alive.TotalSeconds:0.00} s, first answer of the range after {Stopwatch.GetElapsedTime(start).TotalSeconds:0.00} s");
        Task Get(string path) => client.GetStringAsync(new Uri(path, UriKind.Relative));
        string Room(Random random) => Volume(random).ToString();
        await Get("/?process=VPP-rigid&volume=64x114x152");
        await Get("/matrix");
        await TimeAsync("HTTP: JSON, never-seen volume, process, word, page 2", (random, i) => Get($"/api/figures?process=VPP-rigid&volume={Room(random)}&q={Words}&page=2&sort=verdict"));
        await TimeAsync("HTTP: JSON, never-seen volume, process, first page", (random, i) => Get($"/api/figures?process=VPP-rigid&volume={Room(random)}&sort=verdict"));
        await TimeAsync("HTTP: JSON, never-seen volume, process, a page of one", (random, i) => Get($"/api/figures?process=VPP-rigid&volume={Room(random)}&sort=verdict&size=1"));
        await TimeAsync("HTTP: page of the range, never-seen volume, process, word", (random, i) => Get($"/?process=VPP-rigid&volume={Room(random)}&q={Words}"));
        await TimeAsync("HTTP: page of the matrix, 200 rows", (random, i) => Get($"/matrix?volume={Room(random)}"), 8);
        await app.StopAsync();
    }

    /// <summary>From asking for another value until the limit is in effect with all its verdicts.</summary>
    private static async Task ChangeLimitAsync(DatabaseChoice choice, string key, double value)
    {
        await using (var db = choice.Open())
        {
            var process = await db.Processes.Include(p => p.Limits).SingleAsync(p => p.Code == "VPP-rigid");
            process.Limit(key)!.AskFor(value, "benchmark");
            await db.SaveChangesAsync();
            await db.Rejudgements.ExecuteUpdateAsync(set => set.SetProperty(r => r.Asked, r => r.Asked + 1));
        }

        var index = new RangeIndex(choice, TimeProvider.System);
        await index.CurrentAsync(CancellationToken.None);
        var start = Stopwatch.GetTimestamp();
        var judged = await new Rejudger(choice, TimeProvider.System).RunAsync(CancellationToken.None);
        var took = Stopwatch.GetElapsedTime(start);
        await using var read = choice.Open();
        var changed = await read.Verdicts.CountAsync(v => v.JudgedAt > SyntheticRange.Day.AddMonths(6) && v.Process == "VPP-rigid");
        start = Stopwatch.GetTimestamp();
        index.Forget();
        await Task.Delay(RangeIndex.Patience);
        while ((await index.CurrentAsync(CancellationToken.None)).JudgementRevision != (await read.Ranges.AsNoTracking().SingleAsync()).JudgementRevision) await Task.Delay(50);
        Say($"limit {key} changed: {judged:N0} revisions judged and in effect after {took.TotalSeconds:0.00} s, {changed:N0} verdicts written by now; index follows in {Stopwatch.GetElapsedTime(start).TotalSeconds:0.00} s");
    }

    /// <summary>From the start of a program with other rules until every verdict is by them; half of them had been something else.</summary>
    private static async Task ChangeRulesAsync(DatabaseChoice choice)
    {
        await using (var db = choice.Open())
        {
            await db.Verdicts.Where(v => v.Process == "MEX-rigid" || v.Process == "VPP-rigid" || v.Process == "PBF-rigid").ExecuteUpdateAsync(set => set.SetProperty(v => v.FindingsJson, "[]"));
            await db.Rejudgements.ExecuteUpdateAsync(set => set.SetProperty(r => r.Rules, 0));
            await RulesChange.AskAsync(db, CancellationToken.None);
        }

        var start = Stopwatch.GetTimestamp();
        var judged = await new Rejudger(choice, TimeProvider.System).RunAsync(CancellationToken.None);
        Say($"rules changed: {judged:N0} revisions judged from all measurements and in effect after {Stopwatch.GetElapsedTime(start).TotalSeconds:0.00} s");
    }

    private static async Task TimeAsync(string what, Func<Random, int, Task> ask, int times = Questions, Func<int, Task>? before = null)
    {
        // The same questions on every database and size; no volume comes twice. The first ones find code that was never run: they are another thing to know than what a visitor waits for.
        var random = new Random(what.Length);
        var cold = Stopwatch.GetTimestamp();
        for (var i = 0; i < WarmUp; i++)
        {
            if (before is not null) await before(i);
            await ask(random, i);
        }

        var warmedUp = Stopwatch.GetElapsedTime(cold).TotalMilliseconds / WarmUp;
        var taken = new List<double>(times);
        for (var i = 0; i < times; i++)
        {
            if (before is not null) await before(i);
            var start = Stopwatch.GetTimestamp();
            await ask(random, i);
            taken.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        taken.Sort();
        Say($"{what}: median {taken[times / 2]:0.0} ms, 95 % {taken[(int)(times * 0.95)]:0.0} ms, least {taken[0]:0.0} ms (the first {WarmUp}, cold: {warmedUp:0.0} ms on average)");
    }

    private static RangeQuery Question(Random random, int page, string? words) =>
        new() { Printer = new Printer("VPP-rigid", Volume(random)), Words = words, Order = RangeOrder.Verdict, Page = page };

    private static BuildVolume Volume(Random random) => random.Next(5) == 0
        ? BuildVolume.Round(Math.Round(90 + (120 * random.NextDouble()), 2), Math.Round(80 + (120 * random.NextDouble()), 2))
        : BuildVolume.Rectangular(Math.Round(50 + (100 * random.NextDouble()), 2), Math.Round(50 + (100 * random.NextDouble()), 2), Math.Round(60 + (140 * random.NextDouble()), 2));

    private static long Held()
    {
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        GC.WaitForPendingFinalizers();
        return GC.GetTotalMemory(forceFullCollection: true);
    }

    private static void Say(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
}
