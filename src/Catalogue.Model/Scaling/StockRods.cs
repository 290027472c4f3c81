using Catalogue.Model.Joints;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Scaling;

/// <summary>The straight round metal rods that shops keep: they come in these diameters whatever a figure is scaled to.</summary>
public static class StockRods
{
    /// <summary>mm (common practice: metric steel and brass rod).</summary>
    public static IReadOnlyList<double> DiametersMm { get; } = [0.5, 0.6, 0.8, 1, 1.2, 1.5, 1.6, 2, 2.5, 3, 4, 5, 6, 8, 10];

    public const string Source = "diameters of metric rod as shops keep them (common practice)";

    /// <summary>A rod and a drawn one are taken as the same within this, mm: less than any fit asks.</summary>
    private const double SameMm = 0.005;

    /// <summary>The rod nearest to a diameter, by ratio; the thinner of two.</summary>
    public static double Nearest(double diameterMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameterMm);
        return DiametersMm.MinBy(d => Math.Abs(Math.Log(d / diameterMm)));
    }

    /// <summary>The thickest rod that goes into a printed hole as it is or after a few turns of a drill by hand (<see cref="RodPassage"/>); null when even the thinnest does not.</summary>
    public static RodPassage? ForHole(double holeMm, Process process, double? wallMm = null)
    {
        var fitting = DiametersMm.Select(d => RodPassage.Of(holeMm, d, process, wallMm)).Where(p => p.Passing != RodPassing.Drill).ToList();
        return fitting.Count == 0 ? null : fitting[^1];
    }

    public static bool IsStock(double diameterMm) => DiametersMm.Any(d => Math.Abs(d - diameterMm) <= SameMm);

    /// <summary>
    /// The scale at which a drawn rod becomes one that shops keep, so that hole, rod and play have the proportions they were drawn with: the nearest below a scale and the nearest
    /// above, the scale itself included in both; null where there is none within the bounds of <see cref="PrintScale"/>.
    /// </summary>
    public static (RodMatch? Below, RodMatch? Above) Matches(double drawnMm, PrintScale scale)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(drawnMm);
        var all = DiametersMm.Select(d => new RodMatch(d, 100 * d / drawnMm)).Where(m => m.Percent is >= PrintScale.LeastPercent and <= PrintScale.MostPercent).ToList();
        var near = 100 * SameMm / drawnMm;
        return (all.LastOrDefault(m => m.Percent <= scale.Percent + near), all.FirstOrDefault(m => m.Percent >= scale.Percent - near));
    }
}

/// <summary>At which scale a drawn rod is exactly a stock one.</summary>
public sealed record RodMatch(double RodMm, double Percent);
