using Catalogue.Geometry.Health;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Thickness;

/// <summary>What a region of thin cells is like: how thin, how far it reaches from its hold, what holds it.</summary>
internal sealed class RegionShape(LocalThickness measured, float[] values, int[] number)
{
    // The middle one of the three principal values of the normals: 0 for a plane, 0.15 for a bend of about 80°, 0.5 for a tube.
    private const double BentFrom = 0.15;

    // A limb, not a bent wall, when the section is no wider than so many times its thickness for half of the area.
    private const double LimbWidths = 3;

    // Of matter the edge of a blade, nought to the limit evenly, has 0.2; a crease may have a flat bottom and still close.
    private const double TaperedMatter = 0.4;
    private const double TaperedGap = 0.6;

    private readonly Lazy<int[]> _shells = new(() => ShellLabels.Of(measured.Cells.Mesh, measured.Edges).ShellOf);

    /// <param name="cells">The region's cells.</param>
    /// <param name="end">Cells with a lower number are below the step.</param>
    /// <param name="area">Their area, mm².</param>
    public ThinRegion Describe(List<(int Cell, int Triangle)> cells, int end, double area)
    {
        var (least, tenth, typical) = Shares(cells, area);
        var (a, b, c) = measured.Cells.Corners(least.Triangle, least.Cell);
        var at = (a + b + c) / 3;
        var hold = RegionHold.Of(measured, number, cells, end);
        return new()
        {
            MinMm = Rounded(values[least.Cell]),
            TypicalMm = Rounded(typical),
            AreaMm2 = Rounded(area),
            At = new(Rounded(at.X), Rounded(at.Y), Rounded(at.Z)),
            ReachMm = Rounded(hold.ReachMm ?? Math.Sqrt(area / 2)),
            Tapers = tenth < (measured.IsGap ? TaperedGap : TaperedMatter) * typical,
            FreeStanding = !measured.IsGap && (hold.IsNone || (hold.IsOneSided && !IsBent(cells))),
            BetweenPieces = measured.IsGap && IsBetweenPieces(cells),
        };
    }

    /// <summary>To 0.1 µm: these numbers are stored as text.</summary>
    private static double Rounded(double value) => Math.Round(value, 4);

    private ((int Cell, int Triangle) Least, double Tenth, double Typical) Shares(List<(int Cell, int Triangle)> cells, double area)
    {
        var sorted = cells.ToArray();
        Array.Sort([.. cells.Select(c => values[c.Cell])], sorted);
        var sum = 0.0;
        ((int, int)? least, double? tenth) = (null, null);
        foreach (var cell in sorted)
        {
            sum += measured.Areas[cell.Cell];
            if (sum >= Math.Min(Math.Max(LocalThickness.SpeckMm2, area / 100), area / 10)) least ??= cell;
            if (sum >= 0.1 * area) tenth ??= values[cell.Cell];
            if (sum >= 0.5 * area) return (least ?? cell, tenth ?? values[cell.Cell], values[cell.Cell]);
        }

        return (least ?? sorted[^1], tenth ?? values[sorted[^1].Cell], values[sorted[^1].Cell]);
    }

    private static (Vec3 A, Vec3 B, Vec3 C, Vec3 Normal) WithNormal((Vec3 A, Vec3 B, Vec3 C) t) =>
        (t.A, t.B, t.C, Vec3.Cross(t.B - t.A, t.C - t.A).Normalized());

    /// <summary>Whether the wall is bent so far that it stiffens itself; a limb is round but not bent.</summary>
    private bool IsBent(List<(int Cell, int Triangle)> cells)
    {
        double xx = 0, yy = 0, zz = 0, xy = 0, yz = 0, zx = 0, total = 0, limb = 0;
        foreach (var (cell, triangle) in cells)
        {
            var (n, area) = (WithNormal(measured.Cells.Corners(triangle, cell)).Normal, measured.Areas[cell]);
            xx += area * n.X * n.X;
            yy += area * n.Y * n.Y;
            zz += area * n.Z * n.Z;
            xy += area * n.X * n.Y;
            yz += area * n.Y * n.Z;
            zx += area * n.Z * n.X;
            total += area;
            if (measured.Widths.Length > 0 && measured.Widths[cell] <= LimbWidths * measured.Values[cell]) limb += area;
        }

        return limb < total / 2 && MiddleEigenvalue(xx / total, yy / total, zz / total, xy / total, yz / total, zx / total) > BentFrom;
    }

    /// <summary>The middle eigenvalue of a symmetric 3 × 3 matrix: three times its mean less the two others, by the trigonometric solution of the cubic.</summary>
    private static double MiddleEigenvalue(double xx, double yy, double zz, double xy, double yz, double zx)
    {
        var mean = (xx + yy + zz) / 3;
        var (dx, dy, dz) = (xx - mean, yy - mean, zz - mean);
        var spread = Math.Sqrt(((dx * dx) + (dy * dy) + (dz * dz) + (2 * ((xy * xy) + (yz * yz) + (zx * zx)))) / 6);
        if (spread < 1e-12) return mean;
        var determinant = (dx * ((dy * dz) - (yz * yz))) - (xy * ((xy * dz) - (yz * zx))) + (zx * ((xy * yz) - (dy * zx)));
        var angle = Math.Acos(Math.Clamp(determinant / (2 * spread * spread * spread), -1, 1)) / 3;
        var most = mean + (2 * spread * Math.Cos(angle));
        var least = mean + (2 * spread * Math.Cos(angle + (2 * Math.PI / 3)));
        return (3 * mean) - most - least;
    }

    private bool IsBetweenPieces(List<(int Cell, int Triangle)> cells)
    {
        var shells = _shells.Value;
        var first = shells[cells[0].Triangle];
        return cells.Exists(c => shells[c.Triangle] != first);
    }
}
