using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Repair;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Works out what a gentle repair of a stored revision would change, and makes the repaired mesh the next revision when its designer accepts that.</summary>
/// <remarks>The revision that is repaired stays as it is. What is accepted is worked out again from the same file, which gives the same mesh.</remarks>
internal sealed class RevisionRepair(CatalogueDb db, IBlobStore blobs, MeshUpload upload, InspectionTurns turns, IOptions<CatalogueOptions> options)
{
    private const int BufferSize = 128 * 1024;

    /// <exception cref="RuleBrokenException">There is nothing to propose: its code and sentence say why.</exception>
    public async Task<RepairOffer> ProposeAsync(UploadTarget at, int number, CancellationToken cancellation)
    {
        var (variant, revision) = await FindAsync(at, number, null, cancellation);
        await using var content = await OpenAsync(revision, cancellation);
        var proposal = await turns.RunAsync(token => RepairProposal.Of(content, content.Length, revision.StatedUnit, token), InspectionTurns.BusyUnchanged, TooLong, cancellation);
        return new(variant, revision, proposal);
    }

    /// <summary>Repairs and stores: the repaired mesh becomes the next revision and is inspected like any upload. It is not published.</summary>
    /// <exception cref="RuleBrokenException">The same, and <c>changed-meanwhile</c> when a newer revision came in.</exception>
    public async Task<Revision> AcceptAsync(UploadTarget at, int number, RepairAcceptance accepted, CancellationToken cancellation)
    {
        var (variant, revision) = await FindAsync(at, number, accepted.LastRevision, cancellation);
        var seen = accepted.LastRevision ?? variant.LastRevisionNumber;
        await using var content = await OpenAsync(revision, cancellation);
        await using var repaired = Spool();
        var (format, note) = await turns.RunAsync(
            token =>
            {
                var proposal = RepairProposal.Of(content, content.Length, revision.StatedUnit, token);
                var format = RepairFormats.Chosen(accepted.Format, proposal);
                RepairFormats.Write(format, proposal.Mesh, $"{variant.Part.Figure.Slug} {variant.Part.Slug}", number, repaired, token);
                return (format, accepted.Note ?? proposal.Note(number));
            },
            InspectionTurns.BusyUnchanged, TooLong, cancellation);
        repaired.Position = 0;
        var words = new UploadWords(RepairFormats.NameOf(revision.FileName, format), LengthUnit.Millimetre, note) { LastLook = v => v.ToRepair(number, seen) };
        return await upload.AddAsync(at, words, await upload.KeepAsync(repaired, cancellation), cancellation);
    }

    private async Task<(Variant Variant, Revision Revision)> FindAsync(UploadTarget at, int number, int? lastSeen, CancellationToken cancellation)
    {
        var variant = (await db.LoadForViewingAsync(at.Figure, cancellation)).VariantOf(at.Part, at.Variant);
        var revision = variant.ToRepair(number, lastSeen);
        if (!revision.Inspection.IsFinished)
            throw new RuleBrokenException("inspection-pending", $"Revision {number} is still being inspected. Nothing was changed; wait until that is done.");
        if (revision.Inspection.State == InspectionState.Rejected)
            throw new RuleBrokenException("mesh-rejected", $"Revision {number} could not be read as a mesh, so there is nothing to repair: {revision.Inspection.ErrorMessage}");
        if (revision.Bytes > options.Value.MaxInspectionBytes)
        {
            throw new RuleBrokenException("repair-too-large",
                $"The file is larger than {options.Value.MaxInspectionMiB} MiB, the most that is repaired while somebody waits. Nothing was changed; use fewer triangles, or ask the host to raise that limit.");
        }

        return (variant, revision);
    }

    private async Task<Stream> OpenAsync(Revision revision, CancellationToken cancellation) => await blobs.OpenAsync(revision.Sha256, cancellation)
        ?? throw new RuleBrokenException("file-lost", $"The stored file of revision {revision.Number} is missing. Nothing was changed; restore it from a backup, or upload the mesh again.");

    private static FileStream Spool() => new(Path.Combine(Path.GetTempPath(), $"catalogue-repair-{Guid.NewGuid():N}"), FileMode.CreateNew, FileAccess.ReadWrite,
        FileShare.None, BufferSize, FileOptions.Asynchronous | FileOptions.DeleteOnClose);

    private static RuleBrokenException TooLong() => new("repair-too-long",
        $"The repair took longer than {InspectionTurns.Patience.TotalSeconds:0} seconds. Nothing was changed; use fewer triangles, or mend the mesh where it was modelled.");
}

/// <summary>A repair that could be accepted.</summary>
internal sealed record RepairOffer(Variant Variant, Revision Revision, RepairProposal Proposal)
{
    public string Note => Proposal.Note(Revision.Number);
    public RepairFormat Format => RepairFormats.Chosen(null, Proposal);
}

/// <summary>What a designer says when accepting a repair.</summary>
/// <param name="LastRevision">The variant's newest revision when the repair was looked at; refused when there is a newer one. Absent = whatever is there now.</param>
/// <param name="Note">Why the new revision is there; absent = what was repaired, and from which revision.</param>
/// <param name="Format"><c>stl</c> or <c>3mf</c>; absent = 3MF where the revision is one, else binary STL.</param>
internal sealed record RepairAcceptance(int? LastRevision = null, string? Note = null, RepairFormat? Format = null);
