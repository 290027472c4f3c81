using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Storage;

/// <summary>Which database, and how its context is opened. The only place that names providers.</summary>
public sealed record DatabaseChoice(bool IsPostgreSql, string ConnectionString)
{
    public const string MigrationsAssembly = "Catalogue.Migrations";

    /// <summary>SQLite in one file, opened so that writers wait for each other instead of failing.</summary>
    public static DatabaseChoice Sqlite(string file) => new(false, new SqliteConnectionStringBuilder
    {
        DataSource = file,
        ForeignKeys = true,
        DefaultTimeout = 30,
        Pooling = true,
    }.ToString());

    public static DatabaseChoice PostgreSql(string connectionString) => new(true, connectionString);

    public CatalogueDb Open() => IsPostgreSql
        ? new PostgreSqlCatalogueDb((DbContextOptions<PostgreSqlCatalogueDb>)Configure(new DbContextOptionsBuilder<PostgreSqlCatalogueDb>()).Options)
        : new SqliteCatalogueDb((DbContextOptions<SqliteCatalogueDb>)Configure(new DbContextOptionsBuilder<SqliteCatalogueDb>()).Options);

    public DbContextOptionsBuilder Configure(DbContextOptionsBuilder options)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (IsPostgreSql) options.UseNpgsql(ConnectionString, o => o.MigrationsAssembly(MigrationsAssembly));
        else options.UseSqlite(ConnectionString, o => o.MigrationsAssembly(MigrationsAssembly));
        return options.UseSnakeCaseNamingConvention();
    }
}
