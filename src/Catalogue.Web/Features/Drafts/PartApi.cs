using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Parts of a figure and the variants of a part.</summary>
internal static class PartApi
{
    public static void MapPartApi(this IEndpointRouteBuilder app)
    {
        var parts = app.MapDesignerGroup("/api/figures/{figure}/parts", "Drafts");
        parts.MapPost("/", AddPartAsync).WithSummary("A new part")
            .WithExample("""{"name":"Left arm","quantity":1,"role":"required"}""");
        parts.MapPut("/{part}", ChangePartAsync).WithSummary("Replace the words, quantity and role of a part")
            .WithExample("""{"name":"Lit front","role":"choice","choice":"front-of-the-chest"}""");
        parts.MapDelete("/{part}", RemovePartAsync).WithSummary("Take a part out of the next edition; its revisions stay");
        parts.MapPost("/{part}/restore", RestorePartAsync).WithSummary("Put a part that was taken out back");
        parts.MapPut("/{part}/poses", PlaceAsync).WithSummary("Say where each copy of a part sits in the assembled figure")
            .WithDescription("One pose per copy, in mm, with a rotation of nine numbers, row-major; an empty list = as in its file.")
            .WithExample("""{"poses":[{"x":0,"y":-12.5,"z":40,"rotation":[1,0,0,0,1,0,0,0,1]}]}""");
        parts.MapPost("/{part}/variants", AddVariantAsync).WithSummary("A new variant: one shape of the part, for one or more processes")
            .WithExample("""{"name":"Sleeved","processes":["VPP-rigid","VPP-tough"],"reservations":{"VPP-rigid":"Drain it well before curing."}}""");
        parts.MapPut("/{part}/variants/{variant}", ChangeVariantAsync).WithSummary("Replace the words and the processes of a variant");
        parts.MapDelete("/{part}/variants/{variant}", RemoveVariantAsync).WithSummary("Take a variant out of the next edition; its revisions stay");
        parts.MapPost("/{part}/variants/{variant}/restore", RestoreVariantAsync).WithSummary("Put a variant that was taken out back");
    }

    private static async Task<Created<PartView>> AddPartAsync(
        string figure, PartWords words, CatalogueDb db, TimeProvider time, HttpRequest request, CancellationToken cancellation)
    {
        var part = await db.EditAsync(figure, f => words.AddTo(f, Now(time)), cancellation);
        return TypedResults.Created(request.PathBase + $"/api/drafts/{figure}", View(part));
    }

    private static async Task<Ok<PartView>> ChangePartAsync(
        string figure, string part, PartWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(View(await db.EditAsync(figure, f => words.ApplyTo(f.PartOf(part), Now(time)), cancellation)));

    private static async Task<Ok<PartView>> PlaceAsync(
        string figure, string part, PartPoses poses, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(View(await db.EditAsync(figure, f =>
        {
            f.PartOf(part).Place(poses.Poses ?? [], Now(time));
            return f.PartOf(part);
        }, cancellation)));

    private static async Task<NoContent> RemovePartAsync(string figure, string part, CatalogueDb db, TimeProvider time, CancellationToken cancellation)
    {
        await db.EditAsync(figure, f => f.RemovePart(f.PartOf(part), Now(time)), cancellation);
        return TypedResults.NoContent();
    }

    private static async Task<Ok<PartView>> RestorePartAsync(string figure, string part, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(View(await db.EditAsync(figure, f =>
        {
            f.RestorePart(f.PartOf(part), Now(time));
            return f.PartOf(part);
        }, cancellation)));

    private static async Task<Created<VariantView>> AddVariantAsync(
        string figure, string part, VariantWords words, CatalogueDb db, TimeProvider time, HttpRequest request, CancellationToken cancellation)
    {
        var variant = await db.EditAsync(figure, f => words.AddTo(f.PartOf(part), Now(time)), cancellation);
        return TypedResults.Created(request.PathBase + $"/api/drafts/{figure}", View(variant));
    }

    private static async Task<Ok<VariantView>> ChangeVariantAsync(
        string figure, string part, string variant, VariantWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(View(await db.EditAsync(figure, f => words.ApplyTo(f.VariantOf(part, variant), Now(time)), cancellation)));

    private static async Task<NoContent> RemoveVariantAsync(
        string figure, string part, string variant, CatalogueDb db, TimeProvider time, CancellationToken cancellation)
    {
        await db.EditAsync(figure, f => f.VariantOf(part, variant).Remove(Now(time)), cancellation);
        return TypedResults.NoContent();
    }

    private static async Task<Ok<VariantView>> RestoreVariantAsync(
        string figure, string part, string variant, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(View(await db.EditAsync(figure, f =>
        {
            f.VariantOf(part, variant).Restore(Now(time));
            return f.VariantOf(part, variant);
        }, cancellation)));

    private static DateTime Now(TimeProvider time) => time.GetUtcNow().UtcDateTime;

    private static PartView View(Part part) => PartView.Of(part, KnownOfRevisions.Nothing);

    private static VariantView View(Variant variant) => VariantView.Of(variant, KnownOfRevisions.Nothing);
}
