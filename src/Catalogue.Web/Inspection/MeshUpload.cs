using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Inspection;

/// <summary>Which variant a file is for.</summary>
public sealed record UploadTarget(string Figure, string Part, string Variant);

/// <summary>What the designer says of a file: its name, its unit (null = as the file says) and why it is there.</summary>
public sealed record UploadWords(string? FileName, LengthUnit? Unit, string? Note)
{
    /// <summary>When the upload was made, where it is taken over from elsewhere; null = now.</summary>
    public DateTime? UploadedAt { get; init; }

    /// <summary>A last look at the variant, in the transaction that adds the revision; refuses it by throwing. Null = none.</summary>
    public Action<Variant>? LastLook { get; init; }
}

/// <summary>
/// Takes a mesh file: the bytes durable first, then the revision and its inspection in one transaction, then the queue. Once the caller
/// has the revision, nothing of it can be lost; before that, nothing of it is shown.
/// </summary>
public sealed class MeshUpload(CatalogueDb db, IBlobStore blobs, InspectionQueue queue, ComparisonQueue comparisons, IOptions<CatalogueOptions> options, TimeProvider time)
{
    private const int Tries = 5;

    /// <summary>The whole way at once, for a file whose words are known beforehand.</summary>
    public async Task<Revision> StoreAsync(UploadTarget target, UploadWords words, Stream content, CancellationToken cancellation)
    {
        await CheckAsync(target, cancellation);
        return await AddAsync(target, words, await KeepAsync(content, cancellation), cancellation);
    }

    /// <summary>Refuses an upload that has nowhere to go, before any of it is read.</summary>
    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public async Task CheckAsync(UploadTarget target, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        if (!await db.Variants.AnyAsync(v => v.Slug == target.Variant && v.Part.Slug == target.Part && v.Part.Figure.Slug == target.Figure, cancellation)) throw NotFound(target);
    }

    /// <summary>Makes the content durable; nothing refers to it yet.</summary>
    /// <exception cref="RuleBrokenException"><c>file-empty</c>.</exception>
    /// <exception cref="BlobTooLargeException">More than the catalogue takes.</exception>
    public async Task<StoredBlob> KeepAsync(Stream content, CancellationToken cancellation)
    {
        var blob = await blobs.WriteAsync(content, options.Value.MaxUploadBytes, cancellation);
        if (blob.Bytes > 0) return blob;
        await blobs.DeleteAsync(blob.Sha256, cancellation);
        throw new RuleBrokenException("file-empty", $"The file is empty. Nothing was kept; export the part again and upload it.");
    }

    /// <summary>Adds the revision of a kept blob and has it inspected.</summary>
    public async Task<Revision> AddAsync(UploadTarget target, UploadWords words, StoredBlob blob, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(words);
        var revision = await AddRevisionAsync(target, words, blob, cancellation);
        await InspectAsync(revision, cancellation);
        return revision;
    }

    private async Task<Revision> AddRevisionAsync(UploadTarget target, UploadWords words, StoredBlob blob, CancellationToken cancellation)
    {
        var unitKey = MeshInspection.KeyOf(words.Unit);
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await db.EditAsync(target.Figure, async figure =>
                {
                    var now = words.UploadedAt ?? Now;
                    var inspection = await db.Inspections.SingleOrDefaultAsync(i => i.Sha256 == blob.Sha256 && i.UnitKey == unitKey, cancellation)
                        ?? db.Inspections.Add(new MeshInspection(blob.Sha256, words.Unit, now)).Entity;
                    if (inspection.State == InspectionState.Failed) inspection.Requeue(now, forgetAttempts: true);
                    var variant = Find(figure, target);
                    words.LastLook?.Invoke(variant);
                    return variant.Upload(blob.Sha256, blob.Bytes, SafeName(words.FileName), words.Unit, words.Note, inspection, now);
                }, cancellation);
            }
            catch (DbUpdateException duplicate) when (attempt < Tries && DatabaseErrors.IsUniqueViolation(duplicate))
            {
                // The same content came in for another figure at the same moment: the second time its inspection is found.
            }
        }
    }

    /// <summary>
    /// Into the queue, or judged at once from the measurements of an identical mesh. The state is read again after the revision is saved:
    /// an inspection that ended in between did not see it, one that ends later does.
    /// </summary>
    private async Task InspectAsync(Revision revision, CancellationToken cancellation)
    {
        await db.Entry(revision.Inspection).ReloadAsync(cancellation);
        if (revision.Inspection.IsFinished)
        {
            await RevisionVerdicts.JudgeMissingAsync(db, revision.InspectionId, Now, cancellation);
            await comparisons.AskForAsync(revision.InspectionId, cancellation);
        }
        else
        {
            await queue.AddAsync(revision.InspectionId, cancellation);
        }
    }

    private DateTime Now => time.GetUtcNow().UtcDateTime;

    private static Variant Find(Figure figure, UploadTarget target) =>
        figure.Parts.FirstOrDefault(p => p.Slug == target.Part)?.Variants.FirstOrDefault(v => v.Slug == target.Variant)
        ?? throw NotFound(target);

    private static RuleBrokenException NotFound(UploadTarget target) => new("not-found",
        $"There is no figure “{target.Figure}” with a part “{target.Part}” and a variant “{target.Variant}” of it. Nothing was kept of the upload; create them first.");

    /// <summary>The last segment of the name, without control characters: a name never becomes a path here, but it is shown and sent.</summary>
    public static string SafeName(string? name)
    {
        var last = (name ?? "").Split('/', '\\')[^1];
        var clean = new string([.. last.Where(c => !char.IsControl(c) && !"\"<>|:*?".Contains(c, StringComparison.Ordinal))]).Trim().Trim('.');
        if (clean.Length > 150) clean = clean[^150..];
        return clean.Length > 0 ? clean : "part.stl";
    }
}
