namespace Catalogue.Web.Storage;

/// <summary>Uploaded files under the SHA-256 of their content: written once, never changed.</summary>
/// <remarks>One interface, two homes: a folder now, an object store when one machine is not enough.</remarks>
public interface IBlobStore
{
    /// <summary>
    /// Keeps the whole stream. When this returns, the content is durable under its hash; when it throws, nothing is kept.
    /// The same content is stored once.
    /// </summary>
    /// <exception cref="BlobTooLargeException">More than <paramref name="maxBytes"/> arrived.</exception>
    Task<StoredBlob> WriteAsync(Stream content, long maxBytes, CancellationToken cancellation);

    /// <summary>The content for reading, seekable; null when there is none under that hash.</summary>
    Task<Stream?> OpenAsync(string sha256, CancellationToken cancellation);

    Task<bool> ExistsAsync(string sha256, CancellationToken cancellation);

    /// <summary>The hash of every blob that is there.</summary>
    IAsyncEnumerable<string> ListAsync(CancellationToken cancellation);

    /// <summary>Forgets a blob that nothing refers to any more.</summary>
    Task DeleteAsync(string sha256, CancellationToken cancellation);
}

/// <summary>What was kept: 64 lower-case hexadecimal digits and the number of bytes.</summary>
public sealed record StoredBlob(string Sha256, long Bytes);

/// <summary>An upload over the cap; nothing of it was kept.</summary>
public sealed class BlobTooLargeException(long maxBytes)
    : Exception(Of(maxBytes).English)
{
    public long MaxBytes { get; } = maxBytes;

    /// <summary>For people, in their language.</summary>
    public Sentence Said => Of(MaxBytes);

    private static Sentence Of(long maxBytes) =>
        $"The file is larger than {maxBytes / (1024.0 * 1024):0.#} MiB, the most this catalogue takes. Nothing was kept; upload a smaller mesh.";
}
