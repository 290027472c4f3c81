using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Catalogue.Model.Costs;
using Catalogue.Model.Figures;
using Catalogue.Model.Printers;

namespace Catalogue.Data.Ranges;

/// <summary>
/// The hours that a printer is busy with each figure of a snapshot: required parts and of every choice the quickest member, as their files lie, of several files for a process the
/// quickest, supports apart. Filament prints them one after another; where time goes by layers all are on one plate. <see cref="FigureCosts"/> knows more of one figure: supports, and the pose a part fits the printer in.
/// </summary>
internal static class PrintHours
{
    /// <summary>Printers whose hours are kept with a snapshot.</summary>
    private const int Kept = 32;

    private static readonly ConditionalWeakTable<RangeSnapshot, ConcurrentDictionary<(string Process, PrinterPace Pace), float[]>> Known = [];

    /// <summary>In the order of the snapshot's figures, NaN where it is not known; null without a process, or where it has no rates.</summary>
    public static float[]? Of(RangeSnapshot snapshot, Printer printer)
    {
        if (printer.Process is not { } code || snapshot.Process(code) is not { } process) return null;
        var pace = printer.PaceOn(code);
        if (PrintClock.Of(process, pace) is not { } clock) return null;
        var known = Known.GetOrCreateValue(snapshot);
        if (known.Count >= Kept) known.Clear();
        return known.GetOrAdd((code, pace), _ => [.. snapshot.Figures.Select(f => (float)(Seconds(f, code, clock) / 3600))]);
    }

    private static double Seconds(IndexedFigure figure, string process, PrintClock clock)
    {
        // By layers only heights count: the tallest is asked for once.
        var (sum, tallest) = (0.0, 0.0);
        Dictionary<Guid, double>? choices = null;
        foreach (var part in figure.Parts)
        {
            if (part.Role == PartRole.Optional) continue;
            var least = double.PositiveInfinity;
            foreach (var variant in part.Variants)
            {
                if (!variant.IsMeasured || !(variant.VolumeMm3 > 0) || !variant.MadeFor.Contains(process)) continue;
                least = Math.Min(least, clock.ByLayers ? variant.Size.Z : clock.Seconds(new(variant.VolumeMm3, variant.AreaMm2, variant.Size.Z, 0)));
            }

            if (!clock.ByLayers) least *= part.Quantity;
            if (part.ChoiceId is { } choice)
            {
                choices ??= [];
                choices[choice] = Math.Min(choices.GetValueOrDefault(choice, double.PositiveInfinity), least);
            }
            else
            {
                Add(least);
            }
        }

        foreach (var least in choices?.Values ?? Enumerable.Empty<double>()) Add(least);

        return !(sum > 0) || double.IsInfinity(sum) ? double.NaN : clock.ByLayers ? clock.Seconds(new(0, 0, tallest, 0)) : sum;

        void Add(double least) => (sum, tallest) = (sum + least, Math.Max(tallest, least));
    }
}
