using Catalogue.Data.Judging;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Storage;

/// <summary>Brings the database up to date at start: one instance does it, the others wait.</summary>
/// <remarks>
/// PostgreSQL: EF's migration lock ends with its connection. SQLite: EF's lock is a row that outlives a killed process, so a file lock
/// beside the database decides, and a row left behind is removed while it is held.
/// </remarks>
public static class Schema
{
    public static async Task ApplyAsync(DatabaseChoice choice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(choice);
        await using var gate = choice.IsPostgreSql ? null : await EnterAsync(choice, cancellation);
        await using var db = choice.Open();
        if (!choice.IsPostgreSql)
        {
            await db.Database.ExecuteSqlRawAsync("PRAGMA journal_mode = WAL;", cancellation);
            await db.Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\";", cancellation);
        }

        // Usual printers are given once, with their table: a host who removes them all does not want them back.
        var withPresets = (await db.Database.GetPendingMigrationsAsync(cancellation)).Any(m => m.EndsWith("_AddPrinterPresets", StringComparison.Ordinal));
        await db.Database.MigrateAsync(cancellation);
        await SeedAsync(db, withPresets, cancellation);
        await RulesChange.AskAsync(db, cancellation);
        await InspectionOutline.FillAsync(db, cancellation);
    }

    private static async Task SeedAsync(CatalogueDb db, bool withPresets, CancellationToken cancellation)
    {
        // Two instances on PostgreSQL may both find the tables empty: the second one's insert fails on the key, and it reads again.
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                if (!await db.Ranges.AnyAsync(cancellation)) db.Ranges.Add(new RangePromise("Our range"));
                if (withPresets && !await db.Presets.AnyAsync(cancellation)) db.Presets.AddRange(PrinterPreset.BuiltIn());
                var there = await db.Processes.Include(p => p.Rates).ToListAsync(cancellation);
                if (!await db.Rejudgements.AnyAsync(cancellation)) db.Rejudgements.Add(new Rejudgement(Rules.Version));
                if (there.Count == 0) db.Processes.AddRange(BuiltInProcesses.Create());
                foreach (var process in there) process.Complete(BuiltInRates.For(process.Code)); // Of a catalogue from before there were any.
                await db.SaveChangesAsync(cancellation);
                return;
            }
            catch (DbUpdateException) when (attempt < 3)
            {
                db.ChangeTracker.Clear();
            }
        }
    }

    private static async Task<FileStream> EnterAsync(DatabaseChoice choice, CancellationToken cancellation)
    {
        var file = new SqliteConnectionStringBuilder(choice.ConnectionString).DataSource;
        if (Path.GetDirectoryName(Path.GetFullPath(file)) is { } folder) Directory.CreateDirectory(folder);
        while (true)
        {
            try
            {
                return new FileStream(file + ".migrating", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
            }
            catch (IOException)
            {
                await Task.Delay(100, cancellation);
            }
        }
    }
}
