using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Pictures;
using Catalogue.Geometry.Spatial;
using Catalogue.Model;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Pictures;

/// <summary>Draws pictures of meshes when they are first asked for, and keeps them: the same meshes in the same places are drawn once.</summary>
/// <remarks>
/// One picture at a time, because a large mesh takes its room in memory while it is drawn; whoever asks for one that is being drawn waits for it.
/// A picture of another version of the drawing has another name.
/// </remarks>
internal sealed class PictureDesk(IBlobStore blobs, CatalogueOptions options) : IDisposable
{
    private readonly KeptFiles _files = new(options.PictureFolder);
    private readonly SemaphoreSlim _desk = new(1, 1);

    /// <summary>The file of a picture, drawn now if it is not there yet.</summary>
    /// <exception cref="RuleBrokenException"><c>file-missing</c>, or why a mesh cannot be drawn.</exception>
    public async Task<string> FileAsync(PictureSubject subject, int width, int height, string format, CancellationToken cancellation)
    {
        var name = subject.NameOf(width, height, format);
        await _files.OnceAsync(name, () => DrawAsync(subject, width, height, format, name)).WaitAsync(cancellation);
        return _files.PathOf(name);
    }

    public void Dispose() => _desk.Dispose();

    private async Task DrawAsync(PictureSubject subject, int width, int height, string format, string name)
    {
        await _desk.WaitAsync();
        try
        {
            var meshes = new Dictionary<(string, LengthUnit?), TriangleMesh>();
            foreach (var file in subject.Files)
                if (!meshes.ContainsKey((file.Sha256, file.Unit))) meshes[(file.Sha256, file.Unit)] = await ReadAsync(file);
            List<PicturedMesh> drawn = [.. subject.Files.Select(f => new PicturedMesh(meshes[(f.Sha256, f.Unit)], f.Rotation, f.Position, PictureTints.Clay))];
            var picture = subject switch
            {
                { Place: { } at } => MeshPicture.Draw([.. drawn, Ball(at, drawn[0].Mesh)], ViewOf(at, drawn[0].Mesh), width, height),
                { Before: { } before } => ChangePicture(drawn[0], await ReadAsync(before), width, height),
                { IsApart: true } => MeshPicture.Draw(TakenApart.Of(drawn), PictureView.ThreeQuarter, width, height),
                _ => MeshPicture.Draw(drawn, PictureView.ThreeQuarter, width, height),
            };
            await _files.KeepAsync(name, PictureEncoding.Encode(picture, format));
        }
        finally
        {
            _desk.Release();
        }
    }

    private Task<TriangleMesh> ReadAsync(PicturedFile file) => StoredMesh.ReadAsync(blobs, file.Sha256, file.Unit, CancellationToken.None);

    /// <summary>The later shape with what is elsewhere than before in colour, from where most of that is seen.</summary>
    private static Picture ChangePicture(PicturedMesh after, TriangleMesh before, int width, int height)
    {
        var kinds = Array.ConvertAll(SurfaceDistances.Of(after.Mesh, TriangleTree.Build(before)), d => ChangeSteps.KindOf(d));
        return MeshPicture.Draw([after with { TintOf = t => PictureTints.Changes[kinds[t]] }], PictureView.OfMost(TriangleTree.Build(after.Mesh), t => kinds[t] is 1 or 2), width, height);
    }

    /// <summary>Marks a place on a part: a fortieth of its size.</summary>
    private static PicturedMesh Ball(Vec3 at, TriangleMesh mesh) => new(Solids.Icosphere(mesh.Bounds.Size.Length / 40, 3), Rotation.Identity, at, PictureTints.Brass);

    /// <summary>From where a place can be seen: as square to the nearest surface as may be, with nothing of the part before it.</summary>
    private static PictureView ViewOf(Vec3 at, TriangleMesh mesh)
    {
        var tree = TriangleTree.Build(mesh);
        if (tree.Nearest(at) is not { } nearest) return PictureView.ThreeQuarter;
        var (a, b, c) = mesh.Triangle(nearest.Triangle);
        var normal = Vec3.Cross(b - a, c - a).Normalized();
        var clear = mesh.Bounds.Size.Length / 60;
        var views = Enumerable.Range(0, 40).Select(i => PictureView.From((i % 8 * 45) - 28, (i / 8 * 30) - 60)).Prepend(PictureView.Towards(normal));
        return views.OrderByDescending(v => Vec3.Dot(v.ToCamera.RowZ, normal)).Cast<PictureView?>()
            .FirstOrDefault(v => !tree.AnyHit(new(at + (v!.Value.ToCamera.RowZ * clear), v.Value.ToCamera.RowZ), double.PositiveInfinity)) ?? PictureView.Towards(normal);
    }
}
