using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Pictures;
using Catalogue.Model.Inspections;

namespace Catalogue.Web.Features.Shared;

/// <summary>A part laid down one way: on a piece of the plate, what hangs over marked.</summary>
internal static class OrientationPicture
{
    /// <summary>Counts up when it is drawn another way.</summary>
    public const int Version = 1;

    private const double RimMm = 5;
    private const double PlateMm = 1.2;

    /// <summary>A triangle this near to the plate rests on it.</summary>
    private const double RestsMm = 0.05;

    /// <param name="room">The plate is not drawn beyond it.</param>
    /// <param name="limitDegrees">What is steeper, from the vertical, is marked.</param>
    public static Picture Draw(TriangleMesh mesh, OrientationReport laid, BuildVolume? room, double limitDegrees, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(laid);
        var turned = mesh.Transformed(Rotation.FromRowMajor(laid.Rotation));
        var bounds = turned.Bounds;
        var (across, deep) = (bounds.Size.X + (2 * RimMm), bounds.Size.Y + (2 * RimMm));
        if (room is { IsRound: false } plate)
        {
            // The advice turns a part to fit as it is written: width along x, depth along y.
            across = Math.Min(across, Math.Max(plate.Width, bounds.Size.X));
            deep = Math.Min(deep, Math.Max(plate.Depth, bounds.Size.Y));
        }

        var middle = (bounds.Min + bounds.Max) * 0.5;
        var under = new Vec3(middle.X - (across / 2), middle.Y - (deep / 2), bounds.Min.Z - PlateMm);
        var steepest = -Math.Sin(limitDegrees * Math.PI / 180);
        return MeshPicture.Draw(
            [
                new(Solids.Box(across, deep, PlateMm), Rotation.Identity, under, PictureTints.Plate),
                new(turned, Rotation.Identity, Vec3.Zero, PictureTints.Clay, Marked),
            ], PictureView.ThreeQuarter, width, height);

        Tint Marked(int triangle)
        {
            var (a, b, c) = turned.Triangle(triangle);
            var normal = Vec3.Cross(b - a, c - a);
            return normal.Z < steepest * normal.Length && Math.Max(a.Z, Math.Max(b.Z, c.Z)) > bounds.Min.Z + RestsMm ? PictureTints.Brass : PictureTints.Clay;
        }
    }
}
