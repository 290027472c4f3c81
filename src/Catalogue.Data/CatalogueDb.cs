using Catalogue.Data.Accounts;
using Catalogue.Data.Judging;
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
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace Catalogue.Data;

/// <summary>The whole catalogue in one context. Providers differ in a thin class each; nothing else knows which one runs.</summary>
public abstract class CatalogueDb(DbContextOptions options) : IdentityUserContext<Account, Guid>(options)
{
    public DbSet<RangePromise> Ranges => Set<RangePromise>();
    public DbSet<Process> Processes => Set<Process>();
    public DbSet<PrinterPreset> Presets => Set<PrinterPreset>();
    public DbSet<Figure> Figures => Set<Figure>();
    public DbSet<Photo> Photos => Set<Photo>();
    public DbSet<Part> Parts => Set<Part>();
    public DbSet<Variant> Variants => Set<Variant>();
    public DbSet<Revision> Revisions => Set<Revision>();
    public DbSet<Overruling> Overrulings => Set<Overruling>();
    public DbSet<Edition> Editions => Set<Edition>();
    public DbSet<EditionEntry> EditionEntries => Set<EditionEntry>();
    public DbSet<MeshInspection> Inspections => Set<MeshInspection>();
    public DbSet<InspectionOutline> Outlines => Set<InspectionOutline>();
    public DbSet<InspectionFacts> CheckFacts => Set<InspectionFacts>();
    public DbSet<Rejudgement> Rejudgements => Set<Rejudgement>();
    public DbSet<NextVerdict> NextVerdicts => Set<NextVerdict>();
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
        if (!ChangesTheRange()) return await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        var (rejudged, limits) = (Rejudged(), ChangesLimits());
        if (Database.CurrentTransaction is not null) return await SaveAndCountAsync();
        await using var transaction = await Database.BeginTransactionAsync(cancellationToken);
        var count = await SaveAndCountAsync();
        await transaction.CommitAsync(cancellationToken);
        return count;

        async Task<int> SaveAndCountAsync()
        {
            var saved = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
            if (rejudged.Count > 0) await CountJudgementsUpAsync(rejudged, cancellationToken);
            await CountRangeUpAsync(limits, cancellationToken);
            if (rejudged.Count > 0 && !limits) await CheckLimitsAsync(cancellationToken);
            return saved;
        }
    }

    /// <summary>Tells every instance that what readers see has changed. For changes made past the change tracker.</summary>
    /// <param name="limits">True when processes or their limits are others than before.</param>
    public Task CountRangeUpAsync(bool limits, CancellationToken cancellation)
    {
        var judged = limits ? 1 : 0;
        return Ranges.ExecuteUpdateAsync(set => set
            .SetProperty(r => r.Revision, r => r.Revision + 1)
            .SetProperty(r => r.JudgementRevision, r => r.JudgementRevision + judged), cancellation);
    }

    /// <summary>Of which limits the verdicts are that are about to be saved: <see cref="RangePromise.JudgementRevision"/> when they were read; null = not said.</summary>
    internal long? JudgedBy { get; set; }

    /// <summary>By now this transaction holds the range's row, so that no other limits come into effect before it ends.</summary>
    private async Task CheckLimitsAsync(CancellationToken cancellation)
    {
        if (JudgedBy is { } judgedBy && await Ranges.Select(r => r.JudgementRevision).SingleAsync(cancellation) != judgedBy) throw new LimitsChangedException();
    }

    /// <summary>Revisions whose verdicts are other ones than before.</summary>
    private List<Guid> Rejudged() =>
    [
        .. ChangeTracker.Entries<RevisionVerdict>().Where(e => e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted)
            .Select(e => e.Entity.RevisionId).Distinct(),
    ];

    private Task<int> CountJudgementsUpAsync(List<Guid> revisions, CancellationToken cancellation)
    {
        var figures = from r in Revisions
                      join v in Variants on r.VariantId equals v.Id
                      join p in Parts on v.PartId equals p.Id
                      where revisions.Contains(r.Id)
                      select p.FigureId;
        return Figures.Where(f => figures.Contains(f.Id)).ExecuteUpdateAsync(set => set.SetProperty(f => f.Judgements, f => f.Judgements + 1), cancellation);
    }

    private bool ChangesLimits() => ChangeTracker.Entries().Any(e =>
        e.Entity is Process or ProcessLimit && e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted && !IsOnlyAsked(e));

    /// <summary>True for a limit of which only the next value is another one: nothing is judged by that yet.</summary>
    private static bool IsOnlyAsked(EntityEntry entry) => entry is { Entity: ProcessLimit, State: EntityState.Modified }
        && entry.Properties.Where(p => p.IsModified).All(p => p.Metadata.Name is nameof(ProcessLimit.NextValue) or nameof(ProcessLimit.NextOrigin));

    private bool ChangesTheRange() => ChangeTracker.Entries().Any(e =>
        e.State is EntityState.Added or EntityState.Modified or EntityState.Deleted && !IsOnlyAsked(e)
        && e.Entity is Figure or RevisionVerdict or Process or ProcessLimit or ProcessRate or RangePromise or Report or MeshComparison { State: ComparisonState.Done });
}

/// <summary>The catalogue on SQLite: one file, one machine.</summary>
public sealed class SqliteCatalogueDb(DbContextOptions<SqliteCatalogueDb> options) : CatalogueDb(options);

/// <summary>The catalogue on PostgreSQL: any number of machines.</summary>
public sealed class PostgreSqlCatalogueDb(DbContextOptions<PostgreSqlCatalogueDb> options) : CatalogueDb(options);
