using System.ComponentModel;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Figures;

/// <summary>Published figures and parts for programs.</summary>
internal static class FigureApi
{
    public static void MapFigureApi(this IEndpointRouteBuilder app)
    {
        var figures = app.MapReaderGroup("/api/figures/{figure}", "Figures");
        figures.MapGet("/", GetAsync).ProducesProblem(404).ProducesProblem(422)
            .WithSummary("A published figure: words, verdicts, the files to print, hardware, joints and steps");
        figures.MapGet("/parts/{part}", GetPartAsync).ProducesProblem(404).ProducesProblem(422)
            .WithSummary("A part: every file and revision, what was measured, every finding on every process, and its fit");
        figures.MapGet("/hardware", GetHardwareAsync).ProducesProblem(404).ProducesProblem(422)
            .WithSummary("What is not printed; with a process, only what is needed on it");
    }

    private static async Task<Ok<FigureView>> GetAsync(
        string figure, [AsParameters] PrinterWords printer, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation,
        [Description("Another printer, as often as needed: VPP-flexible in the same volume, or MEX-rigid@220x220x250 in its own.")] string[]? also = null) =>
        TypedResults.Ok(FigureView.Of(await LoadAsync(figure, db, search, request, cancellation), request.PathBase));

    private static async Task<Ok<PartView>> GetPartAsync(
        string figure, string part, [AsParameters] PrinterWords printer, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation)
    {
        var answer = await LoadAsync(figure, db, search, request, cancellation, closely: part);
        var found = answer.Parts.FirstOrDefault(p => p.Part.Slug == part)
            ?? throw new RuleBrokenException("not-found", $"“{figure}” has no published part “{part}”.");
        return TypedResults.Ok(PartView.Of(answer, found, request.PathBase, withRevisions: true));
    }

    private static async Task<Ok<HardwareList>> GetHardwareAsync(
        string figure, [AsParameters] PrinterWords printer, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation)
    {
        var hardware = (await LoadAsync(figure, db, search, request, cancellation)).Hardware.Select(HardwareView.Of).ToList();
        return TypedResults.Ok(new HardwareList(hardware, hardware.Count));
    }

    private static Task<FigureAnswer> LoadAsync(
        string figure, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation, string? closely = null) =>
        FigureAnswer.LoadAsync(db, search, figure, PrinterLink.Read(request.Query) ?? Printer.Unknown, cancellation, closely,
            PrinterLink.Read(request.Query) is { } printer ? PrinterLink.ReadAlso(request.Query, printer) : null);
}

internal sealed record HardwareList(IReadOnlyList<HardwareView> Items, int Total);
