using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Model.Inspections;
using Catalogue.Model.Reports;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Demo;

/// <summary>
/// Fills a new catalogue with the demo range while it is already served: drafts, then uploads, inspections and publishing through the
/// very code a designer's upload goes through. Meshes are made one at a time, so that inspections get the other core.
/// </summary>
internal sealed class DemoPublisher(IServiceScopeFactory scopes, TimeProvider time, ILogger<DemoPublisher> log) : BackgroundService
{
    private readonly DateTime _start = time.GetUtcNow().UtcDateTime;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            await Task.Yield();
            var range = HalfTidePlayers.Range();
            await DescribeRangeAsync(range, stoppingToken);
            var ends = new List<Task>();
            foreach (var figure in range.Figures)
            {
                await DraftAsync(figure, stoppingToken);
                await UploadAsync(figure, r => r.Number == 1 && !r.Draft, stoppingToken);
                ends.Add(FinishAsync(figure, stoppingToken));
            }

            await Task.WhenAll(ends);
            log.LogInformation("The demo range is complete: {Figures} figures, {Seconds:0} s after the start",
                range.Figures.Count, (time.GetUtcNow().UtcDateTime - _start).TotalSeconds);
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The demo was stopped while it filled itself; its folder is thrown away.
        }
    }

    /// <summary>First edition, later revisions edition by edition, what must stay a draft, then the reports.</summary>
    private async Task FinishAsync(DemoFigure figure, CancellationToken cancellation)
    {
        await PublishAsync(figure, 1, cancellation);
        var numbers = Revisions(figure).Where(r => !r.Revision.Draft && r.Revision.Number > 1).Select(r => r.Revision.Number).Distinct().Order();
        foreach (var number in numbers)
        {
            await UploadAsync(figure, r => r.Number == number && !r.Draft, cancellation);
            await PublishAsync(figure, number, cancellation);
        }

        await UploadAsync(figure, r => r.Draft, cancellation);
        await ReportAsync(figure, cancellation);
    }

    private async Task DescribeRangeAsync(DemoRange range, CancellationToken cancellation) => await WithDbAsync(async db =>
    {
        var promise = await db.Ranges.SingleAsync(cancellation);
        promise.Describe(range.Name, range.Story);
        promise.Promise(range.PromisedVolume.X, range.PromisedVolume.Y, range.PromisedVolume.Z, range.PromisedProcesses);
        await db.SaveChangesAsync(cancellation);
    });

    private async Task DraftAsync(DemoFigure figure, CancellationToken cancellation) => await WithDbAsync(async db =>
    {
        db.Figures.Add(DemoTranslation.Draft(figure, At(Revisions(figure).Max(r => r.Revision.DaysAgo))));
        await db.SaveChangesAsync(cancellation);
    });

    private async Task UploadAsync(DemoFigure figure, Func<DemoRevision, bool> which, CancellationToken cancellation)
    {
        foreach (var (part, variant, revision) in Revisions(figure).Where(r => which(r.Revision)))
        {
            using var content = new MemoryStream();
            StlWriter.Write(revision.Mesh(cancellation), content, $"{figure.Slug} {part.Slug} {variant.Slug}", cancellation);
            content.Position = 0;
            await using var scope = scopes.CreateAsyncScope();
            await scope.ServiceProvider.GetRequiredService<MeshUpload>().StoreAsync(
                new(figure.Slug, part.Slug, variant.Slug),
                new($"{figure.Slug}-{part.Slug}-{variant.Slug}.stl", LengthUnit.Millimetre, revision.Note) { UploadedAt = At(revision.DaysAgo) },
                content, cancellation);
        }
    }

    private async Task PublishAsync(DemoFigure figure, int number, CancellationToken cancellation)
    {
        await InspectedAsync(figure, cancellation);
        var fresh = Revisions(figure).Where(r => r.Revision.Number == number && !r.Revision.Draft).Select(r => r.Revision).ToList();
        var when = At(fresh.Min(r => r.DaysAgo));
        var note = number == 1 ? "First edition" : string.Join(" ", fresh.Select(r => r.Note).Distinct());
        await WithDbAsync(db => db.EditAsync(figure.Slug, f => f.Publish(note.Length <= 2_000 ? note : note[..2_000], when), cancellation));
    }

    private async Task InspectedAsync(DemoFigure figure, CancellationToken cancellation)
    {
        while (true)
        {
            var open = 0;
            await WithDbAsync(async db => open = await (
                from f in db.Figures
                from p in f.Parts
                from v in p.Variants
                from r in v.Revisions
                where f.Slug == figure.Slug && (r.Inspection.State == InspectionState.Queued || r.Inspection.State == InspectionState.Running)
                select r).CountAsync(cancellation));
            if (open == 0) return;
            await Task.Delay(200, cancellation);
        }
    }

    private async Task ReportAsync(DemoFigure figure, CancellationToken cancellation) => await WithDbAsync(async db =>
    {
        var whole = await db.LoadForViewingAsync(figure.Slug, cancellation);
        foreach (var report in figure.Reports)
        {
            var part = whole.Parts.Single(p => p.Slug == report.Part);
            var revision = part.Variants.Single(v => v.Slug == report.Variant).Revisions.Single(r => r.Number == report.Revision);
            db.Reports.Add(new Report(whole.Id, part.Id, revision.Id, DemoTranslation.ReportOf(report), At(report.DaysAgo)));
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
        var told = db.Reports.Local.Select(r => (r.RevisionId, r.Process)).Distinct().ToList();
        await db.SaveChangesAsync(cancellation);
        foreach (var (revision, process) in told) await RevisionVerdicts.WeighAgainAsync(db, revision, process, At(0), cancellation);
        await transaction.CommitAsync(cancellation);
    });

    private static IEnumerable<(DemoPart Part, DemoVariant Variant, DemoRevision Revision)> Revisions(DemoFigure figure) =>
        from part in figure.Parts
        from variant in part.Variants
        from revision in variant.Revisions
        select (part, variant, revision);

    private DateTime At(int daysAgo) => _start.AddDays(-daysAgo);

    private async Task WithDbAsync(Func<CatalogueDb, Task> work)
    {
        await using var scope = scopes.CreateAsyncScope();
        await work(scope.ServiceProvider.GetRequiredService<CatalogueDb>());
    }
}
