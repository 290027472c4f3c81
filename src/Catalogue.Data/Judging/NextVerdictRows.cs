using System.Data.Common;
using Catalogue.Data.Storage;
using Catalogue.Model.Verdicts;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using NpgsqlTypes;

namespace Catalogue.Data.Judging;

/// <summary>One verdict to come.</summary>
internal readonly record struct NextVerdictRow(Guid Revision, string Process, Verdict Verdict, string FindingsJson);

/// <summary>Writes verdicts to come by the thousand: on SQLite by one prepared statement, on PostgreSQL by COPY. Within the transaction that the context has begun.</summary>
internal static class NextVerdictRows
{
    public static async Task AddAsync(CatalogueDb db, DatabaseChoice choice, IReadOnlyCollection<NextVerdictRow> rows, CancellationToken cancellation)
    {
        if (rows.Count == 0) return;
        if (choice.IsPostgreSql) await CopyAsync((NpgsqlConnection)db.Database.GetDbConnection(), rows, cancellation);
        else await InsertAsync((SqliteConnection)db.Database.GetDbConnection(), db.Database.CurrentTransaction?.GetDbTransaction(), rows, cancellation);
    }

    private static async Task CopyAsync(NpgsqlConnection connection, IReadOnlyCollection<NextVerdictRow> rows, CancellationToken cancellation)
    {
        await using var writer = await connection.BeginBinaryImportAsync(
            "COPY next_verdicts (revision_id, process, verdict, findings_json) FROM STDIN (FORMAT BINARY)", cancellation);
        foreach (var row in rows)
        {
            await writer.StartRowAsync(cancellation);
            await writer.WriteAsync(row.Revision, NpgsqlDbType.Uuid, cancellation);
            await writer.WriteAsync(row.Process, NpgsqlDbType.Varchar, cancellation);
            await writer.WriteAsync(row.Verdict.ToString(), NpgsqlDbType.Varchar, cancellation);
            await writer.WriteAsync(row.FindingsJson, NpgsqlDbType.Text, cancellation);
        }

        await writer.CompleteAsync(cancellation);
    }

    private static async Task InsertAsync(SqliteConnection connection, DbTransaction? transaction, IReadOnlyCollection<NextVerdictRow> rows, CancellationToken cancellation)
    {
        await using var insert = connection.CreateCommand();
        insert.Transaction = (SqliteTransaction?)transaction;
        insert.CommandText = "INSERT INTO next_verdicts (revision_id, process, verdict, findings_json) VALUES ($revision, $process, $verdict, $findings)";
        var (revision, process, verdict, findings) = (
            insert.Parameters.Add("$revision", SqliteType.Text), insert.Parameters.Add("$process", SqliteType.Text),
            insert.Parameters.Add("$verdict", SqliteType.Text), insert.Parameters.Add("$findings", SqliteType.Text));
        foreach (var row in rows)
        {
            (revision.Value, process.Value, verdict.Value, findings.Value) = (row.Revision, row.Process, row.Verdict.ToString(), row.FindingsJson);
            await insert.ExecuteNonQueryAsync(cancellation);
        }
    }
}
