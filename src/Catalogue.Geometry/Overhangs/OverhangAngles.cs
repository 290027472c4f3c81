using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Overhangs;

/// <summary>For each triangle how much it hangs over in a pose, in degrees from the vertical (see <see cref="OverhangMeasures"/> for the convention).</summary>
public static class OverhangAngles
{
    /// <summary>The triangle lies on the plate.</summary>
    public const float Resting = float.PositiveInfinity;

    /// <param name="rotation">From the file's pose to the printer's.</param>
    /// <returns>One for each triangle: 0 for what faces up or is upright, up to 90 for a level underside, <see cref="Resting"/> for what is wholly on the plate. O(m).</returns>
    public static float[] Of(TriangleMesh mesh, Rotation rotation)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var up = rotation.RowZ;
        var plate = double.PositiveInfinity;
        foreach (var v in mesh.Indices) plate = Math.Min(plate, Vec3.Dot(up, mesh.Vertex(v)));
        var angles = new float[mesh.TriangleCount];
        for (var t = 0; t < angles.Length; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            var cross = Vec3.Cross(b - a, c - a);
            var down = -Vec3.Dot(up, cross);
            if (!(down > 0)) continue;
            var highest = Math.Max(Vec3.Dot(up, a), Math.Max(Vec3.Dot(up, b), Vec3.Dot(up, c)));
            angles[t] = highest - plate <= OverhangMeasures.RestingMm ? Resting : (float)(Math.Asin(Math.Min(1, down / cross.Length)) * (180 / Math.PI));
        }

        return angles;
    }
}
