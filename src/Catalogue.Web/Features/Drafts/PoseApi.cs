using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Where all parts sit at once, from one 3MF file.</summary>
internal static class PoseApi
{
    public static void MapPoseApi(this IEndpointRouteBuilder app) => app
        .MapMeshUpload("/api/figures/{figure}/poses", PlaceAsync, app.ServiceProvider.GetRequiredService<IOptions<CatalogueOptions>>().Value.MaxInspectionBytes)
        .RequireAuthorization(AccountSetup.DesignerApi)
        .WithTags("Drafts")
        .WithSummary("Say where all parts sit, by a 3MF file whose build is the assembled figure")
        .WithDescription("Things in the build are recognised by their meshes: each is the latest upload of a part, turned and moved. Nothing of the file is kept. Parts of which the build holds "
            + "another number than the figure needs stay where they were, and are told.")
        .Produces<PlacedFromBuild>().ProducesProblem(401).ProducesProblem(404).ProducesProblem(413).ProducesProblem(422);

    private static async Task<Ok<PlacedFromBuild>> PlaceAsync(
        string figure, HttpRequest request, PlacingFromBuild placing, IOptions<CatalogueOptions> options, CancellationToken cancellation)
    {
        var form = await FileForm<MemoryStream>.ReadAsync(request, (content, stop) => content.ReadWholeAsync(options.Value.MaxInspectionBytes, () => new BlobTooLargeException(options.Value.MaxInspectionBytes), stop), null, cancellation);
        await using var build = form.File;
        return TypedResults.Ok(await placing.PlaceAsync(figure, build, cancellation));
    }
}
