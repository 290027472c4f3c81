using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Ranges;

namespace Catalogue.Data.Ranges;

/// <summary>All published figures at one moment, ordered by title. Immutable: a request works on one from beginning to end.</summary>
public sealed record RangeSnapshot(
    long Revision, long JudgementRevision, IReadOnlyList<IndexedFigure> Figures, IReadOnlyDictionary<string, IndexedFigure> BySlug,
    IReadOnlyList<Process> Processes)
{
    /// <summary>What prices are in, a code of ISO 4217.</summary>
    public string Currency { get; init; } = RangePromise.UsualCurrency;

    /// <summary>The words that the figures' texts are made of.</summary>
    internal Vocabulary Vocabulary { get; init; } = new();

    public Process? Process(string code) => Processes.FirstOrDefault(p => p.Code == code);

    /// <summary>A process's place in <see cref="Processes"/>; −1 for one that is not there.</summary>
    internal int PlaceOf(string process)
    {
        for (var i = 0; i < Processes.Count; i++)
            if (Processes[i].Code == process) return i;
        return -1;
    }

    /// <exception cref="RuleBrokenException"><c>process-unknown</c>: the printer names a process that this catalogue does not have.</exception>
    public void CheckKnown(Printer printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        if (printer.Process is { } process && Process(process) is null)
        {
            throw new RuleBrokenException("process-unknown",
                $"This catalogue has no process “{process}”. It has {string.Join(", ", Processes.Select(p => p.Code))}. Choose one of these.");
        }
    }
}
