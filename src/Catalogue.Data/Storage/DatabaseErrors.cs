using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Catalogue.Data.Storage;

/// <summary>What a failed save was about, told alike for both databases.</summary>
public static class DatabaseErrors
{
    /// <summary>Somebody else took the slug, number or hash first.</summary>
    public static bool IsUniqueViolation(DbUpdateException exception) => exception?.InnerException switch
    {
        SqliteException sqlite => sqlite.SqliteExtendedErrorCode is 2067 or 1555, // SQLITE_CONSTRAINT_UNIQUE, _PRIMARYKEY
        PostgresException postgres => postgres.SqlState == PostgresErrorCodes.UniqueViolation,
        _ => false,
    };

    public static bool IsDiskFull(Exception exception) => exception switch
    {
        SqliteException sqlite => sqlite.SqliteErrorCode == 13, // SQLITE_FULL
        PostgresException postgres => postgres.SqlState == PostgresErrorCodes.DiskFull,
        DbUpdateException { InnerException: { } inner } => IsDiskFull(inner),
        _ => false,
    };
}
