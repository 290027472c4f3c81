namespace Catalogue.Geometry.Repair;

/// <summary>How far a repair may go. The defaults stay below what any process can print (practice).</summary>
public sealed record RepairOptions
{
    public static RepairOptions Default { get; } = new();

    /// <summary>Cracks up to this wide are stitched, in mm; no vertex moves farther. 0 = none.</summary>
    public double CrackMm { get; init; } = 0.02;

    /// <summary>Holes up to this long (diagonal of their box) are filled, in mm. 0 = none.</summary>
    public double HoleMm { get; init; } = 5;

    /// <summary>A hole counts as planar when its rim leaves a plane by no more than this, in mm.</summary>
    public double FlatWithinMm { get; init; } = 0.05;

    internal void Check()
    {
        foreach (var value in (ReadOnlySpan<double>)[CrackMm, HoleMm, FlatWithinMm])
            if (!(value >= 0) || !double.IsFinite(value)) throw new ArgumentException("Limits of a repair are lengths in mm, 0 or more.");
    }
}
