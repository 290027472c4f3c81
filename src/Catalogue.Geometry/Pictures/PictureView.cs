using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Pictures;

/// <summary>From where something is seen: without perspective, so that lengths compare.</summary>
/// <param name="ToCamera">Turns the scene so that x points right, y up and z towards the viewer.</param>
public readonly record struct PictureView(Rotation ToCamera)
{
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

    /// <summary>From where most of some triangles' surface is turned to the viewer, of eight sides and three heights; <see cref="ThreeQuarter"/> when there are none. What stands before it is not asked.</summary>
    public static PictureView OfMost(TriangleMesh mesh, Func<int, bool> isMeant)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(isMeant);
        PictureView[] views = [ThreeQuarter, .. from above in (int[])[16, 50, -35] from side in Enumerable.Range(0, 8) select From((45 * side) - 28, above)];
        var seen = new double[views.Length];
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            if (!isMeant(t)) continue;
            var (a, b, c) = mesh.Triangle(t);
            var facing = Vec3.Cross(b - a, c - a);
            for (var i = 0; i < views.Length; i++) seen[i] += Math.Max(0, Vec3.Dot(facing, views[i].ToCamera.RowZ));
        }

        return views[Array.IndexOf(seen, seen.Max())];
    }
}
