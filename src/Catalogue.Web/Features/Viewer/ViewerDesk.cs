using System.Collections.Concurrent;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Makes what the viewer shows when it is first asked for, and keeps it as files that may be deleted at any time: they are made again.</summary>
/// <remarks>One thing at a time, in the background: a large mesh takes its room in memory, and nobody who waits keeps a request open for it. Names come from the content.</remarks>
internal sealed class ViewerDesk(IBlobStore blobs, CatalogueOptions options, IHostApplicationLifetime life) : IDisposable
{
    /// <summary>So long an answer waits for what is being made before it says that it is not there yet.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(400);

    /// <summary>More are not taken on at a time.</summary>
    private const int MostWaiting = 64;

    private readonly ConcurrentDictionary<string, Lazy<Task>> _making = new();
    private readonly SemaphoreSlim _desk = new(1, 1);
    private (string Sha256, LengthUnit? Unit, WeakReference<TriangleMesh> Mesh)? _last;

    /// <summary>Where a file of that name is kept, whether it is there or not.</summary>
    public string PathOf(string name) => Path.Combine(options.ViewerFolder, name[..2], name);

    /// <summary>The path of a file once it is there; null while it is being made.</summary>
    /// <param name="make">Called in the background, one at a time; leaves the file there by <see cref="KeepAsync"/>.</param>
    public async Task<string?> AskAsync(string name, Func<CancellationToken, Task> make, CancellationToken cancellation)
    {
        var path = PathOf(name);
        if (File.Exists(path)) return path;
        if (_making.Count >= MostWaiting && !_making.ContainsKey(name))
            throw new RuleBrokenException("busy", "Many things are being prepared for the viewer just now. Nothing is lost; ask again in a minute.");
        var making = _making.GetOrAdd(name, _ => new(() => Task.Run(() => MakeAsync(path, make), CancellationToken.None)));
        var done = await Task.WhenAny(making.Value, Task.Delay(Patience, cancellation)) == making.Value;
        cancellation.ThrowIfCancellationRequested();
        if (!done) return null;
        _making.TryRemove(KeyValuePair.Create(name, making));
        await making.Value; // Tells why it could not be made.
        return path;
    }

    /// <summary>Writes a file whole or not at all.</summary>
    public async Task KeepAsync(string name, ReadOnlyMemory<byte> content)
    {
        var path = PathOf(name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var temporary = $"{path}.{Guid.NewGuid():N}";
        await File.WriteAllBytesAsync(temporary, content);
        File.Move(temporary, path, overwrite: true);
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

    private async Task MakeAsync(string path, Func<CancellationToken, Task> make)
    {
        await _desk.WaitAsync(life.ApplicationStopping);
        try
        {
            if (!File.Exists(path)) await make(life.ApplicationStopping);
        }
        finally
        {
            _desk.Release();
        }
    }
}
