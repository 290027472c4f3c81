using Catalogue.Data;
using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Comparison;
using Catalogue.Model.Inspections;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Inspection;

/// <summary>Compares two stored meshes and keeps what changed from the one to the other.</summary>
public sealed class MeshComparer(IServiceScopeFactory scopes, IBlobStore blobs, TimeProvider time, ILogger<MeshComparer> log)
{
    public async Task RunAsync(Guid before, Guid after, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var comparison = await db.Comparisons.SingleOrDefaultAsync(c => c.BeforeId == before && c.AfterId == after, cancellation);
        if (comparison is null or { IsFinished: true }) return;
        if (comparison.Attempts >= MeshComparison.MaxAttempts)
        {
            comparison.Fail($"It was begun several times and never ended; the machine may be short of memory for these meshes.", Now);
            await db.SaveChangesAsync(cancellation);
            return;
        }

        comparison.Start();
        await db.SaveChangesAsync(cancellation);
        try
        {
            var meshes = await db.Inspections.AsNoTracking().Where(i => i.Id == before || i.Id == after).ToDictionaryAsync(i => i.Id, cancellation);
            comparison.Finish(await Task.Run(() => CompareAsync(meshes[before], meshes[after], cancellation), cancellation), Now);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            // Stopping: the comparison is begun again at the next start.
            comparison.Requeue(Now, forgetAttempts: true);
            await db.SaveChangesAsync(CancellationToken.None);
            throw;
        }
        catch (RuleBrokenException missing)
        {
            comparison.Fail(missing.Said, Now);
        }
        catch (Exception exception) when (exception is not DbUpdateException)
        {
            log.LogError(exception, "The comparison of {Before} with {After} broke off", before, after);
            comparison.Fail($"The program met something it did not expect. Both files are kept; ask for another inspection of the newer one, or tell the host.", Now);
        }

        await db.SaveChangesAsync(CancellationToken.None);
    }

    private async Task<MeshChange> CompareAsync(MeshInspection before, MeshInspection after, CancellationToken cancellation) =>
        MeshChange.Of(RevisionComparison.Between(await ReadAsync(before, cancellation), await ReadAsync(after, cancellation), cancel: cancellation));

    private async Task<ComparedRevision> ReadAsync(MeshInspection inspection, CancellationToken cancellation)
    {
        await using var content = await blobs.OpenAsync(inspection.Sha256, cancellation)
            ?? throw new RuleBrokenException("file-missing", $"A stored file is missing. Restore it from a backup, or upload the mesh again.");
        return ComparedRevision.Of(MeshFileReader.Read(content, content.Length, new MeshReadOptions { Unit = inspection.StatedUnit }, cancellation).Whole(), cancellation);
    }

    private DateTime Now => time.GetUtcNow().UtcDateTime;
}
