using System.ComponentModel;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model.Printers;
using Catalogue.Model.Scaling;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Scaling;

/// <summary>Figures at another size, for programs.</summary>
internal static class ScaleApi
{
    public static void MapScaleApi(this IEndpointRouteBuilder app) => app.MapReaderGroup("/api/figures/{figure}/scale", "Figures")
        .MapGet("/", GetAsync).ProducesProblem(404).ProducesProblem(422)
        .WithSummary("A figure printed at another size on a printer: the verdict, what changes, how far it goes, which rods to take")
        .WithDescription("Judged from stored measurements; the files stay as they were published and are scaled by whoever prints them. Name a process, a volume, or both.");

    private static async Task<Ok<ScaleView>> GetAsync(
        string figure, [AsParameters] PrinterWords printer, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation,
        [Description("Of the drawn size, 25 to 400; 100 without.")] string? percent = null)
    {
        var scale = PrintScale.Parse(percent ?? "100");
        var answer = await FigureAnswer.LoadAsync(db, search, figure, PrinterLink.Read(request.Query) ?? Printer.Unknown, cancellation);
        return TypedResults.Ok(ScaleView.Of(await RescaledAnswer.OfAsync(answer, scale, search, cancellation)));
    }
}
