using System.Buffers;
using System.Security.Cryptography;
using Catalogue.Data;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Inspections;

/// <summary>Inspects a mesh for anybody, while they wait. Nothing is kept: the file lies in a temporary one that goes with the request.</summary>
internal sealed class VisitorInspection(CatalogueDb db, IOptions<CatalogueOptions> options, InspectionTurns turns)
{
    private const int BufferSize = 128 * 1024;
    private const int PictureSide = 320;

    /// <summary>Takes the file as it arrives.</summary>
    /// <exception cref="BlobTooLargeException">More than <see cref="CatalogueOptions.MaxInspectionBytes"/> arrived.</exception>
    public async Task<SpooledMesh> SpoolAsync(Stream content, CancellationToken cancellation)
    {
        var file = new FileStream(Path.Combine(Path.GetTempPath(), $"catalogue-inspect-{Guid.NewGuid():N}"), FileMode.CreateNew, FileAccess.ReadWrite,
            FileShare.None, BufferSize, FileOptions.Asynchronous | FileOptions.DeleteOnClose);
        var buffer = ArrayPool<byte>.Shared.Rent(BufferSize);
        try
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            while (await content.ReadAsync(buffer, cancellation) is > 0 and var read)
            {
                if (file.Length + read > options.Value.MaxInspectionBytes) throw new BlobTooLargeException(options.Value.MaxInspectionBytes);
                hash.AppendData(buffer, 0, read);
                await file.WriteAsync(buffer.AsMemory(0, read), cancellation);
            }

            await file.FlushAsync(cancellation);
            file.Position = 0;
            return new(file, Convert.ToHexStringLower(hash.GetHashAndReset()));
        }
        catch
        {
            await file.DisposeAsync();
            throw;
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }

    /// <summary>The processes with these codes, or all, in their order.</summary>
    /// <exception cref="RuleBrokenException"><c>process-unknown</c>.</exception>
    public async Task<IReadOnlyList<Process>> ProcessesAsync(IEnumerable<string> codes, CancellationToken cancellation)
    {
        var wanted = codes.Where(c => !string.IsNullOrWhiteSpace(c)).ToHashSet();
        var all = await db.Processes.AsNoTracking().Include(p => p.Limits).OrderBy(p => p.Position).ToListAsync(cancellation);
        if (wanted.FirstOrDefault(c => all.TrueForAll(p => p.Code != c)) is { } unknown)
            throw new RuleBrokenException("process-unknown", $"“{unknown}” is not a process of this catalogue. There are: {string.Join(", ", all.Select(p => p.Code))}.");
        return wanted.Count == 0 ? all : all.FindAll(p => wanted.Contains(p.Code));
    }

    /// <summary>Waits for a turn, then inspects. At most as many at once as there are workers.</summary>
    /// <exception cref="RuleBrokenException"><c>busy</c>, <c>inspection-too-long</c>.</exception>
    public Task<InspectionReport> InspectAsync(SpooledMesh mesh, InspectionRequest request, CancellationToken cancellation) => turns.RunAsync(
        token => MeshInspector.Inspect(mesh.Content, mesh.Content.Length, request with { Sha256 = mesh.Sha256 }, null, token).Report,
        InspectionTurns.BusyUnkept,
        () => new("inspection-too-long",
            $"The inspection took longer than {InspectionTurns.Patience.TotalSeconds:0} seconds. Nothing was kept. Use fewer triangles, or the program's own “inspect” command, which has no such limit."),
        cancellation);

    /// <summary>Pictures of the ways to lay it down, in their order, as addresses that hold them: nothing is kept that could be asked for later.</summary>
    /// <exception cref="RuleBrokenException"><c>busy</c>, <c>inspection-too-long</c>.</exception>
    public Task<IReadOnlyList<string>> PicturesAsync(SpooledMesh mesh, OrientationsReport ways, LengthUnit? unit, BuildVolume? room, CancellationToken cancellation) =>
        turns.RunAsync<IReadOnlyList<string>>(
            token =>
            {
                mesh.Content.Position = 0;
                var file = MeshFileReader.Read(mesh.Content, mesh.Content.Length, new MeshReadOptions { Unit = unit }, token).Whole();
                return
                [
                    .. OrientationWords.Rows(ways).Select(way => "data:image/webp;base64,"
                        + Convert.ToBase64String(PictureEncoding.Encode(OrientationPicture.Draw(file, way, room, ways.LimitDegrees, PictureSide, PictureSide), "webp"))),
                ];
            },
            InspectionTurns.BusyUnkept,
            () => new("inspection-too-long", $"Drawing the ways to lay it down took too long. Nothing was kept. Use fewer triangles."),
            cancellation);
}

/// <summary>A mesh that lies in a temporary file until it is disposed of.</summary>
internal sealed record SpooledMesh(FileStream Content, string Sha256) : IAsyncDisposable
{
    public ValueTask DisposeAsync() => Content.DisposeAsync();
}
