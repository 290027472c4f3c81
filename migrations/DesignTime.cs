using Catalogue.Data;
using Catalogue.Data.Storage;
using Microsoft.EntityFrameworkCore.Design;

namespace Catalogue.Migrations;

/// <summary>Lets <c>dotnet ef</c> build the SQLite model; the file named is never opened.</summary>
public sealed class SqliteDesignTime : IDesignTimeDbContextFactory<SqliteCatalogueDb>
{
    public SqliteCatalogueDb CreateDbContext(string[] args) => (SqliteCatalogueDb)DatabaseChoice.Sqlite("design-time.db").Open();
}

/// <summary>Lets <c>dotnet ef</c> build the PostgreSQL model; the server named is never called.</summary>
public sealed class PostgreSqlDesignTime : IDesignTimeDbContextFactory<PostgreSqlCatalogueDb>
{
    public PostgreSqlCatalogueDb CreateDbContext(string[] args) =>
        (PostgreSqlCatalogueDb)DatabaseChoice.PostgreSql("Host=127.0.0.1;Database=design-time").Open();
}
