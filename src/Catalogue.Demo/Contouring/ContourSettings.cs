namespace Catalogue.Demo.Contouring;

/// <summary>How finely a shape is turned into triangles. Sizes are steps of two from one another.</summary>
internal sealed record ContourSettings
{
    public static ContourSettings Default { get; } = new();

    /// <summary>For large soft shapes without thin walls.</summary>
    public static ContourSettings Broad { get; } = new() { Coarsest = 2.4, Tolerance = 0.08 };

    /// <summary>For rods and walls of about 1 mm and grooves of 0.5 mm.</summary>
    public static ContourSettings Thin { get; } = new() { Coarsest = 0.6, Sharp = 0.15, Tolerance = 0.03 };

    /// <summary>For large shapes with much coarse detail and no pin holes.</summary>
    public static ContourSettings Rough { get; } = new() { Sharp = 0.6, Finest = 0.3, Tolerance = 0.1 };

    /// <summary>
    /// Cells that hold surface are never larger than this, mm. Walls, rods and holes thinner than about half of it may be missed.
    /// </summary>
    public double Coarsest { get; init; } = 1.2;

    /// <summary>A cell is divided while flat triangles across it would be further from the surface than this, mm.</summary>
    public double Tolerance { get; init; } = 0.05;

    /// <summary>Cells on smooth surface or on a sharp edge are not divided below this, mm.</summary>
    public double Sharp { get; init; } = 0.3;

    /// <summary>Only curves too tight for <see cref="Sharp"/> cells go down to this, mm: a pin hole of 1.7 mm becomes round to 0.03 mm.</summary>
    public double Finest { get; init; } = 0.15;

    internal int CoarsestInFinest => InFinest(Coarsest);

    internal int SharpInFinest => InFinest(Sharp);

    private int InFinest(double size) => 1 << (int)Math.Round(Math.Log2(size / Finest));
}
