using Catalogue.Model;
using Catalogue.Web.Api;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Photos;

/// <summary>Takes photos in and makes them narrower for screens, one at a time because a large one takes its room in memory. Narrower copies may be deleted: they are made again.</summary>
internal sealed class PhotoDesk(IBlobStore blobs, CatalogueOptions options) : IDisposable
{
    private readonly KeptFiles _files = new(options.PictureFolder);
    private readonly SemaphoreSlim _desk = new(1, 1);

    /// <summary>Reads an upload to its end and keeps its clean copy; nothing refers to it yet.</summary>
    /// <exception cref="RuleBrokenException"><c>photo-unreadable</c>, <c>photo-too-large</c>.</exception>
    public async Task<(StoredBlob Blob, int Width, int Height)> KeepAsync(Stream content, CancellationToken cancellation)
    {
        using var file = await content.ReadWholeAsync(PhotoReading.MostBytes, static () => new RuleBrokenException("photo-too-large",
            $"The photo is larger than {PhotoReading.MostBytes / (1024 * 1024)} MiB, the most this catalogue takes. Nothing was kept; make it smaller and send it again."), cancellation);
        var clean = await OneAtATimeAsync(() => PhotoReading.Read(file.ToArray()), cancellation);
        using var kept = new MemoryStream(clean.Content, writable: false);
        return (await blobs.WriteAsync(kept, long.MaxValue, cancellation), clean.Width, clean.Height);
    }

    /// <summary>The file of a photo that is at most so wide.</summary>
    /// <exception cref="RuleBrokenException"><c>file-missing</c>.</exception>
    public async Task<string> FileAsync(string sha256, int width, CancellationToken cancellation)
    {
        var name = $"{sha256}-photo-{width}.webp";
        await _files.OnceAsync(name, async () =>
        {
            await using var blob = await blobs.OpenAsync(sha256, CancellationToken.None)
                ?? throw new RuleBrokenException("file-missing", $"The photo is not in the store any more. Tell the host that a file of the catalogue is missing.");
            using var whole = new MemoryStream();
            await blob.CopyToAsync(whole);
            await _files.KeepAsync(name, await OneAtATimeAsync(() => PhotoReading.Narrowed(whole.ToArray(), width), CancellationToken.None));
        }).WaitAsync(cancellation);
        return _files.PathOf(name);
    }

    public void Dispose() => _desk.Dispose();

    private async Task<T> OneAtATimeAsync<T>(Func<T> work, CancellationToken cancellation)
    {
        await _desk.WaitAsync(cancellation);
        try
        {
            return await Task.Run(work, cancellation);
        }
        finally
        {
            _desk.Release();
        }
    }
}
