using System.ComponentModel;
using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Drafts;

/// <summary>What designers say against computed cares.</summary>
internal static class OverrulingApi
{
    public static void MapOverrulingApi(this IEndpointRouteBuilder app)
    {
        var overrulings = app.MapDesignerGroup("/api/figures/{figure}/parts/{part}/variants/{variant}/revisions/{number:int}/overrulings", "Drafts");
        overrulings.MapGet("/", ListAsync).WithSummary("What was said against computed cares of a revision, those taken back too, newest first");
        overrulings.MapPut("/{process}/{code}", OverruleAsync).WithSummary("Overrule a computed care of a revision on a process, with the reason")
            .WithDescription("Readers see at once what was computed, that it is overruled, by whom and why; it no longer counts in the verdict. What stops cannot be overruled, nor what others reported. "
                + "The next revision is judged afresh.")
            .WithExample("""{"reason":"Printed forty times; the wall holds because the peg fills it."}""");
        overrulings.MapDelete("/{process}/{code}", WithdrawAsync).WithSummary("Take an overruling back; it stays in the history");
    }

    private static async Task<Ok<OverrulingList>> ListAsync(string figure, string part, string variant, int number, CatalogueDb db, CancellationToken cancellation)
    {
        var revision = (await db.LoadForViewingAsync(figure, cancellation)).VariantOf(part, variant).RevisionOf(number);
        var items = OverrulingView.Of(revision);
        return TypedResults.Ok(new OverrulingList(items, items.Count));
    }

    private static async Task<Ok<OverrulingView>> OverruleAsync(
        string figure, string part, string variant, int number, [Description("A code such as VPP-rigid.")] string process, [Description("The finding's code, such as hole.thin-wall.")] string code,
        OverrulingWords words, CatalogueDb db, Signature signature, TimeProvider time, HttpContext http, CancellationToken cancellation) =>
        TypedResults.Ok(OverrulingView.Of(await db.OverruleAsync(figure, f => f.VariantOf(part, variant), new(number, process, code), words.Reason, await signature.OfAsync(http.User), Now(time), cancellation)));

    private static async Task<Ok<OverrulingView>> WithdrawAsync(
        string figure, string part, string variant, int number, string process, string code, CatalogueDb db, Signature signature, TimeProvider time, HttpContext http,
        CancellationToken cancellation) =>
        TypedResults.Ok(OverrulingView.Of(await db.WithdrawOverrulingAsync(figure, f => f.VariantOf(part, variant), new(number, process, code), await signature.OfAsync(http.User), Now(time), cancellation)));

    private static DateTime Now(TimeProvider time) => time.GetUtcNow().UtcDateTime;
}

/// <param name="Reason">Why the finding does not hold; readers see it.</param>
internal sealed record OverrulingWords(string? Reason);

internal sealed record OverrulingList(IReadOnlyList<OverrulingView> Items, int Total);

/// <param name="WithdrawnAt">When it was taken back, or said anew with another reason; absent while it stands.</param>
internal sealed record OverrulingView(string Process, string Code, string Reason, string By, DateTime At, DateTime? WithdrawnAt, string? WithdrawnBy)
{
    public static OverrulingView Of(Overruling overruling) => new(overruling.Process, overruling.Code, overruling.Reason, overruling.By, overruling.At,
        overruling.WithdrawnAt, overruling.Stands ? null : overruling.WithdrawnBy);

    public static IReadOnlyList<OverrulingView> Of(Revision revision) => [.. revision.Overrulings.OrderByDescending(o => o.At).Select(Of)];
}
