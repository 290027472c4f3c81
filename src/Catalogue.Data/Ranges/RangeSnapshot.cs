using System.Collections.Frozen;
using Catalogue.Model.Processes;

namespace Catalogue.Data.Ranges;

/// <summary>All published figures at one moment, ordered by title. Immutable: a request works on one from beginning to end.</summary>
public sealed record RangeSnapshot(
    long Revision, long JudgementRevision, IReadOnlyList<IndexedFigure> Figures, FrozenDictionary<string, IndexedFigure> BySlug,
    IReadOnlyList<Process> Processes)
{
    public Process? Process(string code) => Processes.FirstOrDefault(p => p.Code == code);
}
