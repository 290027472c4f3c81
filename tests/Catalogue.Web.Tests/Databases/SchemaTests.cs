using Catalogue.Data;
using Catalogue.Data.Storage;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Tests.Databases;

/// <summary>What the database itself guards, whoever writes to it.</summary>
public abstract class SchemaTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private static readonly DateTime Now = new(2026, 11, 25, 12, 0, 0, DateTimeKind.Utc);

    [Fact]
    public async Task The_migrations_hold_the_whole_model()
    {
        var pending = await Catalogue.WithDbAsync(db => Task.FromResult(db.Database.HasPendingModelChanges()));
        Assert.False(pending);
    }

    [Theory]
    [InlineData("UPDATE revisions SET note = 'changed' WHERE id = {0}")]
    [InlineData("UPDATE revisions SET sha256 = 'changed' WHERE id = {0}")]
    [InlineData("UPDATE revisions SET number = 7 WHERE id = {0}")]
    [InlineData("UPDATE revisions SET published_at = NULL WHERE id = {0}")]
    [InlineData("UPDATE revisions SET discarded_at = published_at WHERE id = {0}")]
    [InlineData("DELETE FROM revisions WHERE id = {0}")]
    [InlineData("UPDATE edition_entries SET edition_id = edition_id WHERE revision_id = {0}")]
    [InlineData("DELETE FROM edition_entries WHERE revision_id = {0}")]
    public async Task A_published_revision_and_its_edition_cannot_be_changed_past_the_program(string sql)
    {
        var revision = await PublishedRevisionAsync();
        await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => Catalogue.WithDbAsync(db => db.Database.ExecuteSqlRawAsync(sql, revision)));
        var still = await Catalogue.WithDbAsync(db => db.Revisions.AsNoTracking().SingleAsync(r => r.Id == revision));
        Assert.Equal((1, "first", true, false), (still.Number, still.Note, still.IsPublished, still.IsDiscarded));
        Assert.Equal(1, await Catalogue.WithDbAsync(db => db.EditionEntries.CountAsync(e => e.RevisionId == revision)));
    }

    [Fact]
    public async Task Times_come_back_as_utc()
    {
        var revision = await PublishedRevisionAsync();
        var read = await Catalogue.WithDbAsync(db => db.Revisions.AsNoTracking().SingleAsync(r => r.Id == revision));
        Assert.Equal(DateTimeKind.Utc, read.UploadedAt.Kind);
        Assert.Equal(Now, read.UploadedAt);
    }

    [Fact]
    public async Task Two_figures_cannot_have_one_address()
    {
        var slug = CatalogueFixture.NewSlug("gull");
        await Catalogue.WithDbAsync(db => SaveAsync(db, NewFigure(slug)));
        var duplicate = await Assert.ThrowsAsync<DbUpdateException>(() => Catalogue.WithDbAsync(db => SaveAsync(db, NewFigure(slug))));
        Assert.True(DatabaseErrors.IsUniqueViolation(duplicate));
    }

    [Fact]
    public async Task Several_instances_starting_at_once_bring_up_one_schema_and_one_seed()
    {
        var database = await Catalogue.WithDbAsync(db => Task.FromResult(
            db is PostgreSqlCatalogueDb ? DatabaseChoice.PostgreSql(db.Database.GetConnectionString()!) : new DatabaseChoice(false, db.Database.GetConnectionString()!)));
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => Schema.ApplyAsync(database, CancellationToken.None))));
        Assert.Equal(1, await Catalogue.WithDbAsync(db => db.Ranges.CountAsync()));
        Assert.Equal(6, await Catalogue.WithDbAsync(db => db.Processes.CountAsync()));
    }

    private async Task<Guid> PublishedRevisionAsync() => await Catalogue.WithDbAsync(async db =>
    {
        var figure = NewFigure(CatalogueFixture.NewSlug("gull"));
        var inspection = new MeshInspection(Convert.ToHexStringLower(System.Security.Cryptography.RandomNumberGenerator.GetBytes(32)), null, Now);
        inspection.Start(Now);
        inspection.Finish(Facts, "{}", 1, Now);
        var revision = figure.AddPart("arm", "Arm", 1, PartRole.Required, Now).AddVariant("solid", "Solid", ["VPP-rigid"], Now)
            .Upload(inspection.Sha256, 684, "arm.stl", null, "first", inspection, Now);
        figure.Publish(null, Now);
        await SaveAsync(db, figure);
        return revision.Id;
    });

    private static Figure NewFigure(string slug) => new(slug, new FigureText { Title = "Gull", HeightMm = 120, Licence = "CC-BY-4.0" }, Now);

    private static async Task<int> SaveAsync(CatalogueDb db, Figure figure)
    {
        db.Figures.Add(figure);
        return await db.SaveChangesAsync();
    }

    private static MeshFacts Facts => new()
    {
        Triangles = 12,
        Shells = 1,
        Closed = true,
        Manifold = true,
        Oriented = true,
        OpenEdges = 0,
        NonManifoldEdges = 0,
        DegenerateTriangles = 0,
        DuplicateTriangles = 0,
        InsideOutShells = 0,
        Voids = 0,
        Size = new(10, 20, 30),
        VolumeMm3 = 6000,
        AreaMm2 = 2200,
        UnitStated = true,
    };
}

public sealed class SchemaOnSqliteTests(SqliteCatalogue catalogue) : SchemaTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class SchemaOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : SchemaTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
