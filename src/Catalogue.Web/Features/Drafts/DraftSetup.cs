using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Wires the designers' side.</summary>
internal static class DraftSetup
{
    public static void AddDrafts(this WebApplicationBuilder builder, CatalogueOptions options)
    {
        builder.Services.AddSingleton<FormToken>();
        builder.Services.AddScoped<RevisionRepair>();
        builder.Services.AddScoped<Signature>();
        builder.Services.AddScoped<PlacingFromBuild>();
        builder.Services.AddRazorPages(pages => pages.Conventions.AddPageApplicationModelConvention("/Drafts/Upload",
            page => page.EndpointMetadata.Add(new RequestSizeLimitAttribute(MeshUploadEndpoint.BodyOf(options.MaxUploadBytes)))));
    }

    public static void MapDrafts(this IEndpointRouteBuilder app)
    {
        app.MapDraftApi();
        app.MapPartApi();
        app.MapPoseApi();
        app.MapRevisionApi();
        app.MapInspectionEvents();
        app.MapRepairApi();
        app.MapOverrulingApi();
        app.MapAssemblyApi();
    }
}
