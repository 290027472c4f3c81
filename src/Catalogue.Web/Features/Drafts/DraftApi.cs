using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Figures as designers make them: <c>/api/drafts</c> to look, <c>/api/figures</c> to write.</summary>
internal static class DraftApi
{
    private const int MaxPageSize = 100;

    public static void MapDraftApi(this IEndpointRouteBuilder app)
    {
        var drafts = app.MapDesignerGroup("/api/drafts", "Drafts");
        drafts.MapGet("/", ListAsync).WithSummary("Every figure, published or not, with what stands in the way of publishing it");
        drafts.MapGet("/{figure}", GetAsync).WithName("GetDraft").WithSummary("A figure with everything below it: parts, variants, revisions, inspections, verdicts");

        var figures = app.MapDesignerGroup("/api/figures", "Drafts");
        figures.MapPost("/", CreateAsync).WithSummary("A new figure, as a draft")
            .WithExample("""{"slug":"tide-clerk","title":"The Tide Clerk","heightMm":120,"scaleDenominator":12,"licence":"CC-BY-SA-4.0","summary":"Counts the waves."}""");
        figures.MapPut("/{figure}", DescribeAsync).WithSummary("Replace the words and numbers of a figure")
            .WithDescription("What is left out becomes empty. With “version” in the address the change is refused when the figure has changed since.")
            .WithExample("""{"title":"The Tide Clerk","heightMm":120,"licence":"CC-BY-SA-4.0","story":"Wound up at **low water**."}""");
        figures.MapPost("/{figure}/choices", AddChoiceAsync).WithSummary("A new choice: a named set of parts of which exactly one is built")
            .WithExample("""{"name":"Front of the chest"}""");
        figures.MapPut("/{figure}/choices/{choice}", ChangeChoiceAsync).WithSummary("Name the member of a choice that is built when nobody says otherwise")
            .WithExample("""{"defaultPart":"plain-front"}""");
        figures.MapPost("/{figure}/publish", PublishAsync).WithSummary("Show readers the latest revision of every variant, in one step")
            .WithDescription("Refused with everything that stands in the way under “obstacles”; readers then still see the last edition.")
            .WithExample("""{"note":"Thicker wrists.","version":12}""");
        figures.MapPost("/{figure}/withdraw", WithdrawAsync).WithSummary("Take a figure out of the range; nothing is deleted");
        figures.MapDelete("/{figure}", WithdrawAsync).WithSummary("The same: deleting a figure withdraws it, and its files and reports stay");
        figures.MapPost("/{figure}/reinstate", ReinstateAsync).WithSummary("Bring a withdrawn figure back");
    }

    /// <summary>Endpoints that need a designer's token, with small bodies.</summary>
    public static RouteGroupBuilder MapDesignerGroup(this IEndpointRouteBuilder app, string prefix, string tag) => app.MapGroup(prefix)
        .RequireAuthorization(AccountSetup.DesignerApi)
        .WithMetadata(new RequestSizeLimitAttribute(ApiSetup.MaxBodyBytes))
        .WithTags(tag)
        .ProducesProblem(401).ProducesProblem(404).ProducesProblem(409).ProducesProblem(422);

    private static async Task<Ok<DraftSheet>> ListAsync(CatalogueDb db, CancellationToken cancellation, string? status = null, int page = 1, int size = 20)
    {
        FigureStatus? wanted = status is null ? null
            : Words.TryParse<FigureStatus>(status, out var known) ? known
            : throw new RuleBrokenException("status-invalid", $"“{status}” is not one of: {string.Join(", ", Words.All<FigureStatus>())}.");
        var (items, total) = await db.ListDraftsAsync(wanted, Math.Clamp(page, 1, 1_000_000), Math.Clamp(size, 1, MaxPageSize), cancellation);
        return TypedResults.Ok(new DraftSheet(items, total));
    }

    private static async Task<Ok<DraftView>> GetAsync(string figure, CatalogueDb db, CancellationToken cancellation) =>
        TypedResults.Ok(await DraftView.OfAsync(await db.LoadForViewingAsync(figure, cancellation), db, cancellation));

    private static async Task<CreatedAtRoute<DraftView>> CreateAsync(FigureWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation)
    {
        var figure = await db.AddFigureAsync(words.Create(time.GetUtcNow().UtcDateTime), cancellation);
        return TypedResults.CreatedAtRoute(await DraftView.OfAsync(figure, db, cancellation), "GetDraft", new { figure = figure.Slug });
    }

    private static async Task<Ok<DraftView>> DescribeAsync(
        string figure, FigureWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation, int? version = null)
    {
        if (!string.IsNullOrWhiteSpace(words.Slug) && words.Slug != figure)
            throw new RuleBrokenException("slug-fixed", $"A figure keeps its address, because others link to it. Nothing was changed; leave “slug” out.");
        var changed = await db.EditAsync(figure, f =>
        {
            f.Describe(words.Text(), time.GetUtcNow().UtcDateTime);
            return f;
        }, cancellation, version);
        return TypedResults.Ok(await DraftView.OfAsync(changed, db, cancellation));
    }

    private static async Task<Created<ChoiceView>> AddChoiceAsync(
        string figure, ChoiceWords words, CatalogueDb db, TimeProvider time, HttpRequest request, CancellationToken cancellation)
    {
        var choice = await db.EditAsync(figure, f => f.AddChoice(Slug.GivenOrFrom(words.Slug, words.Name), words.Name ?? "", time.GetUtcNow().UtcDateTime), cancellation);
        return TypedResults.Created(request.PathBase + $"/api/drafts/{figure}", new ChoiceView(choice.Slug, choice.Name, null));
    }

    private static async Task<Ok<ChoiceView>> ChangeChoiceAsync(
        string figure, string choice, DefaultMember words, CatalogueDb db, TimeProvider time, CancellationToken cancellation)
    {
        var changed = await db.EditAsync(figure, f =>
        {
            var found = f.ChoiceOf(choice);
            found.MakeDefault(f.PartOf(words.DefaultPart), time.GetUtcNow().UtcDateTime);
            return found;
        }, cancellation);
        return TypedResults.Ok(new ChoiceView(changed.Slug, changed.Name, words.DefaultPart));
    }

    private static async Task<Ok<EditionView>> PublishAsync(
        string figure, CatalogueDb db, TimeProvider time, CancellationToken cancellation, PublishWords? words = null)
    {
        var edition = await db.EditAsync(figure, f => f.Publish(words?.Note, time.GetUtcNow().UtcDateTime), cancellation, words?.Version);
        return TypedResults.Ok(new EditionView(edition.Number, edition.Note, edition.PublishedAt, edition.Entries.Count));
    }

    private static Task<Ok<DraftView>> WithdrawAsync(string figure, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        ChangeAsync(figure, db, f => f.Withdraw(time.GetUtcNow().UtcDateTime), cancellation);

    private static Task<Ok<DraftView>> ReinstateAsync(string figure, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        ChangeAsync(figure, db, f => f.Reinstate(time.GetUtcNow().UtcDateTime), cancellation);

    private static async Task<Ok<DraftView>> ChangeAsync(string figure, CatalogueDb db, Action<Figure> change, CancellationToken cancellation)
    {
        var changed = await db.EditAsync(figure, f =>
        {
            change(f);
            return f;
        }, cancellation);
        return TypedResults.Ok(await DraftView.OfAsync(changed, db, cancellation));
    }
}

internal sealed record DraftSheet(IReadOnlyList<DraftSummary> Items, int Total);

internal sealed record ChoiceWords(string? Slug, string? Name);

internal sealed record DefaultMember(string? DefaultPart);

/// <param name="Note">What changed, for readers.</param>
/// <param name="Version">The figure's version that was looked at; publishing is refused when it has changed since. Absent = whatever is there now.</param>
internal sealed record PublishWords(string? Note, int? Version);
