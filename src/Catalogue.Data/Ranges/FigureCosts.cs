using Catalogue.Model.Costs;
using Catalogue.Model.Figures;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>What a figure takes in material, money and time, worked out from stored measurements.</summary>
internal static class FigureCosts
{
    /// <summary>On the printer asked about; null without one.</summary>
    public static FigureCost? Of(FigureAnswer answer)
    {
        if (answer.Asked is not { } asked) return null;
        var (process, pace) = (asked.Process, answer.Printer.PaceOn(asked.Process.Code));
        var built = answer.Built.ToList();
        PartCost? Cost(PartAnswer part) => part.Chosen is { } chosen ? CostOf(part.Part, chosen, process, pace, answer.Printer.Volume) : null;
        return Gathered(built.Select(Cost), answer.Parts.Except(built).Select(Cost));
    }

    /// <summary>With several printers; null where they do not help.</summary>
    public static FigureCost? OfMixed(FigureAnswer answer)
    {
        if (answer.Mixed is not { } mixed) return null;
        PartCost? Cost(MixedPart placed)
        {
            var printer = mixed.Printers[placed.Printer];
            var part = answer.Parts.FirstOrDefault(p => p.Part.Id == placed.Part.Part.PartId);
            var variant = part?.Variants.FirstOrDefault(v => v.Variant.Id == placed.Part.Chosen?.VariantId);
            return variant is not null && answer.Snapshot.Process(printer.Process!) is { } process
                ? CostOf(part!.Part, variant, process, printer.PaceOn(process.Code), printer.Volume)
                : null;
        }

        var parts = mixed.Build.Parts.ToLookup(p => p.Part.Part.Role == PartRole.Optional);
        return Gathered(parts[false].Select(Cost), parts[true].Select(Cost));
    }

    /// <summary>What the material of all parts that are built costs, from what the index holds: supports apart. Null where the host names no price, or a part is not measured yet.</summary>
    public static double? MaterialOf(IndexedFigure figure, FigureVerdict verdict, Model.Processes.Process process)
    {
        var variants = figure.Parts.SelectMany(p => p.Variants.Select(v => (v.Id, Part: p, Variant: v))).ToDictionary(v => v.Id);
        var sum = 0.0;
        foreach (var built in verdict.Built)
        {
            if (built.Chosen is not { } chosen || !variants.TryGetValue(chosen.VariantId, out var found) || !found.Variant.IsMeasured) return null;
            if (PrintCost.MaterialPrice(new(found.Variant.VolumeMm3, found.Variant.AreaMm2, found.Variant.Size.Z, 0), process) is not { } price) return null;
            sum += price * found.Part.Quantity;
        }

        return sum;
    }

    private static FigureCost Gathered(IEnumerable<PartCost?> built, IEnumerable<PartCost?> apart)
    {
        var counted = built.ToList();
        return new([.. counted.OfType<PartCost>()], [.. apart.OfType<PartCost>()], counted.Count(c => c is null));
    }

    private static PartCost? CostOf(IndexedPart part, VariantAnswer variant, Model.Processes.Process process, PrinterPace pace, Geometry.Fit.BuildVolume? volume) =>
        variant.Variant.IsMeasured && PrintShape.Of(variant.Revision.Inspection.Facts, process, volume, variant.Fit) is { } shape
        && PrintCost.Of(shape, process, pace) is { } cost
            ? new(part.Id, part.Slug, part.Name, part.Quantity, process, cost)
            : null;
}
