using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Inspection;

/// <summary>Which variant a file is for, and what the designer says of it.</summary>
public sealed record UploadTarget(string Figure, string Part, string Variant, string FileName, LengthUnit? Unit, string? Note)
{
    /// <summary>When the upload was made, where it is taken over from elsewhere; null = now.</summary>
    public DateTime? UploadedAt { get; init; }
}

/// <summary>
/// Takes a mesh file: the bytes durable first, then the revision and its inspection in one transaction, then the queue. Once the caller
/// has the revision, nothing of it can be lost; before that, nothing of it is shown.
/// </summary>
public sealed class MeshUpload(CatalogueDb db, IBlobStore blobs, InspectionQueue queue, IOptions<CatalogueOptions> options, TimeProvider time)
{
    private const int Tries = 5;

    public async Task<Revision> StoreAsync(UploadTarget target, Stream content, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        await FindAsync(target, cancellation);
        var blob = await blobs.WriteAsync(content, options.Value.MaxUploadBytes, cancellation);
        for (var attempt = 1; ; attempt++)
        {
            db.ChangeTracker.Clear();
            try
            {
                var revision = await AddRevisionAsync(target, blob, cancellation);
                if (!revision.Inspection.IsFinished) await queue.AddAsync(revision.InspectionId, cancellation);
                return revision;
            }
            catch (DbUpdateException) when (attempt < Tries)
            {
                // Another upload or edit of the same figure came first: read again and take the next number.
                await Task.Delay(Random.Shared.Next(10, 50) * attempt, cancellation);
            }
        }
    }

    private async Task<Revision> AddRevisionAsync(UploadTarget target, StoredBlob blob, CancellationToken cancellation)
    {
        var variant = await FindAsync(target, cancellation);
        var unitKey = MeshInspection.KeyOf(target.Unit);
        var now = target.UploadedAt ?? time.GetUtcNow().UtcDateTime;
        var inspection = await db.Inspections.SingleOrDefaultAsync(i => i.Sha256 == blob.Sha256 && i.UnitKey == unitKey, cancellation)
            ?? db.Inspections.Add(new MeshInspection(blob.Sha256, target.Unit, now)).Entity;
        var revision = variant.Upload(blob.Sha256, blob.Bytes, SafeName(target.FileName), target.Unit, target.Note, inspection, now);
        db.Add(revision);
        if (inspection.State == InspectionState.Done) await RevisionVerdicts.JudgeAsync(db, [revision], now, cancellation);
        await db.SaveChangesAsync(cancellation);
        return revision;
    }

    private async Task<Variant> FindAsync(UploadTarget target, CancellationToken cancellation)
    {
        var figure = await db.LoadForEditingAsync(target.Figure, cancellation);
        return figure.Parts.FirstOrDefault(p => p.Slug == target.Part)?.Variants.FirstOrDefault(v => v.Slug == target.Variant)
            ?? throw new RuleBrokenException("not-found",
                $"“{target.Figure}” has no part “{target.Part}” with a variant “{target.Variant}”. Nothing was kept of the upload; create the part and the variant first.");
    }

    /// <summary>The last segment of the name, without control characters: a name never becomes a path here, but it is shown and sent.</summary>
    public static string SafeName(string? name)
    {
        var last = (name ?? "").Split('/', '\\')[^1];
        var clean = new string([.. last.Where(c => !char.IsControl(c) && !"\"<>|:*?".Contains(c, StringComparison.Ordinal))]).Trim().Trim('.');
        if (clean.Length > 150) clean = clean[^150..];
        return clean.Length > 0 ? clean : "part.stl";
    }
}
