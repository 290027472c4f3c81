using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Wires the viewer.</summary>
internal static class ViewerSetup
{
    public static void AddViewer(this WebApplicationBuilder builder, CatalogueOptions options)
    {
        builder.Services.AddSingleton<ViewerLibrary>();
        builder.Services.AddSingleton(services => new ViewerDesk(
            services.GetRequiredService<IBlobStore>(), options, services.GetRequiredService<IHostApplicationLifetime>()));
        builder.Services.AddSingleton<IAfterInspection, ShapesAhead>();
    }

    public static void MapViewer(this IEndpointRouteBuilder app)
    {
        app.MapShapeApi();
        app.MapBallApi();
        app.MapOverlayApi();
        app.MapAssembledApi();
    }
}
