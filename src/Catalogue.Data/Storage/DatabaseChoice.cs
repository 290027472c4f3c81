using System.Data;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

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

    /// <summary>A transaction for reading, whose every query sees the catalogue as it is at the first one.</summary>
    /// <remarks>On SQLite it takes no lock before the first query, and never that of writers; on PostgreSQL it is a repeatable read.</remarks>
    public async Task<IDbContextTransaction> BeginReadingAsync(CatalogueDb db, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        if (IsPostgreSql) return await db.Database.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation);
        await db.Database.OpenConnectionAsync(cancellation);
        var transaction = ((SqliteConnection)db.Database.GetDbConnection()).BeginTransaction(deferred: true);
        return (await db.Database.UseTransactionAsync(transaction, cancellation))!;
    }

    public DbContextOptionsBuilder Configure(DbContextOptionsBuilder options)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (IsPostgreSql) options.UseNpgsql(ConnectionString, o => o.MigrationsAssembly(MigrationsAssembly));
        else
        {
            // A list of many ids is one parameter: the question's words stay the same whatever its length, so it is translated and prepared once.
            options.UseSqlite(ConnectionString, o => o.MigrationsAssembly(MigrationsAssembly).UseParameterizedCollectionMode(ParameterTranslationMode.Parameter));
        }
        return options.UseSnakeCaseNamingConvention();
    }
}
