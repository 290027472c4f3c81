using Catalogue.Data.Ranges;
using Catalogue.Geometry.Fit;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Matrix;

/// <summary>The whole range on every process for one build volume: the visitor's, or the one the range promises.</summary>
internal sealed class MatrixPageModel(RangeSearch search, Masthead masthead, Visitor visitor) : PageModel
{
    public RangeMatrix Matrix { get; private set; } = null!;
    public RangeSnapshot Snapshot { get; private set; } = null!;
    public RangePromise Promise { get; private set; } = null!;
    public BuildVolume Volume { get; private set; }

    /// <summary>True when the volume is the promised one.</summary>
    public bool IsPromised { get; private set; }

    public BuildVolume PromisedVolume => BuildVolume.Rectangular(Promise.WidthMm, Promise.DepthMm, Promise.HeightMm);

    public MatrixFilters Filters { get; private set; } = null!;

    /// <summary>The rows that the filters leave, in their order.</summary>
    public IReadOnlyList<MatrixRow> Rows { get; private set; } = [];

    /// <summary>How many figures have which verdict on a process.</summary>
    public int Count(string process, Verdict verdict) => Matrix.Rows.Count(r => r.Cells.Any(c => c.Process == process && c.Verdict.Verdict == verdict));

    /// <summary>Figures that suit, with or without care, on every promised process.</summary>
    public int Kept => Matrix.Rows.Count(r => MatrixFilters.Keeps(r, Promise));

    /// <summary>The printer a cell's link asks about.</summary>
    public Printer PrinterOf(string process) => new(process, Volume);

    /// <summary>The address of this matrix sorted another way, or as another format.</summary>
    public string Address(string path, string sort)
    {
        var words = new List<string>();
        if (Filters.Words.Length > 0) words.Add("q=" + Uri.EscapeDataString(Filters.Words));
        if (Filters.OnlyGaps) words.Add("show=gaps");
        if (sort != MatrixFilters.ByTitle) words.Add("sort=" + sort);
        return visitor.Link(path + (words.Count > 0 ? "?" + string.Join('&', words) : ""), visitor.Printer with { Volume = Volume });
    }

    /// <summary>The figures' reasons in one look: each process that is not all good, with the sentence that decides.</summary>
    public static IEnumerable<MatrixCell> Troubles(MatrixRow row) => row.Cells.Where(c => c.Verdict.Verdict != Verdict.Suits);

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        Promise = await masthead.RangeAsync();
        Snapshot = await search.SnapshotAsync(cancellation);
        if (visitor.LinkProblem is { } problem) throw new RuleBrokenException("volume-invalid", problem);
        Volume = visitor.Printer.Volume ?? PromisedVolume;
        IsPromised = Volume == PromisedVolume;
        Matrix = await search.MatrixAsync(Volume, null, cancellation);
        Filters = MatrixFilters.Read(Request.Query, Matrix.Processes);
        Rows = Filters.Of(Matrix, Promise);
    }
}
