namespace Catalogue.Geometry.Spatial;

/// <summary>Tells of a piece of work as a part of a larger one.</summary>
/// <param name="Whole">Told the share of the larger work; may be null.</param>
/// <param name="From">The share done when this piece begins.</param>
/// <param name="To">The share done when it ends.</param>
internal readonly record struct ProgressPart(IProgress<double>? Whole, double From, double To)
{
    /// <param name="share">Of this piece.</param>
    public void Report(double share) => Whole?.Report(From + ((To - From) * share));

    public ProgressPart Part(double from, double to) => new(Whole, From + ((To - From) * from), From + ((To - From) * to));
}
