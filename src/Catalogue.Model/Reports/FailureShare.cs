namespace Catalogue.Model.Reports;

/// <summary>How often a print fails, from what was reported, with the interval in which the true share lies with 95 %.</summary>
/// <remarks>
/// Wilson's score interval: (p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) ÷ (1 + z²/n). Right for few reports too, where one failure of one says next to nothing.
/// </remarks>
public readonly record struct FailureShare(int Failed, int Total)
{
    /// <summary>Two-sided 95 % of the normal distribution.</summary>
    private const double Z = 1.959964;

    /// <summary>Fewer reports accuse nobody (our own bound).</summary>
    public const int FewestReports = 3;

    /// <summary>
    /// A part asks for care when its share of failures is surely above this: one in five (our own bound). Half of what fails in an open studio over all (41 %,
    /// “Causes of Desktop FDM Fabrication Failures in an Open Studio Environment”), since reports are of parts, not of printers that were out of order.
    /// </summary>
    public const double CareAbove = 0.2;

    public double Low => Bound(-1);

    public double High => Bound(1);

    public bool AsksForCare => Total >= FewestReports && Low > CareAbove;

    private double Bound(int side)
    {
        if (Total == 0) return side < 0 ? 0 : 1;
        double n = Total, p = Failed / n, z2 = Z * Z;
        var middle = (p + (z2 / (2 * n))) / (1 + (z2 / n));
        var half = Z / (1 + (z2 / n)) * Math.Sqrt((p * (1 - p) / n) + (z2 / (4 * n * n)));
        return Math.Clamp(middle + (side * half), 0, 1);
    }
}
