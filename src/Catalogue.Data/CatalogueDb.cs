using Catalogue.Data.Accounts;
using Catalogue.Data.Mapping;
using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Ranges;
using Catalogue.Model.Reports;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data;

/// <summary>The whole catalogue in one context. Providers differ in a thin class each; nothing else knows which one runs.</summary>
public abstract class CatalogueDb(DbContextOptions options) : IdentityUserContext<Account, Guid>(options)
{
    public DbSet<RangePromise> Ranges => Set<RangePromise>();
    public DbSet<Process> Processes => Set<Process>();
    public DbSet<PrinterPreset> Presets => Set<PrinterPreset>();
    public DbSet<Figure> Figures => Set<Figure>();
    public DbSet<Part> Parts => Set<Part>();
    public DbSet<Variant> Variants => Set<Variant>();
    public DbSet<Revision> Revisions => Set<Revision>();
    public DbSet<Overruling> Overrulings => Set<Overruling>();
    public DbSet<Edition> Editions => Set<Edition>();
    public DbSet<EditionEntry> EditionEntries => Set<EditionEntry>();
    public DbSet<MeshInspection> Inspections => Set<MeshInspection>();
    public DbSet<MeshComparison> Comparisons => Set<MeshComparison>();
    public DbSet<RevisionVerdict> Verdicts => Set<RevisionVerdict>();
    public DbSet<Report> Reports => Set<Report>();
    public DbSet<AccessToken> AccessTokens => Set<AccessToken>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        ArgumentNullException.ThrowIfNull(configurationBuilder);
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcConverter>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);
    }

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        AccountMapping.Apply(builder);
        FigureMapping.Apply(builder);
        InspectionMapping.Apply(builder);
        ComparisonMapping.Apply(builder);
        RangeMapping.Apply(builder);
    }

    /// <summary>Saves, and in the same transaction counts up <see cref="RangePromise.Revision"/> when a reader of the range could see the change.</summary>
    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        var rejudges = Rejudges();
        if (!ChangesTheRange()) return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        if (Database.CurrentTransaction is not null)
        {
            var saved = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
            await CountRangeUpAsync(rejudges, cancellationToken);
            return saved;
        }

        await using var transaction = await Database.BeginTransactionAsync(cancellationToken);
        var count = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        await CountRangeUpAsync(rejudges, cancellationToken);
        await transaction.CommitAsync(cancellationToken);
        return count;
    }

    /// <summary>Tells every instance that what readers see has changed. For changes made past the change tracker.</summary>
    /// <param name="rejudged">True when revisions already shown were judged anew.</param>
    public Task CountRangeUpAsync(bool rejudged, CancellationToken cancellation)
    {
        var judged = rejudged ? 1 : 0;
        return Ranges.ExecuteUpdateAsync(set => set
            .SetProperty(r => r.Revision, r => r.Revision + 1)
            .SetProperty(r => r.JudgementRevision, r => r.JudgementRevision + judged), cancellation);
    }

    private bool Rejudges() => ChangeTracker.Entries().Any(e =>
        (e.Entity is RevisionVerdict && e.State is EntityState.Modified or EntityState.Deleted)
        || (e.Entity is Process or ProcessLimit && e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted));

    private bool ChangesTheRange() => ChangeTracker.Entries().Any(e =>
        e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted
        && e.Entity is Figure or RevisionVerdict or Process or ProcessLimit or ProcessRate or RangePromise or Report or MeshComparison { State: ComparisonState.Done });
}

/// <summary>The catalogue on SQLite: one file, one machine.</summary>
public sealed class SqliteCatalogueDb(DbContextOptions<SqliteCatalogueDb> options) : CatalogueDb(options);

/// <summary>The catalogue on PostgreSQL: any number of machines.</summary>
public sealed class PostgreSqlCatalogueDb(DbContextOptions<PostgreSqlCatalogueDb> options) : CatalogueDb(options);
