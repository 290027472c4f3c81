using System.Text.Json;
using Catalogue.Data;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Web.Accounts;
using Catalogue.Web.Inspection;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Inspections as they go on, told by the server (HTML Living Standard, section 9.2, server-sent events).</summary>
internal static class InspectionEvents
{
    /// <summary>The same for a page, whose browser has a cookie and no token.</summary>
    public const string ForPages = "/inspections/events";

    /// <summary>The identifier of the last event: a browser that comes back with it has nothing to wait for.</summary>
    private const string End = "end";

    /// <summary>Something is sent at least this often, so that nobody on the way takes the connection for dead.</summary>
    private static readonly TimeSpan Silence = TimeSpan.FromSeconds(15);

    public static void MapInspectionEvents(this IEndpointRouteBuilder app)
    {
        const string Description = "An event “progress” whenever something changes and “finished” when an inspection is; then the answer ends. The data is JSON: id, state, percent of the whole, "
            + "stage, and the same in words. Every answer begins with where things stand, so nothing is lost by coming late or again.";
        var inspections = app.MapDesignerGroup("/api/inspections", "Drafts");
        inspections.MapGet("/{id:guid}/events", (Guid id, HttpContext context, CatalogueDb db, InspectionWatch watch, IHostApplicationLifetime life) => TellAsync([id], context, db, watch, life))
            .WithSummary("Follow an inspection (text/event-stream)").WithDescription(Description)
            .Produces(200, contentType: "text/event-stream").Produces(204).ProducesProblem(503);
        inspections.MapGet("/events", TellAsync)
            .WithSummary("Follow several inspections over one connection (text/event-stream)")
            .WithDescription(Description + FormattableString.Invariant($" Name up to {InspectionWatch.MostInspections}: ?id=…&id=…."))
            .Produces(200, contentType: "text/event-stream").Produces(204).ProducesProblem(503);
        app.MapGet(ForPages, TellAsync).RequireAuthorization(AccountSetup.DesignerPages).ExcludeFromDescription();
    }

    private static async Task TellAsync([FromQuery(Name = "id")] Guid[] ids, HttpContext context, CatalogueDb db, InspectionWatch watch, IHostApplicationLifetime life)
    {
        ids = [.. ids.Distinct()];
        if (ids.Length is 0 or > InspectionWatch.MostInspections)
            throw new RuleBrokenException("inspections-invalid", $"Name between one and {InspectionWatch.MostInspections} inspections: ?id=…&id=….");
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, life.ApplicationStopping);
        if (await db.Inspections.CountAsync(i => ids.Contains(i.Id), ended.Token) < ids.Length) throw new RuleBrokenException("not-found", $"One of these inspections is not here.");
        if (context.Request.Headers["Last-Event-ID"] == End)
        {
            context.Response.StatusCode = StatusCodes.Status204NoContent; // The standard's way to say: do not come again.
            return;
        }

        using var watcher = watch.Join(ids);
        context.Response.ContentType = "text/event-stream";
        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers["X-Accel-Buffering"] = "no"; // A common proxy's word for: hand it on as it comes.
        try
        {
            await WriteAsync(context.Response, watcher, ids.Length, context.RequestServices.GetRequiredService<TimeProvider>(), ended.Token);
        }
        catch (OperationCanceledException) when (ended.IsCancellationRequested)
        {
            // The reader went away, or the program stops: a browser comes again by itself.
        }
    }

    private static async Task WriteAsync(HttpResponse response, InspectionWatch.Watcher watcher, int count, TimeProvider time, CancellationToken ended)
    {
        await response.WriteAsync("retry: 3000\n\n", ended);
        await response.Body.FlushAsync(ended);
        var told = new Dictionary<Guid, InspectionStand>();
        var last = time.GetTimestamp();
        await foreach (var stands in watcher.StandsAsync(ended))
        {
            var changed = stands.Where(stand => told.GetValueOrDefault(stand.Id) != stand).ToList();
            foreach (var stand in changed)
            {
                told[stand.Id] = stand;
                var allDone = told.Count == count && told.Values.All(t => t.IsFinished);
                await response.WriteAsync($"event: {(stand.IsFinished ? "finished" : "progress")}\n{(allDone ? $"id: {End}\n" : "")}data: {JsonSerializer.Serialize(InspectionEvent.Of(stand), JsonSerializerOptions.Web)}\n\n", ended);
            }

            if (changed.Count == 0 && time.GetElapsedTime(last) < Silence) continue;
            if (changed.Count == 0) await response.WriteAsync(": still here\n\n", ended);
            await response.Body.FlushAsync(ended);
            last = time.GetTimestamp();
            if (told.Count == count && told.Values.All(t => t.IsFinished)) return;
        }
    }
}

/// <summary>What an event says.</summary>
internal sealed record InspectionEvent(Guid Id, string State, int Percent, string Stage, string Words)
{
    public static InspectionEvent Of(InspectionStand stand) =>
        new(stand.Id, Model.Words.Of(stand.State), stand.Percent, stand.Stage, InspectionWords.Of(stand.State, stand.Stage, stand.Percent));
}

/// <summary>Where an inspection stands, in a sentence: the same on the page and in the events that keep it fresh.</summary>
internal static class InspectionWords
{
    public static string Of(InspectionState state, string stage, int percent) => state switch
    {
        InspectionState.Queued => T($"Waiting to be inspected."),
        InspectionState.Running => T($"Being inspected: {StageWords.Of(stage)}, {percent} % of all checks done"),
        InspectionState.Done => T($"Inspected."),
        InspectionState.Rejected => T($"The file could not be read as a mesh."),
        _ => T($"The inspection broke off."),
    };
}
