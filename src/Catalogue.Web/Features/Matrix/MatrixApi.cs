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
    public static void MapMatrixApi(this IEndpointRouteBuilder app) => app.MapReaderGroup("/api/matrix", "Range")
        .MapGet("/", GetAsync).ProducesProblem(422)
        .WithSummary("Every figure on every process, for a build volume")
        .WithDescription("Without a volume, for the one the range promises.");

    private static async Task<Ok<MatrixView>> GetAsync(
        RangeSearch search, Masthead masthead, HttpRequest request, CancellationToken cancellation,
        [Description("Only this process.")] string? process = null,
        [Description("A build volume, width x depth x height in mm: 64x114x152.")] string? volume = null,
        [Description("A round build volume, diameter x height in mm: 200x300.")] string? round = null,
        [Description("Kept free on every side, in mm.")] double? margin = null)
    {
        _ = (process, volume, round, margin);
        var printer = PrinterLink.Read(request.Query);
        if (printer is not null) (await search.SnapshotAsync(cancellation)).CheckKnown(printer);
        var promise = await masthead.RangeAsync();
        var room = printer?.Volume ?? BuildVolume.Rectangular(promise.WidthMm, promise.DepthMm, promise.HeightMm);
        var matrix = await search.MatrixAsync(room, printer?.Process is { } only ? [only] : null, cancellation);
        return TypedResults.Ok(new MatrixView(matrix.Processes, room.ToString(), room.MarginMm,
            [.. matrix.Rows.Select(r => new MatrixRowView(r.Figure.Slug, r.Figure.Title, [.. r.Cells.Select(MatrixCellView.Of)]))]));
    }
}

/// <param name="Volume">The build volume the verdicts are for: three lengths in mm, or two of a round one.</param>
internal sealed record MatrixView(IReadOnlyList<string> Processes, string Volume, double MarginMm, IReadOnlyList<MatrixRowView> Rows);

internal sealed record MatrixRowView(string Figure, string Title, IReadOnlyList<MatrixCellView> Cells);

/// <param name="Why">The verdict in one sentence.</param>
internal sealed record MatrixCellView(string Process, Verdict Verdict, string Why)
{
    public static MatrixCellView Of(MatrixCell cell) => new(cell.Process, cell.Verdict.Verdict, VerdictSentence.Of(cell.Verdict, withVolume: true));
}
