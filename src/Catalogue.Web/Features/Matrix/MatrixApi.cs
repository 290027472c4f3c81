using System.ComponentModel;
using System.Globalization;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Fit;
using Catalogue.Model;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Matrix;

/// <summary>The matrix for programs.</summary>
internal static class MatrixApi
{
    /// <summary>Rows of one answer; more come in pages.</summary>
    private const int MostRows = 1_000;

    public static void MapMatrixApi(this IEndpointRouteBuilder app)
    {
        app.MapReaderGroup("/api/matrix", "Range").MapGet("/", GetAsync).ProducesProblem(422)
            .WithSummary("Every figure on every process, for a build volume")
            .WithDescription("Without a volume, for the one the range promises.");
        app.MapReaderGroup("/api/matrix.csv", "Range").MapGet("/", GetCsvAsync).Produces<string>(200, "text/csv").ProducesProblem(422)
            .WithSummary("The same as comma-separated values: per process the verdict, and why");
    }

    private static async Task<Ok<MatrixView>> GetAsync(
        [AsParameters] MatrixWords words, RangeSearch search, Masthead masthead, HttpRequest request, CancellationToken cancellation)
    {
        var size = request.Query["size"].ToString() is { Length: > 0 } text
            ? int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0 ? Math.Min(number, MostRows)
                : throw new RuleBrokenException("size-invalid", $"“{text}” is not a number for “size”: it counts from 1.")
            : MostRows;
        var (matrix, room) = await AskAsync(search, masthead, request, size, cancellation);
        return TypedResults.Ok(new MatrixView(matrix.Processes, room.ToString(), room.MarginMm, MatrixCoverage.Of(matrix, await masthead.RangeAsync()),
            [.. matrix.Rows.Select(r => new MatrixRowView(r.Figure.Slug, r.Figure.Title, [.. r.Cells.Select(MatrixCellView.Of)]))], matrix.Total));
    }

    private static async Task<FileContentHttpResult> GetCsvAsync(
        [AsParameters] MatrixWords words, RangeSearch search, Masthead masthead, HttpRequest request, CancellationToken cancellation)
    {
        var (matrix, _) = await AskAsync(search, masthead, request, null, cancellation);
        return TypedResults.File(MatrixCsv.Write(matrix.Processes, matrix.Rows), "text/csv; charset=utf-8", "matrix.csv");
    }

    private static async Task<(RangeMatrix Matrix, BuildVolume Room)> AskAsync(
        RangeSearch search, Masthead masthead, HttpRequest request, int? size, CancellationToken cancellation)
    {
        var printer = PrinterLink.Read(request.Query);
        var snapshot = await search.SnapshotAsync(cancellation);
        if (printer is not null) snapshot.CheckKnown(printer);
        var promise = await masthead.RangeAsync();
        var room = printer?.Volume ?? BuildVolume.Rectangular(promise.WidthMm, promise.DepthMm, promise.HeightMm);
        var filters = MatrixFilters.Read(request.Query, printer?.Process is { } only ? [only] : [.. snapshot.Processes.Select(p => p.Code)]);
        return (await search.MatrixAsync(filters.For(room, printer?.Process, promise) with { Size = size, Page = size is null ? 1 : filters.Page }, cancellation), room);
    }
}

/// <summary>What the matrix is asked, for the description of the API; <see cref="PrinterLink"/> and <see cref="MatrixFilters"/> read it.</summary>
internal sealed record MatrixWords(
    [property: Description("Only this process.")] string? Process,
    [property: Description("A build volume, width x depth x height in mm: 64x114x152.")] string? Volume,
    [property: Description("A round build volume, diameter x height in mm: 200x300.")] string? Round,
    [property: Description("Kept free on every side, in mm.")] double? Margin,
    [property: Description("Only figures with all these words in title, summary, parts or hardware.")] string? Q,
    [property: Description("all, or gaps: only figures that do not keep the range's promise.")] string? Show,
    [property: Description("Only figures with this verdict: suits, care, unsuited or unchecked.")] string? Verdict,
    [property: Description("With verdict: on this process; without, on any of those shown.")] string? On,
    [property: Description("title, height, newest, or a process code: the worst there first.")] string? Sort,
    [property: Description("Of the rows, from 1; JSON only.")] int? Page,
    [property: Description("Rows on a page, up to 1000; JSON only.")] int? Size);

/// <param name="Volume">The build volume the verdicts are for: three lengths in mm, or two of a round one.</param>
/// <param name="Total">How many figures the filters leave, on all pages.</param>
/// <param name="Coverage">How much of the range is reached, whatever the filters.</param>
internal sealed record MatrixView(IReadOnlyList<string> Processes, string Volume, double MarginMm, MatrixCoverage Coverage, IReadOnlyList<MatrixRowView> Rows, int Total);

internal sealed record MatrixRowView(string Figure, string Title, IReadOnlyList<MatrixCellView> Cells);

/// <param name="Why">The verdict in one sentence.</param>
/// <param name="UsualVerdict">With the usual member of every choice; absent where it is the same.</param>
/// <param name="Decides">The slugs of the parts that decide; absent where it suits.</param>
/// <param name="Overruled">How many cares the designer overrules; absent where none.</param>
internal sealed record MatrixCellView(string Process, Verdict Verdict, string Why, Verdict? UsualVerdict, IReadOnlyList<string>? Decides, int? Overruled)
{
    public static MatrixCellView Of(MatrixCell cell)
    {
        var verdict = cell.Verdict;
        return new(cell.Process, verdict.Verdict, VerdictSentence.Of(verdict, withVolume: true).ToString(), verdict.Usual.Verdict == verdict.Verdict ? null : verdict.Usual.Verdict,
            verdict.Verdict == Verdict.Suits ? null : [.. MatrixReasons.Deciding(verdict).Select(r => r.Part).Distinct()], verdict.Overruled.Count() is > 0 and var overruled ? overruled : null);
    }
}
