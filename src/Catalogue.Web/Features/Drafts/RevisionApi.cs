using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Uploads and their inspections.</summary>
internal static class RevisionApi
{
    public static void MapRevisionApi(this IEndpointRouteBuilder app)
    {
        const string Revisions = "/api/figures/{figure}/parts/{part}/variants/{variant}/revisions";
        app.MapMeshUpload(Revisions, UploadAsync, app.ServiceProvider.GetRequiredService<IOptions<CatalogueOptions>>().Value.MaxUploadBytes,
                ("unit", "The unit of the numbers in the file: mm, inch, …; absent = as the file says."), ("note", "Why this revision is there; readers see it."))
            .RequireAuthorization(AccountSetup.DesignerApi)
            .WithTags("Drafts")
            .WithSummary("Upload a mesh as the next revision of a variant")
            .WithDescription("A multipart form with one file and the fields “unit” (mm, inch, … ; absent = as the file says) and “note”, or the bare file as the body with the "
                + "fields “unit”, “note” and “file” (its name) in the address. The answer comes as soon as the file is safe; its inspection goes on in the background.")
            .Produces<RevisionView>(202).ProducesProblem(400).ProducesProblem(401).ProducesProblem(404).ProducesProblem(413).ProducesProblem(422).ProducesProblem(507);

        var revisions = app.MapDesignerGroup(Revisions, "Drafts");
        revisions.MapGet("/{number:int}", GetAsync).WithName("GetRevision").WithSummary("A revision with its inspection and verdicts");
        revisions.MapPost("/{number:int}/discard", DiscardAsync).WithSummary("Leave an unpublished revision out of what is published next; its number is not given again");
        revisions.MapPost("/{number:int}/keep", KeepAsync).WithSummary("Take a discarded revision back");

        var inspections = app.MapDesignerGroup("/api/inspections", "Drafts");
        inspections.MapGet("/{id:guid}", InspectionAsync).WithName("GetInspection").WithSummary("Where the inspection of an upload stands");
        inspections.MapPost("/{id:guid}/repeat", RepeatAsync).WithSummary("Ask for a mesh to be inspected again");
    }

    private static async Task<AcceptedAtRoute<RevisionView>> UploadAsync(
        string figure, string part, string variant, HttpRequest request, MeshUpload upload, CancellationToken cancellation)
    {
        var target = new UploadTarget(figure, part, variant);
        await upload.CheckAsync(target, cancellation);
        var form = await FileForm<StoredBlob>.ReadAsync(request, upload.KeepAsync, null, cancellation);
        var words = new UploadWords(form.FileName, UnitWords.Parse(form.Field("unit")), form.Field("note"));
        var revision = await upload.AddAsync(target, words, form.File, cancellation);
        return TypedResults.AcceptedAtRoute(RevisionView.Of(revision, [], null), "GetInspection", new { id = revision.InspectionId });
    }

    private static async Task<Ok<RevisionView>> GetAsync(
        string figure, string part, string variant, int number, CatalogueDb db, CancellationToken cancellation) =>
        TypedResults.Ok(await ViewAsync((await db.LoadForViewingAsync(figure, cancellation)).VariantOf(part, variant), number, db, cancellation));

    private static Task<Ok<RevisionView>> DiscardAsync(
        string figure, string part, string variant, int number, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        SetAsideAsync(figure, part, variant, number, discard: true, db, time, cancellation);

    private static Task<Ok<RevisionView>> KeepAsync(
        string figure, string part, string variant, int number, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        SetAsideAsync(figure, part, variant, number, discard: false, db, time, cancellation);

    private static async Task<Ok<RevisionView>> SetAsideAsync(
        string figure, string part, string variant, int number, bool discard, CatalogueDb db, TimeProvider time, CancellationToken cancellation)
    {
        var changed = await db.EditAsync(figure, f =>
        {
            f.VariantOf(part, variant).Discard(number, discard, time.GetUtcNow().UtcDateTime);
            return f.VariantOf(part, variant);
        }, cancellation);
        return TypedResults.Ok(await ViewAsync(changed, number, db, cancellation));
    }

    private static async Task<Ok<InspectionView>> InspectionAsync(Guid id, CatalogueDb db, CancellationToken cancellation) =>
        TypedResults.Ok(InspectionView.Of(await db.Inspections.AsNoTracking().SingleOrDefaultAsync(i => i.Id == id, cancellation) ?? throw NoInspection(id)));

    private static async Task<AcceptedAtRoute<InspectionView>> RepeatAsync(Guid id, InspectionQueue queue, CatalogueDb db, CancellationToken cancellation)
    {
        await queue.RepeatAsync(id, cancellation);
        var inspection = await db.Inspections.AsNoTracking().SingleOrDefaultAsync(i => i.Id == id, cancellation) ?? throw NoInspection(id);
        return TypedResults.AcceptedAtRoute(InspectionView.Of(inspection), "GetInspection", new { id });
    }

    private static RuleBrokenException NoInspection(Guid id) => new("not-found", $"There is no inspection {id} here.");

    private static async Task<RevisionView> ViewAsync(Variant variant, int number, CatalogueDb db, CancellationToken cancellation)
    {
        var revision = variant.Revisions.FirstOrDefault(r => r.Number == number)
            ?? throw new RuleBrokenException("not-found", $"“{variant.Part.Slug}” ({variant.Slug}) has no revision {number}.");
        var known = await KnownOfRevisions.LoadAsync(db, variant.Revisions, cancellation);
        return RevisionView.Of(revision, known.Verdicts[revision.Id], RevisionChange.Of(revision, variant.Revisions, known.Comparisons));
    }
}
