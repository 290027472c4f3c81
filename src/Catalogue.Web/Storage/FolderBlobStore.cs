using System.Buffers;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Microsoft.Win32.SafeHandles;

namespace Catalogue.Web.Storage;

/// <summary>Blobs in a folder: <c>ab/cd…</c> by hash. A temporary file is written, flushed to the disk, then renamed into place.</summary>
/// <remarks>
/// A crash leaves either the whole blob or a temporary file that the next start removes. On Unix the folder is flushed too, so that
/// a rename survives a power cut. Needs the temporary folder and the blobs on one file system, as they are.
/// </remarks>
public sealed partial class FolderBlobStore : IBlobStore
{
    private const int BufferSize = 128 * 1024;
    private static readonly SearchValues<char> HexDigits = SearchValues.Create("0123456789abcdef");
    private readonly string _root;
    private readonly string _incoming;

    public FolderBlobStore(string root)
    {
        _root = root;
        _incoming = Path.Combine(root, "incoming");
        Directory.CreateDirectory(_incoming);
    }

    /// <summary>Removes what uploads cut off by a crash have left. Only files older than <paramref name="age"/>: others may still be written.</summary>
    public int RemoveLeftovers(TimeSpan age)
    {
        var removed = 0;
        foreach (var file in Directory.EnumerateFiles(_incoming))
        {
            if (DateTime.UtcNow - File.GetLastWriteTimeUtc(file) < age) continue;
            File.Delete(file);
            removed++;
        }

        return removed;
    }

    public async Task<StoredBlob> WriteAsync(Stream content, long maxBytes, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(content);
        var temporary = Path.Combine(_incoming, Guid.NewGuid().ToString("N"));
        try
        {
            var blob = await ReceiveAsync(content, temporary, maxBytes, cancellation);
            var target = PathOf(blob.Sha256);
            var folder = Path.GetDirectoryName(target)!;
            Directory.CreateDirectory(folder);
            if (File.Exists(target)) File.Delete(temporary);
            else File.Move(temporary, target, overwrite: true);
            FlushFolder(folder);
            FlushFolder(_root);
            return blob;
        }
        catch
        {
            TryDelete(temporary);
            throw;
        }
    }

    public Task<Stream?> OpenAsync(string sha256, CancellationToken cancellation)
    {
        var path = PathOf(sha256);
        return Task.FromResult<Stream?>(File.Exists(path)
            ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, BufferSize, FileOptions.Asynchronous | FileOptions.SequentialScan)
            : null);
    }

    public Task<bool> ExistsAsync(string sha256, CancellationToken cancellation) => Task.FromResult(File.Exists(PathOf(sha256)));

    public async IAsyncEnumerable<string> ListAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        foreach (var folder in Directory.EnumerateDirectories(_root).Where(f => Path.GetFileName(f).Length == 2))
        {
            foreach (var file in Directory.EnumerateFiles(folder))
            {
                cancellation.ThrowIfCancellationRequested();
                yield return Path.GetFileName(folder) + Path.GetFileName(file);
            }

            await Task.Yield();
        }
    }

    public Task DeleteAsync(string sha256, CancellationToken cancellation)
    {
        File.Delete(PathOf(sha256));
        return Task.CompletedTask;
    }

    private static async Task<StoredBlob> ReceiveAsync(Stream content, string temporary, long maxBytes, CancellationToken cancellation)
    {
        var buffer = ArrayPool<byte>.Shared.Rent(BufferSize);
        try
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await using var file = new FileStream(temporary, FileMode.CreateNew, FileAccess.Write, FileShare.None, 0, FileOptions.Asynchronous);
            long total = 0;
            while (await content.ReadAsync(buffer, cancellation) is > 0 and var read)
            {
                total += read;
                if (total > maxBytes) throw new BlobTooLargeException(maxBytes);
                hash.AppendData(buffer, 0, read);
                await file.WriteAsync(buffer.AsMemory(0, read), cancellation);
            }

            file.Flush(flushToDisk: true);
            return new(Convert.ToHexStringLower(hash.GetHashAndReset()), total);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }

    private string PathOf(string sha256)
    {
        // The hash comes from addresses too: only 64 hexadecimal digits ever become a path.
        if (sha256 is not { Length: 64 } || sha256.AsSpan().ContainsAnyExcept(HexDigits))
            throw new ArgumentException("A blob is named by 64 lower-case hexadecimal digits.", nameof(sha256));
        return Path.Combine(_root, sha256[..2], sha256[2..]);
    }

    private static void TryDelete(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (IOException)
        {
            // The next start removes it.
        }
    }

    private static void FlushFolder(string folder)
    {
        if (OperatingSystem.IsWindows()) return;
        using var handle = OpenFolder(folder);
        if (!handle.IsInvalid) _ = Fsync(handle);
    }

    private static SafeFileHandle OpenFolder(string folder) => new(Open(folder, 0), ownsHandle: true);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial nint Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Fsync(SafeFileHandle handle);
}
