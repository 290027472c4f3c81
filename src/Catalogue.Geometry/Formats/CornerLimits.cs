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

    /// <summary>The error for a coordinate that is not finite or beyond <see cref="LargestMm"/>, in a line of a text.</summary>
    public static MeshFormatException InLine(int line, double value) => double.IsFinite(value)
        ? TooLarge($"The coordinate {value} in line {line} is farther out than any printable thing (limit {LargestMm:N0} mm). Check the unit, or export the mesh again.")
        : NotFinite($"A coordinate in line {line} is not a finite number. Remove or repair that triangle and export the mesh again.");

    /// <summary>The same in a line of one of several texts.</summary>
    public static MeshFormatException InPart(string part, int line, double value) => double.IsFinite(value)
        ? TooLarge($"The coordinate {value} in line {line} of part \"{part}\" is farther out than any printable thing (limit {LargestMm:N0} mm). Check the unit, or export the mesh again.")
        : NotFinite($"A coordinate in line {line} of part \"{part}\" is not a finite number. Remove or repair that triangle and export the mesh again.");

    /// <summary>The same in a triangle, counted from 1.</summary>
    public static MeshFormatException InTriangle(int number, double value) => double.IsFinite(value)
        ? TooLarge($"The coordinate {value} in triangle {number} is farther out than any printable thing (limit {LargestMm:N0} mm). Check the unit, or export the mesh again.")
        : NotFinite($"A coordinate in triangle {number} is not a finite number. Remove or repair that triangle and export the mesh again.");

    /// <summary>The same where it comes about by placing.</summary>
    public static MeshFormatException OncePlaced(double value) => double.IsFinite(value)
        ? TooLarge($"The coordinate {value} after the transforms of its build item is farther out than any printable thing (limit {LargestMm:N0} mm). Check the unit, or export the mesh again.")
        : NotFinite($"A coordinate after the transforms of its build item is not a finite number. Remove or repair that triangle and export the mesh again.");

    public static MeshFormatException TooMany(long triangles, int limit) => new("too-many-triangles",
        $"The file holds {triangles:N0} triangles or more, over the limit of {limit:N0}. Reduce the mesh and upload it again.");

    /// <param name="what">A sentence: what there is instead of a mesh.</param>
    public static MeshFormatException Empty(FormattableString what) => new("empty", $"{what} Export the mesh again and check that something is selected.");

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

    private static MeshFormatException TooLarge(FormattableString said) => new("too-large", said);

    private static MeshFormatException NotFinite(FormattableString said) => new("not-finite", said);
}
