using Catalogue.Data.Ranges;
using Catalogue.Geometry.Fit;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Model.Ranges;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Matrix;

/// <summary>The whole range on every process for one build volume: the visitor's, or the one the range promises.</summary>
internal sealed class MatrixPageModel(RangeSearch search, Masthead masthead, Visitor visitor) : PageModel
{
    /// <summary>Rows on a page.</summary>
    public const int PageSize = 200;

    public RangeMatrix Matrix { get; private set; } = null!;
    public RangeSnapshot Snapshot { get; private set; } = null!;
    public RangePromise Promise { get; private set; } = null!;
    public BuildVolume Volume { get; private set; }

    /// <summary>True when the volume is the promised one.</summary>
    public bool IsPromised { get; private set; }

    public BuildVolume PromisedVolume => BuildVolume.Rectangular(Promise.WidthMm, Promise.DepthMm, Promise.HeightMm);

    public MatrixFilters Filters { get; private set; } = null!;

    /// <summary>The rows of this page that the filters leave, in their order.</summary>
    public IReadOnlyList<MatrixRow> Rows => Matrix.Rows;

    public int Pages => Math.Max(1, (Matrix.Total + PageSize - 1) / PageSize);

    /// <summary>How much of the range is reached, whatever the filters.</summary>
    public MatrixCoverage Coverage { get; private set; } = null!;

    /// <summary>The printer a cell's link asks about.</summary>
    public Printer PrinterOf(string process) => new(process, Volume);

    /// <summary>The address of this matrix sorted another way, or as another format.</summary>
    public string Address(string path, string sort, int page = 1)
    {
        var query = Filters.Query(sort, page);
        return visitor.Link(path + (query.Length > 0 ? "?" + query : ""), visitor.Printer with { Volume = Volume });
    }

    /// <summary>What a row opens to: processes with the same reasons together, those where nothing is to be said left out.</summary>
    public static IEnumerable<MatrixReasons> ReasonsOf(MatrixRow row) => MatrixReasons.Of(row);

    public string NameOf(string process) => Snapshot.NameOf(process);

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        Promise = await masthead.RangeAsync();
        Snapshot = await search.SnapshotAsync(cancellation);
        if (visitor.LinkProblem is { } problem) throw new RuleBrokenException("volume-invalid", Sentence.FromWords(problem));
        Volume = visitor.Printer.Volume ?? PromisedVolume;
        IsPromised = Volume == PromisedVolume;
        Filters = MatrixFilters.Read(Request.Query, [.. Snapshot.Processes.Select(p => p.Code)]);
        Matrix = await search.MatrixAsync(Filters.For(Volume, null, Promise) with { Size = PageSize }, cancellation);
        Coverage = MatrixCoverage.Of(Matrix, Promise);
    }
}
