using Catalogue.Data.Ranges;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Matrix;

/// <summary>How much of the range is reached in a build volume: by process, and of its promise.</summary>
/// <param name="Kept">Figures that suit, with or without care, on every promised process.</param>
internal sealed record MatrixCoverage(int Total, int Kept, IReadOnlyList<string> Promised, IReadOnlyList<ProcessCoverage> Processes)
{
    public static MatrixCoverage Of(RangeMatrix matrix, RangePromise promise)
    {
        ArgumentNullException.ThrowIfNull(matrix);
        ArgumentNullException.ThrowIfNull(promise);
        return new(matrix.Rows.Count, matrix.Rows.Count(r => MatrixFilters.Keeps(r, promise)), promise.Processes, [.. matrix.Processes.Select((code, column) =>
        {
            int Count(Verdict verdict) => matrix.Rows.Count(r => r.Cells[column].Verdict.Verdict == verdict);
            return new ProcessCoverage(code, promise.Processes.Contains(code), Count(Verdict.Suits), Count(Verdict.Care), Count(Verdict.Unsuited), Count(Verdict.Unchecked));
        })]);
    }
}

/// <param name="Promised">Whether the range promises it.</param>
internal sealed record ProcessCoverage(string Process, bool Promised, int Suits, int Care, int Unsuited, int Unchecked)
{
    public int Reached => Suits + Care;
}
