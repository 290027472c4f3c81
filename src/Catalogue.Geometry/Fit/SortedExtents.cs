using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>Three lengths in ascending order (mm): the extents of a hull in some rotation, or bounds of them.</summary>
internal readonly record struct SortedExtents(double Small, double Middle, double Large)
{
    public static SortedExtents Of(Vec3 v) => Of(v.X, v.Y, v.Z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static SortedExtents Of(double a, double b, double c)
    {
        var (low, high) = a < b ? (a, b) : (b, a);
        return c <= low ? new(c, low, high) : c >= high ? new(low, high, c) : new(low, c, high);
    }

    public double Volume => Small * Middle * Large;

    /// <summary>The smallest of what <paramref name="room"/> leaves on the three axes; negative when it is too small on one.</summary>
    public double MarginIn(SortedExtents room) =>
        Math.Min(room.Small - Small, Math.Min(room.Middle - Middle, room.Large - Large));
}
