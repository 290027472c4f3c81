using Catalogue.Model.Processes;

namespace Catalogue.Model.Costs;

/// <summary>A part of a figure with what it takes.</summary>
/// <param name="One">A single print of it.</param>
/// <param name="Quantity">How many of it one figure has.</param>
public sealed record PartCost(Guid PartId, string Slug, string Name, int Quantity, Process Process, PrintCost One)
{
    public Estimate MaterialMm3 => One.MaterialMm3 * Quantity;
    public Estimate Grams => One.Grams * Quantity;
    public Estimate? Price => One.Price is { } price ? price * Quantity : null;
    public Estimate Seconds => One.Seconds * Quantity;
}

/// <summary>What a figure takes: the parts that are built, added up, and the others apart.</summary>
/// <param name="Built">Required parts, and of each choice the member that is taken.</param>
/// <param name="Apart">Accessories and the other members of choices: told, not counted.</param>
/// <param name="Unknown">How many parts that are built have no estimate, because no file is made for the printer or it is not sound.</param>
public sealed record FigureCost(IReadOnlyList<PartCost> Built, IReadOnlyList<PartCost> Apart, int Unknown)
{
    public Estimate MaterialMm3 => Sum(p => p.MaterialMm3);
    public Estimate Grams => Sum(p => p.Grams);

    /// <summary>Null when the price of a material is not known.</summary>
    public Estimate? Price => Built.Count > 0 && Built.All(p => p.Price is not null) ? Sum(p => p.Price!.Value) : null;

    /// <summary>One print after another.</summary>
    public Estimate Seconds => Sum(p => p.Seconds);

    /// <summary>
    /// All on one plate, if they fit on it: where time goes by layers it takes as long as the tallest. Null for filament, which takes as long together as one by one, and for parts from several processes.
    /// </summary>
    public Estimate? TogetherSeconds => Built.Sum(p => p.Quantity) > 1 && Built.Select(p => p.Process.Code).Distinct().Count() == 1 && ProcessCode.Category(Built[0].Process.Code) != "MEX"
        ? Built.Select(p => p.One.Seconds).Aggregate(Estimate.Larger)
        : null;

    private Estimate Sum(Func<PartCost, Estimate> of) => Built.Select(of).Aggregate(Estimate.Zero, (sum, e) => sum + e);
}
