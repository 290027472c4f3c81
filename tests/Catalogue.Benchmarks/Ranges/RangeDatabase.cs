using Catalogue.Data.Storage;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Catalogue.Benchmarks.Ranges;

/// <summary>A throw-away database for a synthetic range.</summary>
internal sealed class RangeDatabase : IAsyncDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-range-").FullName;
    private readonly string? _server;
    private readonly string? _name;

    private RangeDatabase(string? server, string? name)
    {
        (_server, _name) = (server, name);
        Choice = server is null
            ? DatabaseChoice.Sqlite(Path.Combine(_folder, "catalogue.db"))
            : DatabaseChoice.PostgreSql(new NpgsqlConnectionStringBuilder(server) { Database = name, CommandTimeout = 300 }.ToString());
    }

    public DatabaseChoice Choice { get; }

    /// <summary>Words of the command line that make the program use it.</summary>
    public string[] Settings => _server is null
        ? [$"--Catalogue:DataFolder={_folder}"]
        : [$"--Catalogue:DataFolder={_folder}", $"--Catalogue:PostgreSql={Choice.ConnectionString}"];

    public static Task<RangeDatabase> SqliteAsync(int figures) => Task.FromResult(new RangeDatabase(null, $"range_{figures}"));

    public static async Task<RangeDatabase> PostgreSqlAsync(string server, int figures)
    {
        var name = $"catalogue_range_{figures}";
        await CommandAsync(server, $"DROP DATABASE IF EXISTS {name} WITH (FORCE)");
        await CommandAsync(server, $"CREATE DATABASE {name}");
        return new(server, name);
    }

    public async ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        NpgsqlConnection.ClearAllPools();
        if (_server is not null) await CommandAsync(_server, $"DROP DATABASE IF EXISTS {_name} WITH (FORCE)");
        Directory.Delete(_folder, recursive: true);
    }

    private static async Task CommandAsync(string server, string sql)
    {
        await using var connection = new NpgsqlConnection(server);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}
