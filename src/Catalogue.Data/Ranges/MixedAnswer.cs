using Catalogue.Model.Costs;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>How a figure is built with more than one printer.</summary>
/// <param name="Build">Which part goes where.</param>
/// <param name="Printers">Those that the build's numbers mean.</param>
public sealed record MixedAnswer(MixedBuild Build, IReadOnlyList<Printer> Printers)
{
    /// <summary>The printers that are used, each with its parts.</summary>
    public IEnumerable<(Printer Printer, IReadOnlyList<PartVerdict> Parts)> ByPrinter =>
        Build.Parts.GroupBy(p => p.Printer).OrderBy(g => g.Key).Select(g => (Printers[g.Key], (IReadOnlyList<PartVerdict>)[.. g.Select(p => p.Part)]));

    /// <summary>The best build with the printers given; null when there is none. Printers without a process are left out; at most <see cref="MixedBuild.MostPrinters"/> count.</summary>
    /// <param name="judge">The figure's verdict on a printer alone.</param>
    internal static async Task<MixedAnswer?> OfAsync(
        RangeSnapshot snapshot, IndexedFigure figure, IEnumerable<Printer> printers, Func<Printer, Task<FigureVerdict>> judge)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(figure);
        var known = printers.Where(p => p.Process is { } code && snapshot.Process(code) is not null).Distinct().Take(MixedBuild.MostPrinters).ToList();
        var cases = new List<PrinterCase>(known.Count);
        foreach (var printer in known)
        {
            var verdict = await judge(printer);
            cases.Add(new(printer, verdict, Costs(figure, verdict, snapshot.Process(printer.Process!)!)));
        }

        var joints = figure.Joints.Select(j => new MixedJoint(j.FirstPartId, j.SecondPartId, j.Verdicts)
        {
            StrainedPartId = j.StrainedPartId,
        }).ToList();
        return cases.Count > 0 && MixedBuild.Of(cases, joints) is { } build ? new(build, known) : null;
    }

    /// <summary>What a visitor with one printer could do as well: another material of the same category in the same volume, such as another resin in the same vat.</summary>
    public static IEnumerable<Printer> Thinkable(RangeSnapshot snapshot, Printer printer)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(printer);
        if (printer.Process is not { } own) return [];
        var category = ProcessCode.Category(own);
        return snapshot.Processes.Where(p => p.Code != own && ProcessCode.Category(p.Code) == category).Select(p => printer with { Process = p.Code }).Prepend(printer);
    }

    /// <summary>What the material of all pieces of a part costs, from what the index holds: the supports are left out, which differ little between printers.</summary>
    private static Dictionary<Guid, double> Costs(IndexedFigure figure, FigureVerdict verdict, Process process)
    {
        var costs = new Dictionary<Guid, double>();
        foreach (var part in figure.Parts)
        {
            var chosen = verdict.Parts.FirstOrDefault(p => p.Part.PartId == part.Id)?.Chosen?.VariantId;
            if (part.Variants.FirstOrDefault(v => v.Id == chosen) is { } variant)
                costs[part.Id] = PrintCost.ToCompare(new(variant.VolumeMm3, variant.AreaMm2, variant.Size.Z, 0), process) * part.Quantity;
        }

        return costs;
    }
}
