using System.ComponentModel;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Matrix;

/// <summary>The matrix for programs.</summary>
internal static class MatrixApi
{
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
        var (matrix, rows, room) = await AskAsync(search, masthead, request, cancellation);
        return TypedResults.Ok(new MatrixView(matrix.Processes, room.ToString(), room.MarginMm,
            [.. rows.Select(r => new MatrixRowView(r.Figure.Slug, r.Figure.Title, [.. r.Cells.Select(MatrixCellView.Of)]))]));
    }

    private static async Task<FileContentHttpResult> GetCsvAsync(
        [AsParameters] MatrixWords words, RangeSearch search, Masthead masthead, HttpRequest request, CancellationToken cancellation)
    {
        var (matrix, rows, _) = await AskAsync(search, masthead, request, cancellation);
        return TypedResults.File(MatrixCsv.Write(matrix.Processes, rows), "text/csv; charset=utf-8", "matrix.csv");
    }

    private static async Task<(RangeMatrix Matrix, IReadOnlyList<MatrixRow> Rows, BuildVolume Room)> AskAsync(
        RangeSearch search, Masthead masthead, HttpRequest request, CancellationToken cancellation)
    {
        var printer = PrinterLink.Read(request.Query);
        if (printer is not null) (await search.SnapshotAsync(cancellation)).CheckKnown(printer);
        var promise = await masthead.RangeAsync();
        var room = printer?.Volume ?? BuildVolume.Rectangular(promise.WidthMm, promise.DepthMm, promise.HeightMm);
        var matrix = await search.MatrixAsync(room, printer?.Process is { } only ? [only] : null, cancellation);
        return (matrix, MatrixFilters.Read(request.Query, matrix.Processes).Of(matrix, promise), room);
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
    [property: Description("title, height, newest, or a process code: the worst there first.")] string? Sort);

/// <param name="Volume">The build volume the verdicts are for: three lengths in mm, or two of a round one.</param>
internal sealed record MatrixView(IReadOnlyList<string> Processes, string Volume, double MarginMm, IReadOnlyList<MatrixRowView> Rows);

internal sealed record MatrixRowView(string Figure, string Title, IReadOnlyList<MatrixCellView> Cells);

/// <param name="Why">The verdict in one sentence.</param>
internal sealed record MatrixCellView(string Process, Verdict Verdict, string Why)
{
    public static MatrixCellView Of(MatrixCell cell) => new(cell.Process, cell.Verdict.Verdict, VerdictSentence.Of(cell.Verdict, withVolume: true));
}
