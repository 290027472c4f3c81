using Catalogue.Model.Costs;

namespace Catalogue.Web.Api;

/// <summary>What a figure takes on the printer asked about: estimates with the range most prints end in. mm³, grams, seconds, and the currency named.</summary>
/// <param name="Currency">ISO 4217; the host's.</param>
/// <param name="MaterialMm3">With supports and waste.</param>
/// <param name="Price">Of the material; absent where the host names no price.</param>
/// <param name="Seconds">One print after another; of the printer alone.</param>
/// <param name="TogetherSeconds">All on one plate, if they fit; absent for filament and for several processes.</param>
/// <param name="Unknown">Parts that are built and have no estimate.</param>
/// <param name="Parts">That are built: required ones, and of each choice the member taken.</param>
/// <param name="Apart">Accessories and the other members of choices: told, not counted.</param>
internal sealed record CostView(
    string Currency, EstimateView MaterialMm3, EstimateView Grams, EstimateView? Price, EstimateView Seconds, EstimateView? TogetherSeconds, int Unknown,
    IReadOnlyList<PartCostView> Parts, IReadOnlyList<PartCostView> Apart)
{
    public static CostView? Of(FigureCost? cost, string currency) => cost is null ? null : new(
        currency, EstimateView.Of(cost.MaterialMm3), EstimateView.Of(cost.Grams), EstimateView.Of(cost.Price), EstimateView.Of(cost.Seconds), EstimateView.Of(cost.TogetherSeconds),
        cost.Unknown, [.. cost.Built.Select(PartCostView.Of)], [.. cost.Apart.Select(PartCostView.Of)]);
}

/// <summary>Of one print of a part.</summary>
/// <param name="Arithmetic">How the numbers were worked out, a line each.</param>
internal sealed record PartCostView(
    string Part, string Process, int Quantity, EstimateView MaterialMm3, EstimateView Grams, EstimateView? Price, EstimateView Seconds, IReadOnlyList<string> Arithmetic)
{
    public static PartCostView Of(PartCost part) => new(part.Slug, part.Process.Code, part.Quantity, EstimateView.Of(part.One.MaterialMm3), EstimateView.Of(part.One.Grams),
        EstimateView.Of(part.One.Price), EstimateView.Of(part.One.Seconds), [.. part.One.Arithmetic.Select(a => a.ToString())]);
}

/// <param name="Value">The estimate.</param>
/// <param name="Low">Most prints take more.</param>
/// <param name="High">Most prints take less.</param>
internal sealed record EstimateView(double Value, double Low, double High)
{
    public static EstimateView Of(Estimate estimate) => new(Math.Round(estimate.Value, 4), Math.Round(estimate.Low, 4), Math.Round(estimate.High, 4));

    public static EstimateView? Of(Estimate? estimate) => estimate is { } given ? Of(given) : null;
}
