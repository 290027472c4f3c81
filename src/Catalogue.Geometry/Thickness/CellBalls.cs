using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Thickness;

/// <summary>Finds the ball, and the section's width, at the cells of one block of neighbouring triangles. Used by one thread.</summary>
/// <remarks>
/// A cell within <c>patch</c> of one that is measured already takes its answer: where the matter is thin (below 3 mm, or thin beside the patch), only from one in nearly the
/// same plane, corrected by the plane of the wall that one's ball touched; where it is thick, from farther (a twelfth of the thickness,
/// at most four patches), and also from one that looks a little elsewhere, because an error of the patch's size matters little there. The width, which varies slowly, is taken
/// from within two patches as well.
/// </remarks>
internal sealed class CellBalls(
    TriangleTree tree, SurfaceCells cells, EdgeAdjacency edges, bool isGap, double maxRadius, double limbsBelow, double patch, CancellationToken cancel)
{
    // Cells measured lately among which one close by is looked for; cells come in an order that runs along the surface.
    private const int Recent = 48;

    private const double SamePlane = 0.995;
    private const double SameSide = 0.9;
    private const double ThickInPatches = 6;
    private const double ThickFrom = 3;

    // How far from where it was measured a thickness is taken: a twelfth of itself, at least a patch, at most four.
    private const double ThicknessInReach = 12;
    private const double WidestPatch = 4;

    // Steeper from one middle to the other than this is a step to another layer.
    private const double MostRise = 0.3;

    private readonly List<Measured> _measured = [];
    private readonly List<(Vec3 Middle, Vec3 Normal, float Width)> _widths = [];
    private readonly double _side = isGap ? 1 : -1;

    /// <summary>What was measured at a cell: its middle and normal, the ball's diameter, the wall it touches.</summary>
    private readonly record struct Measured(Vec3 Middle, Vec3 Normal, double Value, int Opposite, Vec3 WallNormal, double WallOffset);

    /// <summary>Fills in the cells of a triangle.</summary>
    public void Triangle(int triangle, float[] values, int[] opposites, float[] areas, float[] widths)
    {
        var normals = new FacetNormals(tree.Mesh, edges, triangle);
        var (first, end) = cells.CellsOf(triangle);
        for (var cell = first; cell < end; cell++)
        {
            (values[cell], opposites[cell]) = (float.PositiveInfinity, -1);
            if (widths.Length > 0) widths[cell] = float.PositiveInfinity;
            if (!(normals.DoubledArea > 0)) continue;
            if (((cell - first) & 0xff) == 0xff) cancel.ThrowIfCancellationRequested();
            var corners = cells.Corners(triangle, cell);
            areas[cell] = (float)SurfaceCells.Area(corners);
            var middle = (corners.A + corners.B + corners.C) / 3;
            var normal = normals.At(cells.MiddleWeights(triangle, cell));
            (values[cell], opposites[cell]) = FromNeighbour(middle, normal) ?? Measure(middle, normal);
            if (widths.Length > 0 && values[cell] < limbsBelow) widths[cell] = Width(middle, normal, values[cell]);
        }
    }

    private (float Value, int Opposite) Measure(Vec3 middle, Vec3 normal)
    {
        if (tree.LargestBall(middle, normal, !isGap, maxRadius) is not { } ball)
        {
            _measured.Add(new(middle, normal, double.PositiveInfinity, -1, default, 0));
            return (float.PositiveInfinity, -1);
        }

        var wall = tree.Mesh.Triangle(ball.Triangle);
        var wallNormal = Vec3.Cross(wall.B - wall.A, wall.C - wall.A).Normalized();
        var opposite = cells.Locate(ball.Triangle, Weights(wall, ball.Contact));
        _measured.Add(new(middle, normal, 2 * ball.Radius, opposite, wallNormal, Vec3.Dot(wallNormal, ball.Contact)));
        return ((float)(2 * ball.Radius), opposite);
    }

    private (float Value, int Opposite)? FromNeighbour(Vec3 middle, Vec3 normal)
    {
        for (var i = _measured.Count - 1; i >= Math.Max(0, _measured.Count - Recent); i--)
        {
            var m = _measured[i];
            var apart = middle - m.Middle;
            var thick = m.Opposite >= 0 && m.Value > Math.Max(ThickInPatches * patch, ThickFrom);
            var within = thick ? Math.Clamp(m.Value / ThicknessInReach, patch, WidestPatch * patch) : patch;
            if (apart.LengthSquared > within * within || Math.Abs(Vec3.Dot(apart, m.Normal)) > MostRise * apart.Length) continue;
            if (Vec3.Dot(m.Normal, normal) < (thick ? SameSide : SamePlane)) continue;
            if (m.Opposite < 0) return (float.PositiveInfinity, -1);

            // Radius r with the centre p + r d at distance r before the plane: (offset − w · p) / (w · d + 1) for matter, mirrored for gaps.
            var (into, wall, offset) = (normal * _side, m.WallNormal * -_side, m.WallOffset * -_side);
            var value = 2 * (offset - Vec3.Dot(wall, middle)) / (Vec3.Dot(wall, into) + 1);
            if (Math.Abs(value - m.Value) < 0.1 * m.Value) return ((float)value, m.Opposite);
            if (thick) return ((float)m.Value, m.Opposite);
        }

        return null;
    }

    private float Width(Vec3 middle, Vec3 normal, double thickness)
    {
        for (var i = _widths.Count - 1; i >= Math.Max(0, _widths.Count - Recent); i--)
        {
            if ((_widths[i].Middle - middle).LengthSquared < 4 * patch * patch && Vec3.Dot(_widths[i].Normal, normal) > SameSide)
                return Math.Max(_widths[i].Width, (float)thickness);
        }

        var chord = (float)SectionWidth.Of(tree, middle - (normal * (thickness / 2)), normal, limbsBelow);
        _widths.Add((middle, normal, chord));
        return Math.Max(chord, (float)thickness);
    }

    /// <summary>The weights of a triangle's corners that make up a point of its plane.</summary>
    private static Vec3 Weights((Vec3 A, Vec3 B, Vec3 C) t, Vec3 p)
    {
        var (ab, ac, ap) = (t.B - t.A, t.C - t.A, p - t.A);
        var n = Vec3.Cross(ab, ac);
        var v = Vec3.Dot(Vec3.Cross(ap, ac), n) / n.LengthSquared;
        var w = Vec3.Dot(Vec3.Cross(ab, ap), n) / n.LengthSquared;
        return new(1 - v - w, v, w);
    }
}
