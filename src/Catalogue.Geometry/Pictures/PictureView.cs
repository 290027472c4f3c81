using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Pictures;

/// <summary>From where something is seen: without perspective, so that lengths compare.</summary>
/// <param name="ToCamera">Turns the scene so that x points right, y up and z towards the viewer.</param>
public readonly record struct PictureView(Rotation ToCamera)
{
    private const int MostAsked = 400;

    /// <summary>From the front (−y), a little from the left and from above: what figures are shown in.</summary>
    public static PictureView ThreeQuarter { get; } = From(-28, 16);

    /// <summary>From −y, turned to the right and raised above the horizon, in degrees; z stays upright.</summary>
    public static PictureView From(double rightDegrees, double aboveDegrees)
    {
        var (sinR, cosR) = Math.SinCos(rightDegrees * Math.PI / 180);
        var (sinA, cosA) = Math.SinCos(aboveDegrees * Math.PI / 180);
        var right = new Vec3(cosR, sinR, 0);
        var towards = new Vec3(sinR * cosA, -cosR * cosA, sinA);
        return new(new(right, Vec3.Cross(towards, right), towards));
    }

    /// <summary>Looking at surface that faces along a normal: a little from the side and from above, so that its relief shows; z stays upright.</summary>
    public static PictureView Towards(Vec3 normal)
    {
        var n = normal.Normalized();
        var above = Math.Clamp((Math.Asin(Math.Clamp(n.Z, -1, 1)) * 180 / Math.PI) + 12, -80, 80);
        var right = double.Hypot(n.X, n.Y) < 0.05 ? -28 : (Math.Atan2(n.X, -n.Y) * 180 / Math.PI) - 15;
        return From(right, above);
    }

    /// <summary>From where most of some triangles' surface is seen, of eight sides and five heights; <see cref="ThreeQuarter"/> when there are none.</summary>
    /// <remarks>Asks a few hundred of them, evenly through the list, each from all sides whether anything stands before its middle.</remarks>
    public static PictureView OfMost(TriangleTree tree, Func<int, bool> isMeant)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(isMeant);
        var mesh = tree.Mesh;
        var meant = Enumerable.Range(0, mesh.TriangleCount).Where(isMeant).ToList();
        if (meant.Count == 0) return ThreeQuarter;
        PictureView[] views = [ThreeQuarter, .. from above in (int[])[16, 45, 75, -35, -70] from side in Enumerable.Range(0, 8) select From((45 * side) - 28, above)];
        var seen = new double[views.Length];
        var clear = mesh.Bounds.Size.Length * 1e-4;
        for (var i = 0; i < meant.Count; i += Math.Max(1, meant.Count / MostAsked))
        {
            var (a, b, c) = mesh.Triangle(meant[i]);
            var facing = Vec3.Cross(b - a, c - a);
            if (!(facing.LengthSquared > 0)) continue;
            var from = ((a + b + c) / 3) + (clear * facing.Normalized());
            for (var v = 0; v < views.Length; v++)
            {
                var towards = views[v].ToCamera.RowZ;
                if (Vec3.Dot(facing, towards) is > 0 and var shown && !tree.AnyHit(new(from, towards), double.PositiveInfinity)) seen[v] += shown;
            }
        }

        return views[Array.IndexOf(seen, seen.Max())];
    }
}
