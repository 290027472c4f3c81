using Catalogue.Model.Comparison;
using Catalogue.Model.Repair;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Drafts;

/// <summary>A gentle repair of a revision: looked at first, then accepted as the next revision.</summary>
internal static class RepairApi
{
    private const string WhyNot = "Refused with a problem whose type ends in: “nothing-to-repair” (the mesh has no such flaw), “repair-no-better” (its flaws cannot be mended gently), "
        + "“file-several-items” (one file, several things to build), “mesh-rejected”, “repair-too-large”, “repair-too-long” (422); “inspection-pending”, “revision-discarded”, "
        + "“variant-removed” (409); “busy” (503).";

    public static void MapRepairApi(this IEndpointRouteBuilder app)
    {
        var repairs = app.MapDesignerGroup("/api/figures/{figure}/parts/{part}/variants/{variant}/revisions/{number:int}/repair", "Drafts");
        repairs.MapGet("/", GetAsync).WithSummary("What a gentle repair of a revision would change; nothing is changed by asking").ProducesProblem(503)
            .WithDescription("Cracks up to 0.02 mm stitched, triangles without area or there twice dropped, triangles and shells that face the wrong way turned, small flat holes (up to 5 mm) filled. "
                + "Answers the changes with their places, the state before and after, and how far the surface moves. Places and lengths in mm. " + WhyNot);
        repairs.MapPost("/", AcceptAsync).WithSummary("Accept the repair: the repaired mesh becomes the variant's next revision").ProducesProblem(503).ProducesProblem(507)
            .WithDescription("The revision repaired stays as it is. The new one is written in millimetres, stored and inspected like any upload, and not published. With “lastRevision” from the "
                + "proposal it is refused (409 “changed-meanwhile”) when a newer revision came in since. " + WhyNot)
            .WithExample("""{"lastRevision":2,"note":"Hole in the sole closed.","format":"stl"}""");
    }

    private static async Task<Ok<RepairView>> GetAsync(
        string figure, string part, string variant, int number, RevisionRepair repair, CancellationToken cancellation) =>
        TypedResults.Ok(RepairView.Of(await repair.ProposeAsync(new(figure, part, variant), number, cancellation)));

    private static async Task<AcceptedAtRoute<RevisionView>> AcceptAsync(
        string figure, string part, string variant, int number, RevisionRepair repair, CancellationToken cancellation, RepairAcceptance? accepted = null)
    {
        var revision = await repair.AcceptAsync(new(figure, part, variant), number, accepted ?? new(), cancellation);
        return TypedResults.AcceptedAtRoute(RevisionView.Of(revision, [], null), "GetInspection", new { id = revision.InspectionId });
    }
}

/// <param name="Revision">The revision that would be repaired.</param>
/// <param name="LastRevision">The variant's newest revision; send it with the acceptance.</param>
/// <param name="Change">How far the repaired surface is from the uploaded one, both ways, and what changed in size, volume and shape.</param>
/// <param name="Format">What the repaired mesh is written in unless another is asked for.</param>
/// <param name="Note">The new revision's note unless another is given.</param>
internal sealed record RepairView(
    int Revision, int LastRevision, IReadOnlyList<RepairStepReport> Changes, RepairState Before, RepairState After, MeshChange Change, RepairFormat Format, string Note)
{
    public static RepairView Of(RepairOffer offer) => new(offer.Revision.Number, offer.Variant.LastRevisionNumber, offer.Proposal.Changes, offer.Proposal.Before,
        offer.Proposal.After, offer.Proposal.Change, offer.Format, offer.Note);
}
