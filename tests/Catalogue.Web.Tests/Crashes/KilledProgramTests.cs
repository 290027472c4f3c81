using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Text.Json.Nodes;
using Catalogue.Data.Accounts;
using Catalogue.Data.Storage;
using Catalogue.Web.Accounts;
using Npgsql;

namespace Catalogue.Web.Tests.Crashes;

/// <summary>
/// The program is killed at random moments while a designer uploads and publishes over and over. Whenever it runs, a reader sees one
/// complete edition; and every upload that was acknowledged is there to the byte. The variable CATALOGUE_TEST_KILLS asks for more kills than
/// the usual few: 15 of them, in 50 publishes, take minutes.
/// </summary>
public abstract class KilledProgramTests
{
    private static readonly int Kills = int.TryParse(Environment.GetEnvironmentVariable("CATALOGUE_TEST_KILLS"), out var asked) ? asked : 2;
    private static readonly int Publishes = Kills * 10 / 3;
    private static readonly string[] Parts = ["left", "right"];

    private readonly Dictionary<string, byte[]> _acknowledged = [];
    private readonly Random _random = new(20261125);
    private int _kills;

    protected async Task RunAsync(DatabaseChoice database, params string[] settings)
    {
        var token = await PrepareAsync(database);
        await using var program = new KillableProgram(settings);
        using var client = new HttpClient { BaseAddress = program.Address, Timeout = TimeSpan.FromSeconds(20) };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        await program.StartAsync();
        await MakeFigureAsync(client);
        for (var number = 1; number <= Publishes; number++)
        {
            var killer = _kills < Kills ? KillSoonAsync(program, client) : Task.CompletedTask;
            foreach (var part in Parts) await UploadAsync(client, part, number);
            await PublishAsync(client);
            await killer;
            await ShownAsync(client, number);
        }

        foreach (var (path, bytes) in _acknowledged) Assert.Equal(bytes, await client.GetByteArrayAsync(new Uri(path, UriKind.Relative)));

        Assert.Equal(Kills, _kills);
        Assert.Equal(Publishes * Parts.Length, _acknowledged.Count);
    }

    private static async Task<string> PrepareAsync(DatabaseChoice database)
    {
        await Schema.ApplyAsync(database, CancellationToken.None);
        await using var db = database.Open();
        var account = db.Users.Add(new Account { UserName = "designer", NormalizedUserName = "DESIGNER" }).Entity;
        await db.SaveChangesAsync();
        return await new AccessTokens(db, TimeProvider.System).CreateAsync(account.Id, "crash", CancellationToken.None);
    }

    private static async Task MakeFigureAsync(HttpClient client)
    {
        await client.PostAsync("/api/figures", new { slug = "gull", title = "Gull", heightMm = 120, licence = "CC-BY-4.0" }, HttpStatusCode.Created);
        foreach (var part in Parts)
        {
            await client.PostAsync("/api/figures/gull/parts", new { slug = part, name = part }, HttpStatusCode.Created);
            await client.PostAsync($"/api/figures/gull/parts/{part}/variants", new { slug = "solid", name = "Solid", processes = new[] { "MEX-rigid" } }, HttpStatusCode.Created);
        }
    }

    private async Task KillSoonAsync(KillableProgram program, HttpClient client)
    {
        await Task.Delay(_random.Next(5, 350));
        await program.KillAsync();
        _kills++;
        await program.StartAsync();
        await CheckReaderAsync(client);
    }

    /// <summary>Uploads until it is acknowledged; what was acknowledged must be downloadable for ever after.</summary>
    private async Task UploadAsync(HttpClient client, string part, int number)
    {
        var bytes = Api.BoxStl(10 + number, part.Length, 20);
        var revision = await UntilAsync(async () =>
        {
            using var form = Api.Form(bytes, $"{part}.stl", ("note", $"{number}"));
            using var response = await client.PostAsync(Api.Revisions("gull", part), form);
            return await response.ExpectAsync(HttpStatusCode.Accepted);
        });
        _acknowledged.Add($"/figures/gull/parts/{part}/solid/{(int)revision["number"]!}/gull-{part}-solid-r{(int)revision["number"]!}.stl", bytes);
    }

    /// <summary>Publishes until it is acknowledged, or refused because the publish before a crash had gone through.</summary>
    private static async Task PublishAsync(HttpClient client) => await UntilAsync(async () =>
    {
        while (true)
        {
            using var response = await client.SendJsonAsync("/api/figures/gull/publish", new { note = "again" });
            var body = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
            if (response.IsSuccessStatusCode || (string?)body["type"] == "urn:x-catalogue:problem:nothing-new") return body;
            Assert.True((string?)body["type"] is "urn:x-catalogue:problem:inspection-pending", body.ToJsonString());
            await Task.Delay(30);
        }
    });

    private static async Task<T> UntilAsync<T>(Func<Task<T>> attempt)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(2));
        while (true)
        {
            try
            {
                return await attempt();
            }
            catch (Exception broken) when (broken is HttpRequestException or TaskCanceledException or IOException)
            {
                await Task.Delay(100, patience.Token);
            }
        }
    }

    /// <summary>A publish that was acknowledged is shown: in the next answer, or where a machine is so busy that reading it takes long, soon after.</summary>
    private static async Task ShownAsync(HttpClient client, int number)
    {
        for (var waited = Stopwatch.StartNew(); ; await Task.Delay(100))
        {
            var shown = await CheckReaderAsync(client);
            if (shown >= number) return;
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(15), $"Publish {number} was acknowledged and edition {shown} is shown.");
        }
    }

    /// <summary>What a reader sees: nothing yet, or both parts of the same publish, each with its file. Answers which.</summary>
    private static async Task<int> CheckReaderAsync(HttpClient client)
    {
        var figure = await UntilAsync(async () =>
        {
            using var response = await client.GetAsync(new Uri("/api/figures/gull", UriKind.Relative));
            return response.StatusCode == HttpStatusCode.NotFound ? null : await response.ExpectAsync(HttpStatusCode.OK);
        });
        if (figure is null) return 0;
        var shown = figure["parts"]!.AsArray().Select(p => p!["variants"]![0]!["revision"]!).ToList();
        Assert.Equal(Parts.Length, shown.Count);
        var publishes = shown.Select(r => (string?)r["note"]).Distinct().ToList();
        Assert.True(publishes.Count == 1, "A half-published figure: " + figure.ToJsonString());
        return int.Parse(publishes[0]!, System.Globalization.CultureInfo.InvariantCulture);
    }
}

public sealed class KilledProgramOnSqliteTests : KilledProgramTests
{
    [Fact]
    public async Task Killing_it_while_it_publishes_shows_no_half_and_loses_nothing_acknowledged()
    {
        var folder = Directory.CreateTempSubdirectory("catalogue-crash-").FullName;
        try
        {
            await RunAsync(DatabaseChoice.Sqlite(Path.Combine(folder, "catalogue.db")), $"--Catalogue:DataFolder={folder}");
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }
}

public sealed class KilledProgramOnPostgreSqlTests : KilledProgramTests
{
    [Fact]
    public async Task Killing_it_while_it_publishes_shows_no_half_and_loses_nothing_acknowledged()
    {
        var server = Environment.GetEnvironmentVariable("CATALOGUE_TEST_POSTGRES");
        Assert.SkipWhen(string.IsNullOrEmpty(server), "CATALOGUE_TEST_POSTGRES names no PostgreSQL server; tests/run.sh starts one.");
        var folder = Directory.CreateTempSubdirectory("catalogue-crash-").FullName;
        var name = $"catalogue_crash_{Guid.NewGuid():N}";
        await CommandAsync(server!, $"CREATE DATABASE {name}");
        try
        {
            var database = new NpgsqlConnectionStringBuilder(server) { Database = name, MaxPoolSize = 20 }.ToString();
            await RunAsync(DatabaseChoice.PostgreSql(database), $"--Catalogue:DataFolder={folder}", $"--Catalogue:PostgreSql={database}");
        }
        finally
        {
            NpgsqlConnection.ClearAllPools();
            await CommandAsync(server!, $"DROP DATABASE IF EXISTS {name} WITH (FORCE)");
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task CommandAsync(string server, string sql)
    {
        await using var connection = new NpgsqlConnection(server);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}
