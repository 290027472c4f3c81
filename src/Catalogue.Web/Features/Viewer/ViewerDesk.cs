using System.Collections.Concurrent;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Makes what the viewer shows when it is first asked for, and keeps it.</summary>
/// <remarks>One thing at a time, in the background: a large mesh takes its room in memory, and nobody who waits keeps a request open for it. Names come from the content.</remarks>
internal sealed class ViewerDesk(IBlobStore blobs, CatalogueOptions options, IHostApplicationLifetime life) : IDisposable
{
    /// <summary>So long an answer waits for what is being made before it says that it is not there yet.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(400);

    /// <summary>More are not taken on at a time.</summary>
    private const int MostWaiting = 64;

    /// <summary>Anybody can ask for any pose.</summary>
    private const int MostOverlays = 5000;

    private readonly ConcurrentDictionary<string, Exception> _failed = new();
    private readonly SemaphoreSlim _desk = new(1, 1);
    private (string Sha256, LengthUnit? Unit, WeakReference<TriangleMesh> Mesh)? _last;

    /// <summary>Levels of detail; as many as there are meshes.</summary>
    public KeptFiles Shapes { get; } = new(Path.Combine(options.ViewerFolder, "shapes"));

    public KeptFiles Overlays { get; } = new(Path.Combine(options.ViewerFolder, "overlays"), MostOverlays);

    /// <summary>The path of a file once it is there; null while it is being made.</summary>
    /// <param name="make">Called in the background, one at a time; leaves the file there.</param>
    public async Task<string?> AskAsync(KeptFiles files, string name, Func<CancellationToken, Task> make, CancellationToken cancellation)
    {
        if (files.Has(name)) return files.PathOf(name);
        if (_failed.TryRemove(name, out var why)) throw why; // Told to the first who asks again; then it is tried again.
        if (files.Making >= MostWaiting)
            throw new RuleBrokenException("busy", $"Many things are being prepared for the viewer just now. Nothing is lost; ask again in a minute.");
        var making = files.OnceAsync(name, () => MakeAsync(make));
        if (await Task.WhenAny(making, Task.Delay(Patience, cancellation)) != making)
        {
            _ = making.ContinueWith(failed => _failed[name] = failed.Exception!.InnerException!, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
            cancellation.ThrowIfCancellationRequested();
            return null;
        }

        await making; // Tells why it could not be made.
        return files.PathOf(name);
    }

    /// <summary>Reads a mesh, all items of its file together. The last one read is remembered as long as there is room for it.</summary>
    /// <exception cref="RuleBrokenException">It is missing, or no mesh.</exception>
    public async Task<TriangleMesh> ReadAsync(string sha256, LengthUnit? unit, CancellationToken cancellation)
    {
        if (_last is { } last && last.Sha256 == sha256 && last.Unit == unit && last.Mesh.TryGetTarget(out var known)) return known;
        var mesh = await StoredMesh.ReadAsync(blobs, sha256, unit, cancellation);
        _last = (sha256, unit, new(mesh));
        return mesh;
    }

    public void Dispose() => _desk.Dispose();

    private async Task MakeAsync(Func<CancellationToken, Task> make)
    {
        await _desk.WaitAsync(life.ApplicationStopping);
        try
        {
            await make(life.ApplicationStopping);
        }
        finally
        {
            _desk.Release();
        }
    }
}
