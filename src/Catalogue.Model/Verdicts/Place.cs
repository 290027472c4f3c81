using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Verdicts;

internal static class Place
{
    /// <summary>A place on a part in the file’s own coordinates, mm. A text, because where a comma is the decimal sign something else has to part the numbers.</summary>
    public static Sentence Of(Vec3 at) => $"({at.X:0.0}, {at.Y:0.0}, {at.Z:0.0})";
}
