using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Web.Api;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Inspections;

/// <summary>Checks on a mesh for anybody, before anything is published.</summary>
internal static class InspectionApi
{
    public static void AddVisitorInspections(this WebApplicationBuilder builder, CatalogueOptions options)
    {
        builder.Services.AddScoped<VisitorInspection>();
        builder.Services.AddRazorPages(pages => pages.Conventions.AddPageApplicationModelConvention("/Inspections/Inspect",
            page => page.EndpointMetadata.Add(new RequestSizeLimitAttribute(MeshUploadEndpoint.BodyOf(options.MaxInspectionBytes)))));
    }

    public static void MapInspectionApi(this IEndpointRouteBuilder app) => app
        .MapMeshUpload("/api/inspections", InspectAsync, app.ServiceProvider.GetRequiredService<IOptions<CatalogueOptions>>().Value.MaxInspectionBytes,
            ("unit", "The unit of the numbers in the file: mm, inch, …; absent = as the file says, or guessed with a warning."),
            ("process", "The code of a process to judge on; may be repeated; absent = all."),
            ("volume", "A rectangular build volume to fit into: 64x114x152, in mm."),
            ("round", "A round build volume to fit into: 200x300, diameter x height in mm."))
        .RequireRateLimiting(RateLimits.Inspections)
        .WithTags("Inspections")
        .WithSummary("Every check on a mesh; nothing is kept")
        .WithDescription("A multipart form with one file and the fields below, or the bare file as the body with the fields in the address. The answer is the object that "
            + "“inspect --json” prints. Lengths in mm, areas in mm², volumes in mm³.")
        .Produces<InspectionReport>().ProducesProblem(400).ProducesProblem(413).ProducesProblem(422).ProducesProblem(429).ProducesProblem(503);

    private static async Task<ContentHttpResult> InspectAsync(HttpRequest request, VisitorInspection inspection, CancellationToken cancellation)
    {
        var form = await FileForm<SpooledMesh>.ReadAsync(request, inspection.SpoolAsync, null, cancellation);
        await using var mesh = form.File;
        var report = await inspection.InspectAsync(mesh, new()
        {
            File = form.FileName.Length > 0 ? MeshUpload.SafeName(form.FileName) : null,
            Unit = UnitWords.Parse(form.Field("unit")),
            Processes = await inspection.ProcessesAsync(form.Fields("process"), cancellation),
            Volume = Printer.Parse(null, form.Field("volume"), form.Field("round"), null).Volume,
        }, cancellation);
        return TypedResults.Text(InspectionJson.Write(report), "application/json");
    }
}
