namespace Catalogue.Demo.Contouring;

/// <summary>How finely a shape is turned into triangles.</summary>
internal sealed record ContourSettings
{
    public static ContourSettings Default { get; } = new();

    /// <summary>Cells are never smaller than this, mm.</summary>
    public double Finest { get; init; } = 0.25;

    /// <summary>
    /// Cells that hold surface are never larger than this many times <see cref="Finest"/> (a power of two). Walls, rods and gaps have to be
    /// thicker than about 0.7 of that size or they may be missed.
    /// </summary>
    public int CoarsestInFinest { get; init; } = 4;

    /// <summary>A cell is divided while flat triangles across it would be further than this from the surface, mm.</summary>
    public double Tolerance { get; init; } = 0.025;
}
