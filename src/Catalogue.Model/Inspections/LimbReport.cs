using Catalogue.Geometry.Limbs;

namespace Catalogue.Model.Inspections;

/// <summary>A limb, as reports say it.</summary>
/// <param name="Pushed">Where a push at the tip strains it most.</param>
/// <param name="Dropped">Where its own mass strains it most in a fall.</param>
public sealed record LimbReport(double[] Tip, LimbSectionReport Pushed, LimbSectionReport Dropped)
{
    public static LimbReport Of(Limb limb)
    {
        ArgumentNullException.ThrowIfNull(limb);
        return new(HoleReport.Numbers(limb.Tip), LimbSectionReport.Of(limb.Pushed), LimbSectionReport.Of(limb.Dropped));
    }
}

/// <param name="ThicknessMm">Across the axis the section is weakest about.</param>
/// <param name="ModulusMm3">Section modulus about that axis.</param>
/// <param name="LeverMm">To the tip.</param>
/// <param name="BeyondLeverMm">To the centroid of what is beyond.</param>
public sealed record LimbSectionReport(
    double[] At, double ThicknessMm, double AreaMm2, double SecondMomentMm4, double ModulusMm3, double LeverMm, double BeyondMm3, double BeyondLeverMm)
{
    public static LimbSectionReport Of(LimbSection section)
    {
        ArgumentNullException.ThrowIfNull(section);
        return new(
            HoleReport.Numbers(section.At), HoleReport.Tidy(section.ThicknessMm), HoleReport.Tidy(section.AreaMm2), HoleReport.Tidy(section.SecondMomentMm4),
            HoleReport.Tidy(section.ModulusMm3), HoleReport.Tidy(section.LeverMm), HoleReport.Tidy(section.BeyondMm3), HoleReport.Tidy(section.BeyondLeverMm));
    }
}
