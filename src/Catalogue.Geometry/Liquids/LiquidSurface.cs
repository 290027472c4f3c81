using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>What the liquid does in front of a piece of surface.</summary>
public enum LiquidTouch : byte
{
    /// <summary>It runs off.</summary>
    Free,

    /// <summary>It stays after the print: a hollow open toward the platform only.</summary>
    Pool,

    /// <summary>The film seals it while it is printed.</summary>
    Suction,

    /// <summary>No way leads out.</summary>
    Sealed,
}

/// <summary>For each triangle what liquid stands before it in a pose: where <see cref="TrappedLiquid"/> finds its pools, cups and sealed voids.</summary>
public static class LiquidSurface
{
    /// <summary>Looked at so far before the surface, in pitches of the columns; nearer the columns' own steps would answer.</summary>
    private const double Before = 0.75;

    /// <param name="mesh">Closed, facing outward.</param>
    /// <param name="rotation">From the file's pose to the one it is printed in, the platform at its lowest z.</param>
    /// <returns>One for each triangle, told at its middle: a triangle across a pool's rim counts as its middle does. As exact as the columns (0.1 to 0.25 mm). O(m + columns).</returns>
    public static LiquidTouch[] Of(TriangleMesh mesh, Rotation rotation, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var columns = SolidColumns.Of(mesh, rotation, TrappedLiquid.PitchFor(mesh), cancel: cancel);
        var pose = LiquidInPose.Of(columns, cancel);
        var touches = new LiquidTouch[mesh.TriangleCount];
        for (var t = 0; t < touches.Length; t++)
        {
            if (t % 8192 == 0) cancel.ThrowIfCancellationRequested();
            var (a, b, c) = mesh.Triangle(t);
            var normal = Vec3.Cross(b - a, c - a).Normalized();
            var p = columns.InPose(((a + b + c) / 3) + (normal * (Before * columns.PitchMm)));
            var (i, j) = columns.Nearest(p.X, p.Y);
            if (i >= 0 && j >= 0 && i < columns.Width && j < columns.Depth) touches[t] = pose.TouchAt((j * columns.Width) + i, p.Z);
        }

        return touches;
    }
}
