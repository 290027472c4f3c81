using System.Net.Http.Headers;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Web.Accounts;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;

namespace Catalogue.Web.Tests;

/// <summary>
/// The whole program, from its entry point, on a port of its own and a throw-away folder and database. Tests of one class share it: they
/// use addresses of their own (<see cref="NewSlug"/>) and do not expect the catalogue to be empty.
/// </summary>
public abstract class CatalogueFixture : WebApplicationFactory<Program>, IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-test-").FullName;
    private string? _token;

    protected CatalogueFixture() => UseKestrel(0);

    /// <summary>Why this database cannot be tested on here; null when it can.</summary>
    public abstract string? SkipReason { get; }

    public string DataFolder => _folder;
    public string BlobFolder => Path.Combine(_folder, "blobs");

    /// <summary>A figure's address that no other test uses.</summary>
    public static string NewSlug(string name) => $"{name}-{Guid.NewGuid():N}"[..Math.Min(60, name.Length + 13)].TrimEnd('-');

    public virtual ValueTask InitializeAsync()
    {
        if (SkipReason is null) StartServer();
        return ValueTask.CompletedTask;
    }

    public override async ValueTask DisposeAsync()
    {
        if (SkipReason is null) await base.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>A visitor.</summary>
    public HttpClient Visitor() => CreateClient(new() { BaseAddress = ClientOptions.BaseAddress });

    /// <summary>A program that looks at every answer itself: no cookies kept, no redirects followed.</summary>
    public HttpClient Stranger() => new(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = ClientOptions.BaseAddress };

    /// <summary>A designer at the API, with a token.</summary>
    public async Task<HttpClient> DesignerAsync()
    {
        _token ??= await TokenAsync("designer");
        var client = Visitor();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", _token);
        return client;
    }

    /// <summary>A designer in a browser, signed in.</summary>
    public async Task<Browser> SignedInAsync(bool host = false)
    {
        var (name, password) = ("user-" + Guid.NewGuid().ToString("N")[..10], Guid.NewGuid().ToString("N"));
        await AccountAsync(name, password, host);
        var browser = new Browser(Visitor());
        await browser.GoAsync("/sign-in");
        await browser.SubmitAsync("/sign-in", ("Form.Name", name), ("Form.Password", password));
        Assert.Equal("/drafts", browser.Path);
        return browser;
    }

    /// <summary>Makes an account, past the pages.</summary>
    public async Task<Account> AccountAsync(string name, string password, bool host = false)
    {
        await using var scope = Services.CreateAsyncScope();
        var accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        var account = new Account { UserName = name, DisplayName = name, IsHost = host };
        var made = await accounts.CreateAsync(account, password);
        Assert.True(made.Succeeded, string.Join(" ", made.Errors.Select(e => e.Description)));
        return account;
    }

    /// <summary>A token of a new account.</summary>
    public async Task<string> TokenAsync(string name, bool host = false)
    {
        var account = await AccountAsync($"{name}-{Guid.NewGuid():N}", Guid.NewGuid().ToString("N"), host);
        await using var scope = Services.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<AccessTokens>().CreateAsync(account.Id, "test", CancellationToken.None);
    }

    /// <summary>Runs against the catalogue's own database.</summary>
    public async Task<T> WithDbAsync<T>(Func<CatalogueDb, Task<T>> use)
    {
        ArgumentNullException.ThrowIfNull(use);
        await using var scope = Services.CreateAsyncScope();
        return await use(scope.ServiceProvider.GetRequiredService<CatalogueDb>());
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseSetting("Catalogue:DataFolder", _folder);
        builder.UseSetting("Logging:LogLevel:Default", "Warning");
        builder.UseSetting("Catalogue:SignInsPerMinute", "10000");
        builder.UseSetting("Catalogue:InspectionsPerMinute", "10000");
        builder.UseSetting("Catalogue:ReportsPerMinute", "10000"); // Every test comes from one address.
        foreach (var (key, value) in Settings()) builder.UseSetting(key, value);
        builder.ConfigureTestServices(Replace);
    }

    /// <summary>Settings of the database, and of special catalogues.</summary>
    protected virtual IEnumerable<(string Key, string Value)> Settings() => [];

    /// <summary>Services that a special catalogue has replaced.</summary>
    protected virtual void Replace(IServiceCollection services)
    {
    }
}

/// <summary>The catalogue on SQLite.</summary>
public class SqliteCatalogue : CatalogueFixture
{
    public override string? SkipReason => null;
}

/// <summary>The catalogue on PostgreSQL, in a new database of the server that the environment names.</summary>
public class PostgreSqlCatalogue : CatalogueFixture
{
    private const string Variable = "CATALOGUE_TEST_POSTGRES";
    private static readonly string? DatabaseServer = Environment.GetEnvironmentVariable(Variable);
    private readonly string _database = $"catalogue_test_{Guid.NewGuid():N}";

    public override string? SkipReason => string.IsNullOrEmpty(DatabaseServer) ? $"{Variable} names no PostgreSQL server; tests/run.sh starts one." : null;

    public override async ValueTask InitializeAsync()
    {
        if (SkipReason is null) await CommandAsync($"CREATE DATABASE {_database}");
        await base.InitializeAsync();
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        NpgsqlConnection.ClearAllPools();
        if (SkipReason is null) await CommandAsync($"DROP DATABASE IF EXISTS {_database} WITH (FORCE)");
        GC.SuppressFinalize(this);
    }

    protected override IEnumerable<(string Key, string Value)> Settings() =>
        [("Catalogue:PostgreSql", new NpgsqlConnectionStringBuilder(DatabaseServer) { Database = _database, MaxPoolSize = 20 }.ToString())];

    private static async Task CommandAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(DatabaseServer);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}
