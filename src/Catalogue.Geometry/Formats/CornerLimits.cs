using System.Globalization;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats;

/// <summary>What every reader refuses: coordinates no printed thing can have, and more triangles than allowed.</summary>
internal static class CornerLimits
{
    /// <summary>The largest coordinate accepted, in mm: 1000 km. Beyond it single precision is coarser than 60 mm and products overflow.</summary>
    public const double LargestMm = 1e9;

    public static double Millimetres(LengthUnit unit) => unit switch
    {
        LengthUnit.Millimetre => 1,
        LengthUnit.Micron => 0.001,
        LengthUnit.Centimetre => 10,
        LengthUnit.Inch => 25.4,
        LengthUnit.Foot => 304.8,
        LengthUnit.Metre => 1000,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "Not a length unit."),
    };

    /// <summary>The error for a coordinate that is not finite or beyond <see cref="LargestMm"/>.</summary>
    /// <param name="where">As in "in triangle 12".</param>
    public static MeshFormatException Refused(double value, string where) => double.IsFinite(value)
        ? new("too-large", string.Create(CultureInfo.InvariantCulture,
            $"The coordinate {value:R} {where} is farther out than any printable thing (limit {LargestMm:R} mm). Check the unit, or export the mesh again."))
        : new("not-finite", $"A coordinate {where} is not a finite number. Remove or repair that triangle and export the mesh again.");

    public static MeshFormatException TooMany(long triangles, int limit) => new("too-many-triangles", string.Create(CultureInfo.InvariantCulture,
        $"The file holds {triangles} triangles or more, over the limit of {limit}. Reduce the mesh and upload it again."));

    public static MeshFormatException Empty(string what) => new("empty", $"{what} Export the mesh again and check that something is selected.");

    /// <summary>The mesh in millimetres; the array of positions is changed in place.</summary>
    public static TriangleMesh InMillimetres(float[] positions, int[] indices, LengthUnit unit)
    {
        var factor = Millimetres(unit);
        if (factor != 1)
        {
            for (var i = 0; i < positions.Length; i++) positions[i] = (float)(positions[i] * factor);
        }

        return new(positions, indices);
    }
}
