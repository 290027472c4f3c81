using System.Data.Common;
using Catalogue.Data;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Npgsql;

namespace Catalogue.Benchmarks.Ranges;

/// <summary>
/// Rows for one table of the real schema, written past the entities: on SQLite by one prepared statement, on PostgreSQL by COPY. Columns that are not named get
/// what an empty one of their kind is, so that a new column needs nothing here.
/// </summary>
internal sealed class BulkTable
{
    private readonly IProperty[] _properties;
    private readonly string[] _columns;
    private readonly string _table;
    private readonly List<object?[]> _rows = [];
    private readonly Dictionary<string, int> _places;

    public BulkTable(CatalogueDb db, Type entity)
    {
        var type = db.Model.FindEntityType(entity) ?? throw new ArgumentException($"{entity.Name} has no table.", nameof(entity));
        _table = type.GetTableName()!;
        var store = StoreObjectIdentifier.Table(_table, type.GetSchema());
        _properties = [.. type.GetProperties().Where(p => p.ValueGenerated == ValueGenerated.Never || p.IsPrimaryKey() || p.ClrType != typeof(int))];
        _columns = [.. _properties.Select(p => $"\"{p.GetColumnName(store)}\"")]; // quoted: a column may be called like a word of SQL
        _places = _properties.Select((p, i) => (p.Name, i)).ToDictionary(p => p.Name, p => p.i);
    }

    /// <summary>A row by the names of its properties, values as the entities have them.</summary>
    public void Add(params ReadOnlySpan<(string Property, object? Value)> values)
    {
        var row = new object?[_properties.Length];
        var given = new bool[row.Length];
        foreach (var (property, value) in values) (row[_places[property]], given[_places[property]]) = (value, true);
        for (var i = 0; i < row.Length; i++)
        {
            var property = _properties[i];
            var converter = property.GetTypeMapping().Converter;
            var value = given[i] ? row[i] : property.IsNullable ? null : Empty(property.ClrType);
            row[i] = value is not null ? converter?.ConvertToProvider(value) ?? value : property.IsNullable ? null : Empty(converter?.ProviderClrType ?? property.ClrType);
        }

        _rows.Add(row);
    }

    /// <summary>Writes what was added and forgets it.</summary>
    public async Task WriteAsync(DbConnection connection, DbTransaction transaction)
    {
        if (connection is NpgsqlConnection postgres) await CopyAsync(postgres);
        else await InsertAsync((SqliteConnection)connection, (SqliteTransaction)transaction);
        _rows.Clear();
    }

    private async Task CopyAsync(NpgsqlConnection connection)
    {
        await using var writer = await connection.BeginBinaryImportAsync($"COPY {_table} ({string.Join(", ", _columns)}) FROM STDIN (FORMAT BINARY)");
        var types = Array.ConvertAll(_properties, p => p.GetColumnType());
        foreach (var row in _rows)
        {
            await writer.StartRowAsync();
            for (var i = 0; i < row.Length; i++)
            {
                if (row[i] is { } value) await writer.WriteAsync(value, types[i]);
                else await writer.WriteNullAsync();
            }
        }

        await writer.CompleteAsync();
    }

    private async Task InsertAsync(SqliteConnection connection, SqliteTransaction transaction)
    {
        await using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = $"INSERT INTO {_table} ({string.Join(", ", _columns)}) VALUES ({string.Join(", ", _columns.Select((_, i) => $"$p{i}"))})";
        foreach (var i in Enumerable.Range(0, _columns.Length)) command.Parameters.Add(new SqliteParameter { ParameterName = $"$p{i}" });
        foreach (var row in _rows)
        {
            for (var i = 0; i < row.Length; i++) command.Parameters[i].Value = row[i] ?? DBNull.Value;
            await command.ExecuteNonQueryAsync();
        }
    }

    private static object? Empty(Type type) =>
        type == typeof(string) ? "" : type.IsArray ? Array.CreateInstance(type.GetElementType()!, 0) : type == typeof(DateTime) ? SyntheticRange.Day : type.IsValueType ? Activator.CreateInstance(type) : null;
}
