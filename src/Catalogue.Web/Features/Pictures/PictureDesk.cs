using System.Collections.Concurrent;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Pictures;
using Catalogue.Model;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;
using SkiaSharp;

namespace Catalogue.Web.Features.Pictures;

/// <summary>Draws pictures of meshes when they are first asked for, and keeps them as files: the same meshes in the same places are drawn once.</summary>
/// <remarks>
/// One picture at a time, because a large mesh takes its room in memory while it is drawn; whoever asks for one that is being drawn waits for it. The folder may be
/// deleted at any time. A picture of another version of the drawing has another name.
/// </remarks>
internal sealed class PictureDesk(IBlobStore blobs, CatalogueOptions options) : IDisposable
{
    private static readonly Tint Clay = Tint.FromHex(0xD2C4AD);
    private readonly ConcurrentDictionary<string, Lazy<Task<string>>> _drawing = new();
    private readonly SemaphoreSlim _desk = new(1, 1);

    /// <summary>The file of a picture, drawn now if it is not there yet.</summary>
    /// <exception cref="RuleBrokenException"><c>file-missing</c>, or why a mesh cannot be drawn.</exception>
    public async Task<string> FileAsync(IReadOnlyList<PicturedFile> files, int width, int height, string format, CancellationToken cancellation)
    {
        var name = PicturePath.NameOf(files, width, height, format);
        var path = Path.Combine(options.PictureFolder, name[..2], name);
        if (File.Exists(path)) return path;

        // What is drawn once serves everybody who waits, so nobody's leaving stops it.
        var drawing = _drawing.GetOrAdd(name, _ => new(() => DrawAsync(files, width, height, format, path)));
        try
        {
            return await drawing.Value.WaitAsync(cancellation);
        }
        finally
        {
            if (drawing.Value.IsCompleted) _drawing.TryRemove(KeyValuePair.Create(name, drawing));
        }
    }

    public void Dispose() => _desk.Dispose();

    private async Task<string> DrawAsync(IReadOnlyList<PicturedFile> files, int width, int height, string format, string path)
    {
        await _desk.WaitAsync();
        try
        {
            if (File.Exists(path)) return path;
            var meshes = new Dictionary<(string, LengthUnit?), TriangleMesh>();
            foreach (var file in files)
                if (!meshes.ContainsKey((file.Sha256, file.Unit))) meshes[(file.Sha256, file.Unit)] = await ReadAsync(file);
            var bytes = await Task.Run(() => Encoded(
                MeshPicture.Draw([.. files.Select(f => new PicturedMesh(meshes[(f.Sha256, f.Unit)], f.Rotation, f.Position, Clay))], PictureView.ThreeQuarter, width, height), format));
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            var temporary = $"{path}.{Guid.NewGuid():N}";
            await File.WriteAllBytesAsync(temporary, bytes);
            File.Move(temporary, path, overwrite: true);
            return path;
        }
        finally
        {
            _desk.Release();
        }
    }

    private async Task<TriangleMesh> ReadAsync(PicturedFile file)
    {
        await using var content = await blobs.OpenAsync(file.Sha256, CancellationToken.None)
            ?? throw new RuleBrokenException("file-missing", "The catalogue cannot find the mesh file of this picture. Please tell the host, who can restore it from a backup.");
        try
        {
            var read = await Task.Run(() => MeshFileReader.Read(content, content.Length, new MeshReadOptions { Unit = file.Unit }, CancellationToken.None));
            return read.Items.Count == 1 ? read.Items[0].Mesh : Solids.Together([.. read.Items.Select(i => i.Mesh)]);
        }
        catch (MeshFormatException unreadable)
        {
            throw new RuleBrokenException("not-found", "There is no picture of a file that cannot be read: " + unreadable.Message);
        }
    }

    private static byte[] Encoded(Picture picture, string format)
    {
        var info = new SKImageInfo(picture.Width, picture.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul);
        using var image = SKImage.FromPixelCopy(info, picture.Rgba);
        using var data = format == "png" ? image.Encode(SKEncodedImageFormat.Png, 100) : image.Encode(SKEncodedImageFormat.Webp, 82);
        return data.ToArray();
    }
}
