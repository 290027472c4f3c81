using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Where parts sit, read off a 3MF file whose build is the assembled figure: each thing in it is one of the figure's own meshes, turned and moved.</summary>
internal sealed class PlacingFromBuild(CatalogueDb db, IBlobStore blobs, TimeProvider time)
{
    /// <summary>Places every part of which the build holds as many copies as the figure needs; the others stay as they were.</summary>
    /// <exception cref="RuleBrokenException">Nothing in the build is one of the figure's meshes.</exception>
    public async Task<PlacedFromBuild> PlaceAsync(string figure, Stream content, CancellationToken cancellation)
    {
        var build = await Task.Run(() => MeshFileReader.Read(content, content.Length, MeshReadOptions.Default, cancellation), cancellation);
        var left = build.Items.ToList();
        var found = new Dictionary<string, List<Pose>>();
        var stored = await db.LoadForViewingAsync(figure, cancellation);
        foreach (var part in stored.Parts.Where(p => !p.IsRemoved).OrderBy(p => p.Position))
        {
            foreach (var variant in part.Variants.Where(v => !v.IsRemoved))
            {
                if (variant.Revisions.Where(r => !r.IsDiscarded).MaxBy(r => r.Number) is not { } revision) continue;
                TriangleMesh mesh;
                try
                {
                    mesh = await StoredMesh.ReadAsync(blobs, revision.Sha256, revision.StatedUnit, cancellation);
                }
                catch (RuleBrokenException unreadable) when (unreadable.Code == "not-found")
                {
                    continue; // A file that is no mesh is in no build.
                }

                foreach (var item in left.ToList())
                {
                    if (RigidMotion.Between(mesh, item.Mesh) is not { } motion) continue;
                    left.Remove(item);
                    if (!found.TryGetValue(part.Slug, out var poses)) found[part.Slug] = poses = [];
                    poses.Add(new(Math.Round(motion.Shift.X, 4), Math.Round(motion.Shift.Y, 4), Math.Round(motion.Shift.Z, 4), motion.Rotation.ToRowMajor()));
                }
            }
        }

        if (found.Count == 0)
        {
            throw new RuleBrokenException("build-foreign",
                $"Nothing in this build is one of the figure's own meshes, turned and moved. Nothing was changed. Put the very meshes that were uploaded into the build, in their size, with their triangles as they are.");
        }

        var placed = new List<string>();
        await db.EditAsync(figure, f =>
        {
            foreach (var (slug, poses) in found)
            {
                if (f.PartOf(slug) is not { } part || part.Quantity != poses.Count) continue;
                part.Place(poses, time.GetUtcNow().UtcDateTime);
                placed.Add(slug);
            }
        }, cancellation);
        return new(placed, [.. found.Keys.Except(placed)], [.. left.Select((item, i) => item.Name ?? T($"item {i + 1}"))]);
    }
}

/// <param name="Placed">Parts that have their places now.</param>
/// <param name="CountDiffers">Parts of which the build holds more or fewer copies than the figure needs: left as they were.</param>
/// <param name="Unknown">Things in the build that are none of the figure's meshes.</param>
internal sealed record PlacedFromBuild(IReadOnlyList<string> Placed, IReadOnlyList<string> CountDiffers, IReadOnlyList<string> Unknown);
