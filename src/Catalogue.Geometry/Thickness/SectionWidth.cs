using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Thickness;

/// <summary>
/// How wide the matter is across the direction in which it is thick: for a limb its other measure, for a wall more than asked for.
/// </summary>
internal static class SectionWidth
{
    private const int Directions = 12;

    // A chord ends at a wall that faces it within this angle; at a more grazing one the matter goes round a bend (the wall of a tube).
    private static readonly double HeadOnCosine = Math.Cos(50 * Math.PI / 180);

    /// <summary>
    /// The shortest chord through <paramref name="centre"/> across <paramref name="thick"/>, in 12 directions 15° apart and two more beside the best: at most 0.4 % too long for
    /// a straight limb. Infinite when it is <paramref name="most"/> mm or more. About 28 short rays.
    /// </summary>
    /// <param name="tree">Tree of the mesh.</param>
    /// <param name="centre">A point in the matter: the middle of a largest ball.</param>
    /// <param name="thick">The unit direction of the thickness.</param>
    /// <param name="most">Longer chords are of no interest, mm.</param>
    public static double Of(TriangleTree tree, Vec3 centre, Vec3 thick, double most)
    {
        var x = Vec3.Cross(thick, Math.Abs(thick.X) < 0.6 ? Vec3.UnitX : Vec3.UnitY).Normalized();
        var y = Vec3.Cross(thick, x);
        var (least, best) = (most, -1.0);
        for (var i = 0; i < Directions; i++) Try(i);
        if (best < 0) return double.PositiveInfinity;
        var middle = best;
        Try(middle - (1 / 3.0));
        Try(middle + (1 / 3.0));
        return least;

        void Try(double step)
        {
            var (sine, cosine) = Math.SinCos(step * Math.PI / Directions);
            var direction = (x * cosine) + (y * sine);
            var chord = Out(direction, least);
            if (chord < least) chord += Out(-direction, least - chord);
            if (chord < least) (least, best) = (chord, step);
        }

        double Out(Vec3 direction, double within)
        {
            if (tree.FirstFacing(new(centre, direction), true, within) is not { } hit) return double.PositiveInfinity;
            var (a, b, c) = tree.Mesh.Triangle(hit.Triangle);
            return Vec3.Dot(Vec3.Cross(b - a, c - a).Normalized(), direction) >= HeadOnCosine ? hit.Distance : double.PositiveInfinity;
        }
    }
}
