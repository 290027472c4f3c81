using Catalogue.Data;
using Catalogue.Data.Judging;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Formats;
using Catalogue.Model.Inspections;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Inspection;

/// <summary>Inspects one stored mesh and keeps what was found: the numbers, the report and the verdicts of every revision with that mesh.</summary>
internal sealed class Inspector(
    IServiceScopeFactory scopes, IBlobStore blobs, ComparisonQueue comparisons, IEnumerable<IAfterInspection> after, TimeProvider time, ILogger<Inspector> log)
{
    public async Task RunAsync(Guid id, CancellationToken cancellation)
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var inspection = await db.Inspections.SingleOrDefaultAsync(i => i.Id == id, cancellation);
        if (inspection is null || inspection.IsFinished) return;
        if (inspection.Attempts >= MeshInspection.MaxAttempts)
        {
            inspection.Fail($"It was begun several times and never ended; the machine may be short of memory for this mesh. Ask the host, or upload a mesh with fewer triangles.", Now);
            await db.SaveChangesAsync(cancellation);
            return;
        }

        inspection.Start(Now);
        await db.SaveChangesAsync(cancellation);
        try
        {
            await InspectAsync(db, inspection, cancellation);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            // Stopping: the inspection is begun again at the next start.
            inspection.Requeue(Now, forgetAttempts: true);
            await db.SaveChangesAsync(CancellationToken.None);
            throw;
        }
        catch (Exception exception) when (exception is not DbUpdateException)
        {
            log.LogError(exception, "The inspection of {Sha256} broke off", inspection.Sha256);
            inspection.Fail($"The program met something it did not expect. The file is kept; ask for another inspection, or tell the host.", Now);
            await db.SaveChangesAsync(CancellationToken.None);
        }

        if (inspection.State != InspectionState.Done) return;
        await comparisons.AskForAsync(inspection.Id, cancellation);
        foreach (var next in after) await next.DoneAsync(db, inspection, cancellation);
    }

    private async Task InspectAsync(CatalogueDb db, MeshInspection inspection, CancellationToken cancellation)
    {
        var processes = await db.Processes.AsNoTracking().Include(p => p.Limits).OrderBy(p => p.Position).ToListAsync(cancellation);
        await using var content = await blobs.OpenAsync(inspection.Sha256, cancellation);
        if (content is null)
        {
            inspection.Fail($"The stored file is missing. Restore it from a backup, or upload the mesh again.", Now);
            await db.SaveChangesAsync(cancellation);
            return;
        }

        try
        {
            var progress = new InspectionProgress(inspection, db, time);
            var request = new InspectionRequest { Unit = inspection.StatedUnit, Processes = processes, Sha256 = inspection.Sha256, ForRange = true };
            var result = await Task.Run(() => MeshInspector.Inspect(content, content.Length, request, progress.Report, cancellation), cancellation);
            inspection.Finish(result.Facts, InspectionJson.Write(result.Report), MeshInspector.CheckVersion, Now);
            await InspectionOutline.KeepAsync(db, inspection, cancellation);
            await InspectionFacts.KeepAsync(db, inspection, result.Facts, cancellation);
        }
        catch (MeshFormatException unreadable)
        {
            inspection.Reject(unreadable.Code, Sentence.FromReader(unreadable.Said), MeshInspector.CheckVersion, Now);
        }

        var revisions = await db.Revisions.Where(r => r.InspectionId == inspection.Id).ToListAsync(cancellation);
        await RevisionVerdicts.JudgeAndSaveAsync(db, revisions, Now, cancellation);
        await RevisionVerdicts.JudgeMissingAsync(db, inspection.Id, Now, cancellation);
    }

    private DateTime Now => time.GetUtcNow().UtcDateTime;
}

/// <summary>Writes progress to the database, at most a few times a second and never twice the same.</summary>
internal sealed class InspectionProgress(MeshInspection inspection, CatalogueDb db, TimeProvider time)
{
    private long _last = time.GetTimestamp();

    public void Report(int percent, string stage)
    {
        if (time.GetElapsedTime(_last) < TimeSpan.FromMilliseconds(400)) return;
        _last = time.GetTimestamp();
        inspection.Advance(percent, stage);
        db.Inspections.Where(i => i.Id == inspection.Id).ExecuteUpdate(set => set
            .SetProperty(i => i.ProgressPercent, inspection.ProgressPercent).SetProperty(i => i.Stage, inspection.Stage));
    }
}
