using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Shared;

/// <summary>Reads an uploaded mesh from the store, to be drawn or laid down.</summary>
internal static class StoredMesh
{
    /// <summary>The mesh of a file; of a file with several things to build, all of them where they lie.</summary>
    /// <exception cref="RuleBrokenException"><c>file-missing</c>, or <c>not-found</c> with the reason why it is no mesh.</exception>
    public static async Task<TriangleMesh> ReadAsync(IBlobStore blobs, string sha256, LengthUnit? unit, CancellationToken cancellation)
    {
        await using var content = await blobs.OpenAsync(sha256, cancellation)
            ?? throw new RuleBrokenException("file-missing", $"The catalogue cannot find this mesh file in its store. Please tell the host, who can restore it from a backup.");
        try
        {
            var read = await Task.Run(() => MeshFileReader.Read(content, content.Length, new MeshReadOptions { Unit = unit }, cancellation), cancellation);
            return read.Items.Count == 1 ? read.Items[0].Mesh : Solids.Together([.. read.Items.Select(i => i.Mesh)]);
        }
        catch (MeshFormatException unreadable)
        {
            throw new RuleBrokenException("not-found", $"There is nothing to show of a file that cannot be read: {Sentence.FromReader(unreadable.Said)}");
        }
    }
}
