using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Printers;
using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Features.Printers;

/// <summary>The usual printer sizes: everybody reads them, the host changes them.</summary>
internal static class PresetApi
{
    public static void MapPresetApi(this IEndpointRouteBuilder app)
    {
        app.MapGet("/api/printers", ListAsync).WithTags("Printers")
            .WithSummary("Usual printers by size class, to begin from; “query” is what any address takes");
        var host = app.MapGroup("/api/printers").RequireAuthorization(AccountSetup.HostApi).WithMetadata(new RequestSizeLimitAttribute(ApiSetup.MaxBodyBytes)).WithTags("Printers")
            .ProducesProblem(401).ProducesProblem(403).ProducesProblem(404).ProducesProblem(422);
        host.MapPost("/", AddAsync).WithSummary("A new size at the end of the list; the host's token only")
            .WithExample("""{"name":"Small resin","volume":"65x115x150","marginMm":2,"process":"VPP-rigid","hint":"one figure at a time"}""");
        host.MapPut("/{id:guid}", ChangeAsync).WithSummary("Replace a size; the host's token only");
        host.MapDelete("/{id:guid}", RemoveAsync).WithSummary("Remove a size; the host's token only");
    }

    private static async Task<Ok<PresetList>> ListAsync(CatalogueDb db, CancellationToken cancellation)
    {
        var presets = (await db.PresetsAsync(cancellation)).Select(PresetView.Of).ToList();
        return TypedResults.Ok(new PresetList(presets, presets.Count));
    }

    private static async Task<Created<PresetView>> AddAsync(PresetWords words, CatalogueDb db, HttpRequest request, CancellationToken cancellation) =>
        TypedResults.Created(request.PathBase + "/api/printers", PresetView.Of(await db.AddPresetAsync(words.Text(), cancellation)));

    private static async Task<Ok<PresetView>> ChangeAsync(Guid id, PresetWords words, CatalogueDb db, CancellationToken cancellation) =>
        TypedResults.Ok(PresetView.Of(await db.ChangePresetAsync(id, words.Text(), cancellation)));

    private static async Task<NoContent> RemoveAsync(Guid id, CatalogueDb db, CancellationToken cancellation)
    {
        await db.RemovePresetAsync(id, cancellation);
        return TypedResults.NoContent();
    }
}

/// <param name="Volume">Three lengths in mm, or two of a round plate: 65x115x150, 180x280.</param>
/// <param name="Process">The process it is usually used for; absent = whichever.</param>
internal sealed record PresetWords(string? Name, string? Volume, double? MarginMm, string? Process, string? Hint)
{
    public PresetText Text() => new(Name, Volume, MarginMm ?? 0) { Process = Process, Hint = Hint };
}

internal sealed record PresetList(IReadOnlyList<PresetView> Items, int Total);

/// <param name="Query">For any address that takes a printer: <c>process=VPP-rigid&amp;volume=65x115x150&amp;margin=2</c>.</param>
internal sealed record PresetView(Guid Id, string Name, string Hint, string? Process, string? Volume, string? Round, double MarginMm, string Query)
{
    public static PresetView Of(PrinterPreset preset) => new(preset.Id, Known(preset.Name), Known(preset.Hint), preset.Process.Length > 0 ? preset.Process : null,
        preset.IsRound ? null : preset.Volume.ToString(), preset.IsRound ? preset.Volume.ToString() : null, preset.MarginMm, preset.Printer.Query());
}
