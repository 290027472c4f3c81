using Catalogue.Data.Ranges;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Matrix;

/// <summary>How much of the range is reached in a build volume: by process, and of its promise.</summary>
/// <param name="Kept">Figures that suit, with or without care, on every promised process.</param>
/// <param name="Open">Figures with a part so close to the limit that only a long search can tell: not counted where that matters. Asking again settles more; a small range has none.</param>
internal sealed record MatrixCoverage(int Total, int Kept, int Open, IReadOnlyList<string> Promised, IReadOnlyList<ProcessCoverage> Processes)
{
    public static MatrixCoverage Of(RangeMatrix matrix, RangePromise promise)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(promise);
        return new(matrix.InRange, matrix.Kept, matrix.Open, promise.Processes, [.. matrix.Processes.Select((code, column) =>
        {
            int Count(Verdict verdict) => matrix.Counts[column].GetValueOrDefault(verdict);
            return new ProcessCoverage(code, promise.Processes.Contains(code), Count(Verdict.Suits), Count(Verdict.Care), Count(Verdict.Unsuited), Count(Verdict.Unchecked));
        })]);
    }
}

/// <param name="Promised">Whether the range promises it.</param>
internal sealed record ProcessCoverage(string Process, bool Promised, int Suits, int Care, int Unsuited, int Unchecked)
{
    public int Reached => Suits + Care;
}
