using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Thickness;

/// <summary>What holds a thin region, the part of its outline at which thicker matter goes on, and how far the region reaches from there.</summary>
/// <remarks>
/// The outline runs along the sides of cells and is ragged, so it is taken in pieces of a few cells. Of each it is asked whether there is matter (for gaps: air)
/// a wall's thickness further on, in the middle of the wall.
/// </remarks>
/// <param name="ReachMm">Twice the mean distance of the region's area from where it is held, mm; null when it is held nowhere.</param>
/// <param name="IsNone">There is an outline, and less than a tenth of it is held.</param>
/// <param name="IsOneSided">Held from about one direction only.</param>
internal readonly record struct RegionHold(double? ReachMm, bool IsNone, bool IsOneSided)
{
    // A piece is a cube of so many longest sides of cells. At most so many pieces are asked, and so many cells measured from them.
    private const double PieceInSides = 2;
    private const int MostPieces = 2000;
    private const int MostCells = 500;

    // Held on one side when the directions it is held from add up to at least this share of the length, and hardly any run across or against the rest.
    private const double OneSidedFrom = 0.5;
    private const double AcrossAtMost = 0.25;
    private const double AcrossCosine = 0.3;
    private const double HeldShareAtLeast = 0.1;

    private readonly record struct Side(Vec3 Middle, Vec3 Outward, Vec3 Probe, double Length);

    /// <param name="measured">The cells.</param>
    /// <param name="number">The number of each cell below the ladder's last step, else −1.</param>
    /// <param name="cells">The region's cells.</param>
    /// <param name="end">Cells with a lower number are below the step.</param>
    public static RegionHold Of(LocalThickness measured, int[] number, List<(int Cell, int Triangle)> cells, int end)
    {
        var pieces = Pieces(Outline(measured, number, cells, end), PieceInSides * measured.Cells.LongestSide);
        if (pieces.Count == 0) return default;
        var stride = ((pieces.Count - 1) / MostPieces) + 1;
        var (whole, held, direction) = (0.0, 0.0, Vec3.Zero);
        var holds = new List<(Vec3 At, Vec3 Outward, double Length)>();
        for (var i = 0; i < pieces.Count; i += stride)
        {
            // Going to and fro cancels out: what is left is the piece's straight length, and the way it faces.
            var outward = pieces[i].Aggregate(Vec3.Zero, (sum, s) => sum + (s.Outward * s.Length));
            var length = outward.Length;
            whole += length;
            if (measured.Tree.Contains(pieces[i][pieces[i].Count / 2].Probe) == measured.IsGap) continue;
            holds.Add((pieces[i].Aggregate(Vec3.Zero, (sum, s) => sum + s.Middle) / pieces[i].Count, outward.Normalized(), length));
            held += length;
            direction += outward;
        }

        var mean = direction.Normalized();
        var across = holds.Where(h => Vec3.Dot(h.Outward, mean) < AcrossCosine).Sum(h => h.Length);
        var none = held < HeldShareAtLeast * whole;
        var oneSided = direction.Length > OneSidedFrom * held && across < AcrossAtMost * held;
        return new(holds.Count > 0 ? Reach(measured, cells, [.. holds.Select(h => h.At)]) : null, none, oneSided);
    }

    private static double Reach(LocalThickness measured, List<(int Cell, int Triangle)> cells, Vec3[] holds)
    {
        var stride = ((cells.Count - 1) / MostCells) + 1;
        var (area, sum) = (0.0, 0.0);
        for (var i = 0; i < cells.Count; i += stride)
        {
            var (a, b, c) = measured.Cells.Corners(cells[i].Triangle, cells[i].Cell);
            var middle = (a + b + c) / 3;
            var nearest = double.PositiveInfinity;
            foreach (var hold in holds) nearest = Math.Min(nearest, (hold - middle).LengthSquared);
            area += measured.Areas[cells[i].Cell];
            sum += measured.Areas[cells[i].Cell] * Math.Sqrt(nearest);
        }

        return 2 * sum / area;
    }

    private static IEnumerable<Side> Outline(LocalThickness measured, int[] number, List<(int Cell, int Triangle)> cells, int end)
    {
        var into = measured.IsGap ? 0.5 : -0.5;
        foreach (var (cell, triangle) in cells)
        {
            for (var side = 0; side < 3; side++)
            {
                var (other, _) = measured.Cells.Across(measured.Edges, triangle, cell, side);
                if (other >= 0 && number[other] >= 0 && number[other] < end) continue;
                var (a, b, c) = measured.Cells.Corners(triangle, cell);
                var normal = Vec3.Cross(b - a, c - a).Normalized();
                var (from, to) = side == 0 ? (a, b) : side == 1 ? (b, c) : (c, a);
                var outward = Vec3.Cross(to - from, normal).Normalized();
                var (middle, thickness) = ((from + to) * 0.5, measured.Values[cell]);
                yield return new(middle, outward, middle + (normal * (into * thickness)) + (outward * thickness), Vec3.Distance(from, to));
            }
        }
    }

    private static List<List<Side>> Pieces(IEnumerable<Side> outline, double size)
    {
        var pieces = new List<List<Side>>();
        var places = new Dictionary<(int, int, int), List<Side>>();
        foreach (var side in outline)
        {
            var place = ((int)Math.Floor(side.Middle.X / size), (int)Math.Floor(side.Middle.Y / size), (int)Math.Floor(side.Middle.Z / size));
            if (!places.TryGetValue(place, out var piece)) pieces.Add(places[place] = piece = []);
            piece.Add(side);
        }

        return pieces;
    }
}
